// What was learned, one row.
#include <SQLiteCpp/Column.h>
#include <SQLiteCpp/Statement.h>

#include <likelihet/book/learned_rows.hpp>
#include <likelihet/documents/number_bytes.hpp>

namespace likelihet::book {
std::optional<LearnedRecord> read_learned(const SQLite::Database& database) {
  SQLite::Statement query(database, "SELECT digest, document, draws FROM learned");
  if (!query.executeStep()) return std::nullopt;
  return LearnedRecord{query.getColumn(0).getString(), query.getColumn(1).getString(),
                       documents::numbers_of(query.getColumn(2).getString())};
}

void replace_learned(const SQLite::Database& database, const LearnedRecord& learned) {
  SQLite::Statement insert(
      database,
      "INSERT INTO learned (only, digest, document, draws) VALUES (1, ?, ?, ?) "
      "ON CONFLICT (only) DO UPDATE SET digest = excluded.digest, document = excluded.document, "
      "draws = excluded.draws");
  const std::string bytes = documents::bytes_of(learned.draws);
  insert.bindNoCopy(1, learned.digest);
  insert.bindNoCopy(2, learned.document);
  insert.bindNoCopy(3, bytes.data(), static_cast<int>(bytes.size()));
  insert.exec();
}

}  // namespace likelihet::book
