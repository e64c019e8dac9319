// The rows of what was learned from the book.
#pragma once

#include <optional>

#include <SQLiteCpp/Database.h>

#include <likelihet/book/book.hpp>

namespace likelihet::book {

/// Nothing where nothing was learned yet. Not sound where digest, document or draws are not what
/// was put there: the row holds a SHA-256 over all three behind its digest, but for rows of earlier
/// versions.
std::optional<LearnedRecord> read_learned(const SQLite::Database& database);

/// Puts it in the place of what was there. The caller holds the transaction.
void replace_learned(const SQLite::Database& database, const LearnedRecord& learned);

}  // namespace likelihet::book
