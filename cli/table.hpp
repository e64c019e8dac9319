// Text in columns.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "terminal.hpp"

namespace likelihet::cli {

enum class Align { left, right };

/// Titles are shown faint, above the rows.
struct Column {
  std::string title;
  Align align = Align::left;
};

/// Rows under titles, each column as wide as its widest cell. Widths are columns on a terminal, not
/// bytes; cells must have been made printable before.
class Table {
 public:
  explicit Table(std::vector<Column> columns) : columns_(std::move(columns)) {}

  /// A row may hold fewer cells than there are columns; the rest are empty.
  void add(std::vector<std::string> cells) { rows_.push_back(std::move(cells)); }
  [[nodiscard]] bool empty() const { return rows_.empty(); }

  /// Where a row is wider than the terminal, titles that are wider than their cells are broken into
  /// lines, the widest first, until it fits or none is left.
  /// Set in by `indent` spaces, two spaces between columns, nothing after the last cell of a row.
  /// The last column, where it is aligned left, is broken into lines to fit the terminal. Every row
  /// ends in a line end. It keeps 20 columns however narrow the terminal is; no cell is ever cut.
  [[nodiscard]] std::string text(const Terminal& terminal, std::size_t indent) const;

 private:
  [[nodiscard]] std::vector<std::size_t> widths(bool broken_titles) const;
  std::vector<Column> columns_;
  std::vector<std::vector<std::string>> rows_;
};

}  // namespace likelihet::cli
