// Migrations: which there are, how they run, and what they make.
#include <SQLiteCpp/Column.h>
#include <SQLiteCpp/Statement.h>

#include <likelihet/book/schema.hpp>

namespace likelihet::book {

std::vector<Migration> schema_migrations() {
  return {{1, schema_version_1()}, {2, schema_version_2()}, {3, schema_version_3()}};
}

int newest_version(const std::vector<Migration>& migrations) {
  return migrations.empty() ? 0 : migrations.back().to;
}

int schema_version(const SQLite::Database& database) {
  SQLite::Statement query(database, "PRAGMA user_version");
  return query.executeStep() ? query.getColumn(0).getInt() : 0;
}

void migrate(SQLite::Database& database, const std::vector<Migration>& migrations) {
  const int present = schema_version(database);
  for (const Migration& step : migrations) {
    if (step.to > present) {
      database.exec(step.statements);
      // A pragma takes no bound parameters.
      database.exec("PRAGMA user_version = " + std::to_string(step.to));
    }
  }
}

std::vector<SchemaPart> schema_parts(const SQLite::Database& database) {
  SQLite::Statement query(database,
                          "SELECT type, name, coalesce(sql, '') FROM sqlite_schema "
                          "WHERE name NOT LIKE 'sqlite\\_%' ESCAPE '\\' ORDER BY name, type");
  std::vector<SchemaPart> parts;
  while (query.executeStep()) {
    parts.push_back({query.getColumn(0).getString(), query.getColumn(1).getString(),
                     query.getColumn(2).getString()});
  }
  return parts;
}

std::vector<SchemaPart> expected_parts(const std::vector<Migration>& migrations) {
  SQLite::Database blank(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
  migrate(blank, migrations);
  return schema_parts(blank);
}

}  // namespace likelihet::book
