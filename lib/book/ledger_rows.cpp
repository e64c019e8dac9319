// Reads and writes the tables `ledger` and `model`.
#include <likelihet/book/ledger_rows.hpp>
#include <likelihet/book/sqlite_errors.hpp>
#include <likelihet/book/statements.hpp>

namespace likelihet::book {

LedgerWriter::LedgerWriter(const SQLite::Database& database, const colony::Timestamp& at)
    : insert_(database,
              "INSERT INTO ledger (number, at, what, id, detail) "
              "VALUES ((SELECT coalesce(max(number), 0) + 1 FROM ledger), ?, ?, ?, ?)"),
      at_(at.text()) {}

void LedgerWriter::add(const std::string& what, const std::string& id,
                       const std::optional<std::string>& detail) {
  run(insert_, at_, what, id, detail);
}

std::vector<LedgerEntry> read_ledger(const SQLite::Database& database,
                                     const std::filesystem::path& file) {
  SQLite::Statement query(database,
                          "SELECT number, at, what, id, detail FROM ledger ORDER BY number");
  const Row row(query, file);
  std::vector<LedgerEntry> entries;
  while (query.executeStep()) {
    const auto at = row.moment(1);
    if (!at) {
      throw damaged(file, "an entry of the ledger has no time");
    }
    entries.push_back(
        {row.whole(0), *at, row.text(2), row.text(3), row.maybe_text(4).value_or("")});
  }
  return entries;
}

std::int64_t last_entry(const SQLite::Database& database) {
  SQLite::Statement query(database, "SELECT coalesce(max(number), 0) FROM ledger");
  query.executeStep();
  return query.getColumn(0).getInt64();
}

std::optional<std::string> read_model_text(const SQLite::Database& database) {
  SQLite::Statement query(database, "SELECT document FROM model");
  if (!query.executeStep()) {
    return std::nullopt;
  }
  return query.getColumn(0).getString();
}

void insert_model(const SQLite::Database& database, const std::string& text) {
  SQLite::Statement insert(database, "INSERT INTO model (only, document) VALUES (1, ?)");
  run(insert, text);
}

void update_model(const SQLite::Database& database, const std::string& text) {
  SQLite::Statement update(database, "UPDATE model SET document = ?");
  run(update, text);
}

}  // namespace likelihet::book
