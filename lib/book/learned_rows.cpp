// What was learned, one row.
#include <SQLiteCpp/Column.h>
#include <SQLiteCpp/Statement.h>

#include <likelihet/book/learned_rows.hpp>
#include <likelihet/documents/evidence_digest.hpp>
#include <likelihet/documents/number_bytes.hpp>

namespace likelihet::book {
namespace {

constexpr std::size_t seal_length = 64;      // SHA-256 in hexadecimal digits
constexpr std::size_t evidence_length = 16;  // what the learned rows of earlier versions hold alone

// Of everything in the row, so that a change of any of it shows.
std::string seal_of(const LearnedRecord& learned) {
  return documents::tables_digest({learned.digest + '\n' + learned.document, learned.draws});
}

// Takes the seal off the digest and says whether it holds. Tables of an earlier version have none.
bool unsealed(LearnedRecord& learned) {
  std::string& digest = learned.digest;
  const bool sealed = digest.size() > seal_length && digest[digest.size() - seal_length - 1] == ':';
  if (!sealed) return digest.size() == evidence_length;
  const std::string seal = digest.substr(digest.size() - seal_length);
  digest.resize(digest.size() - seal_length - 1);
  return seal == seal_of(learned);
}

}  // namespace

std::optional<LearnedRecord> read_learned(const SQLite::Database& database) {
  SQLite::Statement query(database, "SELECT digest, document, draws FROM learned");
  if (!query.executeStep()) return std::nullopt;
  const std::string bytes = query.getColumn(2).getString();
  LearnedRecord learned{query.getColumn(0).getString(), query.getColumn(1).getString(),
                        documents::numbers_of(bytes)};
  learned.sound = unsealed(learned) && bytes.size() % sizeof(double) == 0;
  return learned;
}

void replace_learned(const SQLite::Database& database, const LearnedRecord& learned) {
  SQLite::Statement insert(
      database,
      "INSERT INTO learned (only, digest, document, draws) VALUES (1, ?, ?, ?) "
      "ON CONFLICT (only) DO UPDATE SET digest = excluded.digest, document = excluded.document, "
      "draws = excluded.draws");
  const std::string sealed = learned.digest + ':' + seal_of(learned);
  const std::string bytes = documents::bytes_of(learned.draws);
  insert.bindNoCopy(1, sealed);
  insert.bindNoCopy(2, learned.document);
  insert.bindNoCopy(3, bytes.data(), static_cast<int>(bytes.size()));
  insert.exec();
}

}  // namespace likelihet::book
