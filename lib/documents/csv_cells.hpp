// The cells of one row by column name, read as the values of a record. Spreadsheets change what is
// typed into them, so a cell that looks changed is refused rather than believed.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <likelihet/base/utf8.hpp>
#include <likelihet/colony/date.hpp>
#include <likelihet/colony/fault_list.hpp>
#include <likelihet/colony/nearest.hpp>
#include <likelihet/documents/csv_table.hpp>

namespace likelihet::documents {

using colony::FaultList;

/// What a spreadsheet made of an id, in words ("a date"), if its shape says so: days and months
/// ("3-Feb", "Feb-24", "03.02.2024", "2024-02-07", "2/7/2024"), scientific notation ("1.2E+05"),
/// and numbers with a long fraction. An id such as "23-2-7" or "1E5" is what the keeper wrote.
/// Common practice of spreadsheets, no source. English and German names of months are known, with a
/// digit beside them: a month alone may be a name. Over 30 bytes nothing is recognised. The answer
/// lives for ever.
std::optional<std::string_view> mangled_into(std::string_view id);

/// A number with a point, or with a comma where `decimal_comma`; nothing if it is none, or not
/// finite. Both forms are read where commas are decimal, but not thousands separators, a leading
/// plus, or spaces. The C locale plays no part.
std::optional<double> parse_number(std::string text, bool decimal_comma);

/// One row of a table. Each function reads the cell of a column, empty or without such a column as
/// nothing, and adds a fault with "FILE row R column NAME" for a cell that is no such value. Holds
/// references to all it is given: for use while a row is read.
class CsvCells {
 public:
  CsvCells(const CsvTable& table, std::size_t row, const std::string& name, FaultList& faults)
      : table_(table), row_(row), name_(name), faults_(faults) {}

  /// "FILE row R"
  [[nodiscard]] std::string place() const;
  /// Where commas part the cells a number must have a point.
  [[nodiscard]] bool decimal_comma() const { return table_.separator != ','; }
  /// At the row's place and this column, also one that the table does not have.
  void fault(std::string_view column, std::string what, std::string mend) const;

  /// The cell as it stands. Not trimmed. A column that the table lacks reads as empty, so required
  /// columns are checked before.
  [[nodiscard]] std::optional<std::string> text(std::string_view column) const;
  /// An id that no spreadsheet has changed and that has no space at either end.
  [[nodiscard]] std::optional<std::string> id(std::string_view column) const;
  /// The same where every row needs one; an empty text stands in for a fault.
  [[nodiscard]] std::string required_id(std::string_view column) const;
  /// A word of the model (a marker, a level), which may look like anything.
  [[nodiscard]] std::string required_text(std::string_view column) const;
  [[nodiscard]] std::optional<double> number(std::string_view column) const;
  /// A whole number from 0. Up to 2^53, so that a spreadsheet's "7.0" or "1E2" is the number that
  /// it shows.
  [[nodiscard]] std::optional<std::int64_t> count(std::string_view column) const;
  /// ISO 8601 and RFC 3339 alone; another order of day and month is a fault, never a guess.
  [[nodiscard]] std::optional<colony::Date> date(std::string_view column) const;
  [[nodiscard]] std::optional<colony::Timestamp> timestamp(std::string_view column) const;

  /// One of a few words, ignoring ASCII case as spreadsheets capitalise.
  template <class Value>
  [[nodiscard]] std::optional<Value> word(
      std::string_view column, const std::vector<std::pair<std::string_view, Value>>& words) const {
    const std::optional<std::string> found = text(column);
    if (!found) return std::nullopt;
    std::vector<std::string> known;
    for (const auto& [name, value] : words) {
      if (equal_but_case(*found, name)) return value;
      known.emplace_back(name);
    }
    fault(column, "unknown " + std::string(column) + " '" + base::excerpt(*found) + "'",
          colony::suggestion(*found, known));
    return std::nullopt;
  }

  /// Checks an id found in a column, which may hold several. False after adding a fault. `id` is
  /// not empty.
  [[nodiscard]] bool is_sound_id(std::string_view column, const std::string& id) const;

 private:
  static bool equal_but_case(std::string_view a, std::string_view b);

  const CsvTable& table_;
  std::size_t row_;
  const std::string& name_;
  FaultList& faults_;
};

}  // namespace likelihet::documents
