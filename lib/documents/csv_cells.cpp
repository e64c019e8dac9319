// Cells to values, and the marks that spreadsheets leave on ids.
#include <algorithm>
#include <charconv>
#include <cmath>
#include <regex>

#include <likelihet/base/utf8.hpp>
#include <likelihet/documents/csv_cells.hpp>

namespace likelihet::documents {

namespace {

char lower(char c) {
  return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

const std::regex& date_shape() {
  // English and German short names of months; a day or year before or after, or both.
  static const std::regex shape(
      R"((\d{1,2}[-. /]{1,2})?)"
      R"((jan|feb|m[aä]r|mrz|apr|may|mai|jun|jul|aug|sept?|oct|okt|nov|dec|dez)\.?)"
      R"(([-. /]{1,2}\d{2,4})?)"
      R"(|\d{1,2}\.\d{1,2}\.(\d{2}|\d{4})|\d{1,2}/\d{1,2}/(\d{2}|\d{4})|\d{1,2}-\d{1,2}-\d{4})"
      R"(|\d{4}[-/.]\d{1,2}[-/.]\d{1,2}([ T]\d{1,2}:\d{2}(:\d{2})?)?)",
      std::regex::icase | std::regex::optimize);
  return shape;
}

const std::regex& number_shape() {
  static const std::regex shape(R"([-+]?\d+([.,]\d+)?e[-+]\d+|[-+]?\d+[.,]\d{6,})",
                                std::regex::icase | std::regex::optimize);
  return shape;
}

}  // namespace

std::optional<std::string_view> mangled_into(std::string_view id) {
  constexpr std::size_t longest_shape = 30;  // also keeps the matching short
  if (id.empty() || id.size() > longest_shape) return std::nullopt;
  const bool has_digit = id.find_first_of("0123456789") != std::string_view::npos;
  if (!has_digit) return std::nullopt;  // a month alone may well be a name
  if (std::regex_match(id.begin(), id.end(), date_shape())) return "a date";
  if (std::regex_match(id.begin(), id.end(), number_shape())) return "a number";
  return std::nullopt;
}

std::optional<double> parse_number(std::string text, bool decimal_comma) {
  if (decimal_comma && text.find('.') == std::string::npos) {
    std::replace(text.begin(), text.end(), ',', '.');
  }
  double number = 0;
  const char* const end = text.data() + text.size();
  const auto [stopped, error] = std::from_chars(text.data(), end, number);
  if (error != std::errc{} || stopped != end || !std::isfinite(number)) return std::nullopt;
  return number;
}

bool CsvCells::equal_but_case(std::string_view a, std::string_view b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](char x, char y) { return lower(x) == lower(y); });
}

std::string CsvCells::place() const {
  return name_ + " row " + std::to_string(table_.row_numbers[row_]);
}

void CsvCells::fault(std::string_view column, std::string what, std::string mend) const {
  faults_.add(place() + " column " + std::string(column), std::move(what), std::move(mend));
}

std::optional<std::string> CsvCells::text(std::string_view column) const {
  const auto at = std::find(table_.header.begin(), table_.header.end(), column);
  if (at == table_.header.end()) return std::nullopt;
  const std::string& cell = table_.rows[row_][static_cast<std::size_t>(at - table_.header.begin())];
  return cell.empty() ? std::nullopt : std::optional<std::string>(cell);
}

bool CsvCells::is_sound_id(std::string_view column, const std::string& id) const {
  if (const auto became = mangled_into(id)) {
    fault(column,
          "'" + id + "' looks like an id that a spreadsheet turned into " + std::string(*became),
          "format the column as text, and write the id again");
    return false;
  }
  if (id.front() == ' ' || id.back() == ' ') {
    fault(column, "'" + base::excerpt(id) + "' has a space at its beginning or end",
          "remove the space");
    return false;
  }
  return true;
}

std::optional<std::string> CsvCells::id(std::string_view column) const {
  std::optional<std::string> found = text(column);
  return found && is_sound_id(column, *found) ? found : std::nullopt;
}

std::string CsvCells::required_id(std::string_view column) const {
  const std::string found = required_text(column);
  return !found.empty() && is_sound_id(column, found) ? found : std::string();
}

std::string CsvCells::required_text(std::string_view column) const {
  std::optional<std::string> found = text(column);
  if (!found) fault(column, "the cell is empty", "every row needs one: fill it in");
  return found.value_or(std::string());
}

std::optional<double> CsvCells::number(std::string_view column) const {
  const std::optional<std::string> found = text(column);
  if (!found) return std::nullopt;
  const std::optional<double> number = parse_number(*found, decimal_comma());
  if (!number) {
    fault(column, "'" + base::excerpt(*found) + "' is not a number",
          decimal_comma() ? "write it like 0.9 or 0,9" : "write it like 0.9");
  }
  return number;
}

std::optional<std::int64_t> CsvCells::count(std::string_view column) const {
  const std::optional<std::string> found = text(column);
  if (!found) return std::nullopt;
  constexpr double largest = 9007199254740992;  // 2^53: every whole number up to it is a double
  const std::optional<double> number = parse_number(*found, decimal_comma());
  if (!number || *number < 0 || *number != std::floor(*number) || *number > largest) {
    fault(column, "'" + base::excerpt(*found) + "' is not a count", "write a whole number from 0");
    return std::nullopt;
  }
  return static_cast<std::int64_t>(*number);
}

std::optional<colony::Date> CsvCells::date(std::string_view column) const {
  const std::optional<std::string> found = text(column);
  if (!found) return std::nullopt;
  std::optional<colony::Date> date = colony::Date::parse(*found);
  if (!date) {
    fault(column, "'" + base::excerpt(*found) + "' is not a day of the calendar",
          "write year-month-day, such as 2024-06-30 (ISO 8601); day and month in another order are "
          "not guessed");
  }
  return date;
}

std::optional<colony::Timestamp> CsvCells::timestamp(std::string_view column) const {
  const std::optional<std::string> found = text(column);
  if (!found) return std::nullopt;
  std::optional<colony::Timestamp> moment = colony::Timestamp::parse(*found);
  if (!moment) {
    fault(column, "'" + base::excerpt(*found) + "' is not a date and time with its offset",
          "write it like 2024-07-03T18:30:00Z (RFC 3339)");
  }
  return moment;
}

}  // namespace likelihet::documents
