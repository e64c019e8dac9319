// Reading a row's columns.
#include <likelihet/book/sqlite_errors.hpp>
#include <likelihet/book/statements.hpp>

namespace likelihet::book {

std::optional<std::string> Row::maybe_text(int at) const {
  return query_.isColumnNull(at) ? std::nullopt : std::optional(text(at));
}

std::optional<double> Row::maybe_number(int at) const {
  return query_.isColumnNull(at) ? std::nullopt : std::optional(number(at));
}

std::optional<std::int64_t> Row::maybe_whole(int at) const {
  return query_.isColumnNull(at) ? std::nullopt : std::optional(whole(at));
}

std::optional<colony::Date> Row::date(int at) const {
  if (query_.isColumnNull(at)) {
    return std::nullopt;
  }
  auto day = colony::Date::parse(text(at));
  if (!day) {
    refuse(at);
  }
  return day;
}

std::optional<colony::Timestamp> Row::moment(int at) const {
  if (query_.isColumnNull(at)) {
    return std::nullopt;
  }
  auto moment = colony::Timestamp::parse(text(at));
  if (!moment) {
    refuse(at);
  }
  return moment;
}

void Row::refuse(int at) const {
  throw damaged(file_, "the column '" + std::string(query_.getColumnName(at)) + "' holds '" +
                           text(at) + "', which it cannot");
}

}  // namespace likelihet::book
