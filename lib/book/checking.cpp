// The checks of a book's file and ledger.
#include <algorithm>
#include <map>
#include <string>
#include <utility>

#include <SQLiteCpp/Column.h>
#include <SQLiteCpp/Statement.h>

#include <likelihet/book/checking.hpp>

namespace likelihet::book {
namespace {

using colony::Faults;

constexpr const char* restore = "keep this file for study and work on from a copy made before";

void check_integrity(const SQLite::Database& database, Faults& faults) {
  SQLite::Statement query(database, "PRAGMA integrity_check");
  while (query.executeStep()) {
    const std::string found = query.getColumn(0).getString();
    if (found != "ok") {
      faults.push_back({"book: file", "SQLite finds: " + found, restore});
    }
  }
}

void check_references(const SQLite::Database& database, Faults& faults) {
  SQLite::Statement query(database, "PRAGMA foreign_key_check");
  while (query.executeStep()) {
    faults.push_back({"book: table " + query.getColumn(0).getString(),
                      "a row names what is not in the table " + query.getColumn(2).getString(),
                      restore});
  }
}

void check_schema(const SQLite::Database& database, const std::vector<Migration>& migrations,
                  Faults& faults) {
  std::map<std::pair<std::string, std::string>, std::string> expected;
  for (SchemaPart& part : expected_parts(migrations)) {
    expected.emplace(std::pair(part.kind, part.name), part.text);
  }
  for (const SchemaPart& part : schema_parts(database)) {
    const auto found = expected.find({part.kind, part.name});
    if (found == expected.end()) {
      faults.push_back({"book: " + part.kind + ' ' + part.name,
                        "this version makes no such " + part.kind, restore});
      continue;
    }
    if (found->second != part.text) {
      faults.push_back(
          {"book: " + part.kind + ' ' + part.name, "it is not as this version makes it", restore});
    }
    expected.erase(found);
  }
  for (const auto& [part, text] : expected) {
    faults.push_back({"book: " + part.first + ' ' + part.second, "it is missing", restore});
  }
}

/// One fault for each id that the query gives.
void check_ids(const SQLite::Database& database, const std::string& query_text,
               const std::string& place, const std::string& what, Faults& faults) {
  SQLite::Statement query(database, query_text);
  while (query.executeStep()) {
    faults.push_back({place + query.getColumn(0).getString(), what, restore});
  }
}

/// `records` is a query for the ids of a kind, `added` the ledger's words for a new one.
void check_entries(const SQLite::Database& database, const std::string& kind,
                   const std::string& records, const std::string& added, Faults& faults) {
  const std::string entries = "SELECT id FROM ledger WHERE what = '" + added + "'";
  check_ids(database, records + " EXCEPT " + entries, "book: " + kind + ' ',
            "the ledger does not say that it was added", faults);
  check_ids(database, entries + " EXCEPT " + records, "book: " + kind + ' ',
            "the ledger says that it was added, but it is not in the book", faults);
  check_ids(database, entries + " GROUP BY id HAVING count(*) > 1", "book: " + kind + ' ',
            "the ledger says more than once that it was added", faults);
}

}  // namespace

Faults check_storage(const SQLite::Database& database, const std::vector<Migration>& migrations) {
  Faults faults;
  check_integrity(database, faults);
  check_references(database, faults);
  check_schema(database, migrations, faults);
  return faults;
}

Faults check_ledger(const SQLite::Database& database) {
  Faults faults;
  check_ids(database,
            "SELECT number FROM (SELECT number, row_number() OVER (ORDER BY number) AS place "
            "FROM ledger) WHERE number <> place LIMIT 1",
            "book: ledger entry ", "an entry before it is missing", faults);
  check_ids(database,
            "SELECT 1 WHERE (SELECT group_concat(number) FROM ledger WHERE what = 'book made') "
            "IS NOT '1'",
            "book: ledger entry ", "it does not say, or another says, that the book was made",
            faults);
  check_entries(database, "animal", "SELECT id FROM animals", "animal added", faults);
  check_entries(database, "clutch", "SELECT id FROM clutches", "clutch added", faults);
  check_entries(database, "observation", "SELECT id FROM observations", "observation added",
                faults);
  check_entries(database, "claim", "SELECT code FROM claims", "claim published", faults);
  return faults;
}

}  // namespace likelihet::book
