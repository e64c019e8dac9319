// The ledger's and the model's rows.
#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>

#include <likelihet/book/book.hpp>
#include <likelihet/colony/date.hpp>

namespace likelihet::book {

/// Adds entries that all happened at one moment. Numbers follow on from the largest there is, so
/// the caller holds the write lock. The database must outlive it.
class LedgerWriter {
 public:
  LedgerWriter(const SQLite::Database& database, const colony::Timestamp& at);
  /// `what` is one of the words of LedgerEntry; `id` is the record's, or the model's name.
  void add(const std::string& what, const std::string& id,
           const std::optional<std::string>& detail = std::nullopt);

 private:
  SQLite::Statement insert_;
  std::string at_;
};

/// The ledger in its order. `file` is for the message if an entry cannot be read. Throws
/// BookError{damaged} for an entry without a time or with one that is none.
std::vector<LedgerEntry> read_ledger(const SQLite::Database& database,
                                     const std::filesystem::path& file);

/// The number of the last entry; 0 where there is none.
std::int64_t last_entry(const SQLite::Database& database);

/// The text of the model document; nothing if the row is gone. As documents::write_model wrote it.
std::optional<std::string> read_model_text(const SQLite::Database& database);
/// Once in a book's life; a trigger refuses a second.
void insert_model(const SQLite::Database& database, const std::string& text);
/// The ledger must hold the old text first.
void update_model(const SQLite::Database& database, const std::string& text);

}  // namespace likelihet::book
