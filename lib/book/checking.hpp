// Finds what is wrong with an open book. All of it only reads, in the transaction that the caller
// holds.
#pragma once

#include <filesystem>
#include <vector>

#include <SQLiteCpp/Database.h>

#include <likelihet/book/schema.hpp>
#include <likelihet/colony/fault.hpp>

namespace likelihet::book {

/// SQLite's own checks: of the file's structure (integrity_check), of references, and that tables,
/// indexes and triggers are those that `migrations` make. The text of each table, index and trigger
/// is compared letter by letter. SQLite names up to 100 faults of structure (SQLite documentation,
/// "Pragma statements").
colony::Faults check_storage(const SQLite::Database& database,
                             const std::vector<Migration>& migrations);

/// The ledger is numbered 1, 2, ..., starts with the making of the book, and has one entry for each
/// record added and no other. Entries on completions and on replaced models are not held against
/// the records: those say nothing of what was there before.
colony::Faults check_ledger(const SQLite::Database& database);

}  // namespace likelihet::book
