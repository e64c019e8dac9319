// Calendar days and moments, as ISO 8601 and RFC 3339 write them.
#pragma once

#include <compare>
#include <optional>
#include <string>
#include <string_view>

namespace likelihet::colony {

/// A calendar day that exists (proleptic Gregorian, ISO 8601 `YYYY-MM-DD`, year 0001-9999). Kept as
/// text, so that what is written out is what was read.
class Date {
 public:
  /// Nothing if the text is no such day ("2024-02-30", "24-2-3"). Ten ASCII characters, nothing
  /// around them; never throws for a bad text.
  static std::optional<Date> parse(std::string_view text);

  [[nodiscard]] const std::string& text() const { return text_; }
  /// Days since 1970-01-01; differences are in days. Negative before 1970.
  [[nodiscard]] long days() const;
  /// The day of which days() is this; nothing outside the years 0001-9999.
  static std::optional<Date> of_days(long days);
  /// Earlier is less: the text's order is the calendar's.
  friend auto operator<=>(const Date& a, const Date& b) { return a.text_ <=> b.text_; }
  friend bool operator==(const Date&, const Date&) = default;

 private:
  explicit Date(std::string text) : text_(std::move(text)) {}
  std::string text_;
};

/// A moment with its offset (RFC 3339 date-time, `2024-07-03T18:30:00Z` or `...+02:00`), kept as it
/// was written. Ledgers keep the writer's own clock: converting to UTC would move evenings to the
/// next day.
class Timestamp {
 public:
  /// Nothing if the text is no such moment. A leap second (`:60`) is one only at the end of a day
  /// in UTC, and counts as the second after it. Lower-case `t` and `z` are allowed, as RFC 3339
  /// section 5.6 does; a space for the `T` is not.
  static std::optional<Timestamp> parse(std::string_view text);

  [[nodiscard]] const std::string& text() const { return text_; }
  /// The day as the writer's clock showed it; what `--as-of` compares.
  [[nodiscard]] Date day() const;
  /// Seconds since 1970-01-01T00:00:00Z, fractions dropped. For order in time; two offsets of one
  /// moment give the same.
  [[nodiscard]] long long seconds() const;
  /// As written: two ways to write one moment differ.
  friend bool operator==(const Timestamp&, const Timestamp&) = default;

 private:
  explicit Timestamp(std::string text) : text_(std::move(text)) {}
  std::string text_;
};

}  // namespace likelihet::colony
