// The versions of a book's schema, and the steps from one to the next.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include <SQLiteCpp/Database.h>

namespace likelihet::book {

/// "LKHT": stands at offset 68 of every book (SQLite database file format, section 1.3) and tells
/// it from other programs' databases.
inline constexpr std::uint32_t application_id = 0x4c4b4854;

/// One step: the statements that bring a book of version `to` - 1 to version `to`. Published steps
/// are never edited; a change of the schema is a new step. Several statements in one text, each
/// ended by a semicolon.
struct Migration {
  int to = 0;
  std::string statements;
};

/// Every step, `to` = 1, 2, ... without gaps.
std::vector<Migration> schema_migrations();

/// The version a list of steps leads to; 0 for an empty list.
int newest_version(const std::vector<Migration>& migrations);

/// The version that a database says it has. SQLite's user_version; 0 for a database that was never
/// given one.
int schema_version(const SQLite::Database& database);

/// Runs every step above the database's version and sets its version. The caller holds the
/// transaction, so that a failure or a kill leaves the old version whole. Nothing to do where the
/// version is the newest or later: the caller refuses later ones.
void migrate(SQLite::Database& database, const std::vector<Migration>& migrations);

/// One table, index or trigger, as SQLite keeps its text.
struct SchemaPart {
  std::string kind, name, text;
  friend bool operator==(const SchemaPart&, const SchemaPart&) = default;
};

/// The parts that a database has, by name; SQLite's own are left out.
std::vector<SchemaPart> schema_parts(const SQLite::Database& database);

/// The parts that a list of steps makes. Runs them in a database in memory.
std::vector<SchemaPart> expected_parts(const std::vector<Migration>& migrations);

/// The statements of each version, as published.
std::string schema_version_1();
std::string schema_version_2();
std::string schema_version_3();

}  // namespace likelihet::book
