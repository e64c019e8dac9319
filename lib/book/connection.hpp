// One connection to a book's file: opened with every safeguard on, and of this version.
#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Transaction.h>

#include <likelihet/book/settings.hpp>

namespace likelihet::book {

/// Foreign keys on, synchronous FULL, defensive, the schema untrusted. Members throw BookError or
/// SQLite::Exception; the caller translates. Defensive mode keeps SQL from writing to the file's
/// own structures; a schema that is not trusted cannot call functions with side effects (SQLite
/// documentation, "Defense Against The Dark Arts"). Readers go on beside a writer where the file
/// system can have a write-ahead log.
class Connection {
 public:
  /// Takes the name for a new book (refusing any file of that name), makes its tables and fills
  /// them: model and first entry of the ledger, in one transaction. On failure removes what it
  /// made. Uses SQLite only on the empty file that it has just made.
  static Connection create(const std::filesystem::path& file, const Settings& settings,
                           const std::string& model_text, const std::string& model_name);
  /// Opens a book and brings an older version up to date. Throws BookError as require_book() does.
  /// Migrating takes a write lock; a book of the newest version takes none. A copy of the older
  /// version is made first (copy_before_migration()); without it nothing is migrated.
  static Connection open(const std::filesystem::path& file, const Settings& settings);

  /// A book as it stands, of whatever version known here; nothing is migrated. Throws as opening
  /// does, but for what require_book() looks at.
  static SQLite::Database raw(const std::filesystem::path& file, const Settings& settings);

  /// What opening it took: nothing for a book of the newest version.
  [[nodiscard]] const std::optional<Migrated>& migrated() const { return migrated_; }

  /// Lives as long as the connection.
  [[nodiscard]] SQLite::Database& database() { return database_; }

 private:
  explicit Connection(SQLite::Database database, std::optional<Migrated> migrated = std::nullopt)
      : database_(std::move(database)), migrated_(std::move(migrated)) {}
  SQLite::Database database_;
  std::optional<Migrated> migrated_;
};

/// A transaction that only reads: one state of the book for all its queries. SQLite's snapshot
/// begins with the first query, not here.
class Reading {
 public:
  explicit Reading(SQLite::Database& database)
      : transaction_(database, SQLite::TransactionBehavior::DEFERRED) {}

 private:
  SQLite::Transaction transaction_;  // rolled back at the end: there is nothing to commit
};

}  // namespace likelihet::book
