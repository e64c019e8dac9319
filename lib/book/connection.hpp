// One connection to a book's file: opened with every safeguard on, and of this version.
#pragma once

#include <filesystem>
#include <string>

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Transaction.h>

#include <likelihet/book/settings.hpp>

namespace likelihet::book {

/// Foreign keys on, synchronous FULL, defensive, the schema untrusted. Members throw BookError or
/// SQLite::Exception; the caller translates.
class Connection {
 public:
  /// Takes the name for a new book (refusing any file of that name), makes its tables and fills
  /// them: model and first entry of the ledger, in one transaction. On failure removes what it
  /// made.
  static Connection create(const std::filesystem::path& file, const Settings& settings,
                           const std::string& model_text, const std::string& model_name);
  /// Opens a book and brings an older version up to date.
  static Connection open(const std::filesystem::path& file, const Settings& settings);

  [[nodiscard]] SQLite::Database& database() { return database_; }

 private:
  explicit Connection(SQLite::Database database) : database_(std::move(database)) {}
  SQLite::Database database_;
};

/// A transaction that only reads: one state of the book for all its queries.
class Reading {
 public:
  explicit Reading(SQLite::Database& database)
      : transaction_(database, SQLite::TransactionBehavior::DEFERRED) {}

 private:
  SQLite::Transaction transaction_;  // rolled back at the end: there is nothing to commit
};

}  // namespace likelihet::book
