// Tables of a report. Private to the layer.
#pragma once

#include <string>
#include <vector>

#include "markup.hpp"

namespace likelihet::publishing {

/// A table whose first column names its rows. Its cells are text and are escaped; each row has as
/// many as there are columns.
struct Table {
  std::string caption;
  std::vector<std::string> columns;
  std::vector<std::vector<std::string>> rows;
  /// The columns from the first of these up to the second hold figures and stand to the right.
  std::size_t figures_from = 1;
  std::size_t figures_until = std::string::npos;
};

/// The table in a box of its own that scrolls where the screen is too narrow, and can be reached
/// with the keyboard. Without rows, a sentence that there are none.
Markup html_table(const Table& table);

/// The tables behind a line that opens and closes them; printed open.
Markup folded(const std::string& line, const std::vector<Table>& tables, bool open);

}  // namespace likelihet::publishing
