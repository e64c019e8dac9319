// Finds what is wrong with an open book.
#pragma once

#include <filesystem>
#include <vector>

#include <SQLiteCpp/Database.h>

#include <likelihet/book/schema.hpp>
#include <likelihet/colony/fault.hpp>

namespace likelihet::book {

/// SQLite's own checks: of the file's structure (integrity_check), of references, and that tables,
/// indexes and triggers are those that `migrations` make.
colony::Faults check_storage(const SQLite::Database& database,
                             const std::vector<Migration>& migrations);

/// The ledger is numbered 1, 2, ..., starts with the making of the book, and has one entry for each
/// record added and no other.
colony::Faults check_ledger(const SQLite::Database& database);

}  // namespace likelihet::book
