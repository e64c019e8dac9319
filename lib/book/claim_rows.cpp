// Reads and writes the tables `policy`, `claims`, `claim_ends` and `counted_tables`.
#include <SQLiteCpp/Column.h>
#include <SQLiteCpp/Statement.h>

#include <likelihet/book/claim_rows.hpp>
#include <likelihet/book/sqlite_errors.hpp>
#include <likelihet/book/statements.hpp>
#include <likelihet/documents/number_bytes.hpp>

namespace likelihet::book {
namespace {

colony::Timestamp moment_of(const Row& row, int at) {
  const auto moment = row.moment(at);
  if (!moment) row.refuse(at);
  return *moment;
}

ClaimRecord claim_of(const Row& row) {
  ClaimRecord claim{row.text(0), row.text(1),       moment_of(row, 2), row.whole(3),
                    row.text(4), row.maybe_text(5), row.text(6),       std::nullopt};
  if (row.maybe_text(7)) {
    claim.end = ClaimEnd{moment_of(row, 7), row.maybe_text(8), row.maybe_text(9).value_or("")};
  }
  return claim;
}

}  // namespace

std::optional<std::string> read_policy_text(const SQLite::Database& database) {
  SQLite::Statement query(database, "SELECT document FROM policy");
  if (!query.executeStep()) return std::nullopt;
  return query.getColumn(0).getString();
}

void write_policy_text(const SQLite::Database& database, const std::string& text) {
  SQLite::Statement write(database, read_policy_text(database)
                                        ? "UPDATE policy SET document = ?"
                                        : "INSERT INTO policy (only, document) VALUES (1, ?)");
  run(write, text);
}

std::vector<ClaimRecord> read_claims(const SQLite::Database& database,
                                     const std::filesystem::path& file) {
  SQLite::Statement query(
      database,
      "SELECT code, animal, claims.at, entries, evidence, tables, document, claim_ends.at, "
      "replaced_by, why FROM claims LEFT JOIN claim_ends ON claim = code ORDER BY sequence");
  const Row row(query, file);
  std::vector<ClaimRecord> claims;
  while (query.executeStep()) claims.push_back(claim_of(row));
  return claims;
}

void insert_claim(const SQLite::Database& database, const ClaimRecord& claim) {
  SQLite::Statement insert(
      database,
      "INSERT INTO claims (sequence, code, animal, at, entries, evidence, tables, document) VALUES "
      "((SELECT coalesce(max(sequence), 0) + 1 FROM claims), ?, ?, ?, ?, ?, ?, ?)");
  run(insert, claim.code, claim.animal, claim.at, claim.entries, claim.evidence, claim.tables,
      claim.document);
}

void insert_claim_end(const SQLite::Database& database, const std::string& code,
                      const ClaimEnd& end) {
  SQLite::Statement insert(
      database, "INSERT INTO claim_ends (claim, at, replaced_by, why) VALUES (?, ?, ?, ?)");
  run(insert, code, end.at, end.replaced_by, end.why);
}

std::optional<LearnedRecord> read_counted_tables(const SQLite::Database& database,
                                                 const std::string& digest) {
  SQLite::Statement query(database,
                          "SELECT digest, document, draws FROM counted_tables WHERE digest = ?");
  query.bindNoCopy(1, digest);
  if (!query.executeStep()) return std::nullopt;
  return LearnedRecord{query.getColumn(0).getString(), query.getColumn(1).getString(),
                       documents::numbers_of(query.getColumn(2).getString())};
}

void keep_counted_tables(const SQLite::Database& database, const std::string& digest,
                         const LearnedRecord& tables) {
  if (read_counted_tables(database, digest)) return;
  SQLite::Statement insert(database,
                           "INSERT INTO counted_tables (digest, document, draws) VALUES (?, ?, ?)");
  const std::string bytes = documents::bytes_of(tables.draws);
  insert.bindNoCopy(1, digest);
  insert.bindNoCopy(2, tables.document);
  insert.bindNoCopy(3, bytes.data(), static_cast<int>(bytes.size()));
  insert.exec();
}

}  // namespace likelihet::book
