// Parsing and arithmetic of calendar days and RFC 3339 moments.
#include <chrono>
#include <utility>

#include <likelihet/colony/date.hpp>

namespace likelihet::colony {

namespace {

// `count` decimal digits of `text` from `at`, or nothing if one of them is no digit.
std::optional<int> digits(std::string_view text, std::size_t at, std::size_t count) {
  if (at + count > text.size()) return std::nullopt;
  int value = 0;
  for (const char c : text.substr(at, count)) {
    if (c < '0' || c > '9') return std::nullopt;
    value = value * 10 + (c - '0');
  }
  return value;
}

bool stands_at(std::string_view text, std::size_t at, std::string_view allowed) {
  return at < text.size() && allowed.find(text[at]) != std::string_view::npos;
}

std::optional<std::chrono::year_month_day> calendar_day(std::string_view text) {
  const auto year = digits(text, 0, 4);
  const auto month = digits(text, 5, 2);
  const auto day = digits(text, 8, 2);
  if (text.size() != 10 || !year || !month || !day) return std::nullopt;
  if (text[4] != '-' || text[7] != '-' || *year == 0) return std::nullopt;
  const std::chrono::year_month_day date{std::chrono::year{*year},
                                         std::chrono::month{static_cast<unsigned>(*month)},
                                         std::chrono::day{static_cast<unsigned>(*day)}};
  if (!date.ok()) return std::nullopt;
  return date;
}

long days_of(const std::chrono::year_month_day& date) {
  return std::chrono::sys_days{date}.time_since_epoch().count();
}

// `Z`, or seconds east of Greenwich from `+hh:mm`; nothing if `text` is neither.
std::optional<int> offset_seconds(std::string_view text) {
  if (text == "Z" || text == "z") return 0;
  const auto hours = digits(text, 1, 2);
  const auto minutes = digits(text, 4, 2);
  if (text.size() != 6 || !stands_at(text, 0, "+-") || text[3] != ':') return std::nullopt;
  if (!hours || !minutes || *hours > 23 || *minutes > 59) return std::nullopt;
  const int seconds = (*hours * 60 + *minutes) * 60;
  return text[0] == '-' ? -seconds : seconds;
}

// RFC 3339 section 5.6; a leap second counts as the second that follows it.
std::optional<long long> moment(std::string_view text) {
  const auto date = calendar_day(text.substr(0, 10));
  const auto hour = digits(text, 11, 2);
  const auto minute = digits(text, 14, 2);
  const auto second = digits(text, 17, 2);
  if (!date || !stands_at(text, 10, "Tt") || !hour || !minute || !second) return std::nullopt;
  if (text[13] != ':' || text[16] != ':') return std::nullopt;
  if (*hour > 23 || *minute > 59 || *second > 60) return std::nullopt;

  std::size_t rest = 19;
  if (stands_at(text, rest, ".")) {
    const std::size_t first = ++rest;
    while (stands_at(text, rest, "0123456789")) ++rest;
    if (rest == first) return std::nullopt;
  }
  const auto offset = offset_seconds(text.substr(rest));
  if (!offset) return std::nullopt;
  const long long clock = (static_cast<long long>(*hour) * 60 + *minute) * 60 + *second;
  const long long seconds = static_cast<long long>(days_of(*date)) * 86400 + clock - *offset;
  // Leap seconds are put in at the end of a day in UTC only.
  if (*second == 60 && seconds % 86400 != 0) return std::nullopt;
  return seconds;
}

}  // namespace

std::optional<Date> Date::parse(std::string_view text) {
  if (!calendar_day(text)) return std::nullopt;
  return Date(std::string(text));
}

long Date::days() const {
  return days_of(*calendar_day(text_));
}

std::optional<Date> Date::of_days(long days) {
  constexpr long first = -719162;  // 0001-01-01
  constexpr long last = 2932896;   // 9999-12-31
  if (days < first || days > last) return std::nullopt;
  const std::chrono::year_month_day date{std::chrono::sys_days{std::chrono::days{days}}};
  const auto two = [](unsigned n) { return std::string(n < 10 ? "0" : "") + std::to_string(n); };
  std::string year = std::to_string(static_cast<int>(date.year()));
  year.insert(0, 4 - year.size(), '0');
  return Date(year + "-" + two(static_cast<unsigned>(date.month())) + "-" +
              two(static_cast<unsigned>(date.day())));
}

std::optional<Timestamp> Timestamp::parse(std::string_view text) {
  if (!moment(text)) return std::nullopt;
  return Timestamp(std::string(text));
}

Date Timestamp::day() const {
  return *Date::parse(std::string_view(text_).substr(0, 10));
}

long long Timestamp::seconds() const {
  return *moment(text_);
}

}  // namespace likelihet::colony
