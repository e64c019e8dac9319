// Binding values to a prepared statement and reading a row back, absent values as NULL.
#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>

#include <SQLiteCpp/Column.h>
#include <SQLiteCpp/Statement.h>

#include <likelihet/colony/date.hpp>

namespace likelihet::book {

/// Texts are not copied: they must live until the statement has run, as run()'s arguments do.
inline void bind_value(SQLite::Statement& statement, int at, const std::string& value) {
  statement.bindNoCopy(at, value);
}
inline void bind_value(SQLite::Statement& statement, int at, const colony::Date& value) {
  statement.bindNoCopy(at, value.text());
}
inline void bind_value(SQLite::Statement& statement, int at, const colony::Timestamp& value) {
  statement.bindNoCopy(at, value.text());
}
inline void bind_value(SQLite::Statement& statement, int at, double value) {
  statement.bind(at, value);
}
inline void bind_value(SQLite::Statement& statement, int at, std::int64_t value) {
  statement.bind(at, value);
}
inline void bind_value(SQLite::Statement& statement, int at, bool value) {
  statement.bind(at, static_cast<std::int64_t>(value));
}
inline void bind_value(SQLite::Statement& statement, int at, std::nullopt_t) {
  statement.bind(at);
}
template <class Value>
void bind_value(SQLite::Statement& statement, int at, const std::optional<Value>& value) {
  value ? bind_value(statement, at, *value) : statement.bind(at);
}

/// Binds every parameter in order, runs the statement, and makes it ready for the next values.
/// Types pick their binding at compile time; a value that is absent is NULL. After an exception the
/// statement must be reset before it is used again.
template <class... Values>
void run(SQLite::Statement& statement, const Values&... values) {
  int at = 0;
  (bind_value(statement, ++at, values), ...);
  statement.exec();
  statement.reset();
}

/// The columns of a query's present row. Throws BookError{damaged} for a date or a moment that is
/// none; `file` is for the message. Columns are counted from 0, parameters from 1, as in SQLite.
/// Reads whatever row the query is at, so one serves the whole loop; the query must outlive it.
class Row {
 public:
  Row(const SQLite::Statement& query, const std::filesystem::path& file)
      : query_(query), file_(file) {}

  /// NULL reads as an empty text, and as 0 below: ask the maybe_ forms where it may be.
  [[nodiscard]] std::string text(int at) const { return query_.getColumn(at).getString(); }
  [[nodiscard]] double number(int at) const { return query_.getColumn(at).getDouble(); }
  [[nodiscard]] std::int64_t whole(int at) const { return query_.getColumn(at).getInt64(); }
  [[nodiscard]] std::optional<std::string> maybe_text(int at) const;
  [[nodiscard]] std::optional<double> maybe_number(int at) const;
  [[nodiscard]] std::optional<std::int64_t> maybe_whole(int at) const;
  [[nodiscard]] std::optional<colony::Date> date(int at) const;
  [[nodiscard]] std::optional<colony::Timestamp> moment(int at) const;
  /// Throws BookError{damaged} that says that the column holds what it can't.
  [[noreturn]] void refuse(int at) const;

 private:
  const SQLite::Statement& query_;
  const std::filesystem::path& file_;
};

}  // namespace likelihet::book
