// Reads and writes tables of text, one character at a time.
#include <algorithm>
#include <optional>
#include <set>
#include <utility>

#include <likelihet/base/utf8.hpp>
#include <likelihet/colony/fault_list.hpp>
#include <likelihet/documents/csv_cells.hpp>
#include <likelihet/documents/csv_table.hpp>

namespace likelihet::documents {

namespace {

using Cells = std::vector<std::string>;

constexpr std::size_t most_columns = 100;

bool is_line_end(char c) {
  return c == '\n' || c == '\r';
}

// The separator that the first line has most of, outside quotes; a comma where it has none.
char separator_of(std::string_view text) {
  constexpr std::string_view separators = ",;\t";
  std::vector<std::size_t> counts(separators.size(), 0);
  bool quoted = false;
  for (const char c : text) {
    if (c == '"') quoted = !quoted;
    if (quoted) continue;
    if (is_line_end(c)) break;
    const std::size_t which = separators.find(c);
    if (which != std::string_view::npos) ++counts[which];
  }
  const auto most = std::max_element(counts.begin(), counts.end());
  return separators[static_cast<std::size_t>(most - counts.begin())];
}

// What a spreadsheet may take for a formula, behind any number of apostrophes. They count so that
// a text that has one of its own reads back with it.
bool begins_as_formula(std::string_view cell) {
  const std::size_t at = cell.find_first_not_of('\'');
  return at != std::string_view::npos &&
         std::string_view("=+-@\t\r").find(cell[at]) != std::string_view::npos;
}

std::string harmless(const std::string& cell) {
  if (!begins_as_formula(cell) || parse_number(cell, false)) return cell;
  return '\'' + cell;
}

std::string as_it_was(std::string cell) {
  if (!cell.empty() && cell.front() == '\'' && begins_as_formula(cell)) cell.erase(0, 1);
  return cell;
}

class CsvReader {
 public:
  CsvReader(std::string_view text, const std::string& name)
      : text_(text), name_(name), separator_(separator_of(text)) {}

  std::variant<CsvTable, colony::Faults> read() {
    table_.separator = separator_;
    read_header();
    while (at_ < text_.size()) {
      Cells cells = next_row();
      if (std::all_of(cells.begin(), cells.end(), [](const auto& cell) { return cell.empty(); })) {
        continue;
      }
      check_width(cells);
      for (std::size_t column = 0; column < cells.size(); ++column) check_utf8(cells, column);
      table_.rows.push_back(std::move(cells));
      table_.row_numbers.push_back(row_);
    }
    if (!faults_.empty()) return faults_.take();
    return std::move(table_);
  }

 private:
  // "FILE row R column NAME"; a column without a name is given by its number.
  [[nodiscard]] std::string place(std::size_t column) const {
    const bool named = row_ > 1 && column < table_.header.size() && !table_.header[column].empty();
    return name_ + " row " + std::to_string(row_) + " column " +
           (named ? base::excerpt(table_.header[column]) : std::to_string(column + 1));
  }

  void read_header() {
    const bool blank = text_.find_first_not_of("\r\n") == std::string_view::npos;
    if (blank) {
      faults_.add(name_, "the table is empty", "give a first row of column names");
      at_ = text_.size();
      return;
    }
    table_.header = next_row();
    if (table_.header.size() > most_columns) {
      faults_.add(name_ + " row 1", std::to_string(table_.header.size()) + " columns",
                  "give at most " + std::to_string(most_columns) + ": is it a table of records?");
      at_ = text_.size();
      return;
    }
    std::set<std::string> seen;
    for (std::size_t column = 0; column < table_.header.size(); ++column) {
      const std::string& title = table_.header[column];
      if (!check_utf8(table_.header, column)) continue;
      if (title.empty()) {
        faults_.add(place(column), "the column has no name",
                    "name it, or remove the column up to the end of the table");
      } else if (!seen.insert(title).second) {
        faults_.add(place(column), "a second column named '" + base::excerpt(title) + "'",
                    "keep one of the two, or rename it");
      }
    }
  }

  void check_width(Cells& cells) {
    const std::size_t wide = table_.header.size();
    for (std::size_t column = wide; column < cells.size(); ++column) {
      if (cells[column].empty()) continue;
      faults_.add(place(column),
                  "'" + base::excerpt(cells[column]) + "' stands beyond the last column",
                  "the table has " + std::to_string(wide) +
                      " columns: quote a cell that holds the separator, or name the column");
    }
    cells.resize(wide);
  }

  bool check_utf8(const Cells& cells, std::size_t column) {
    if (!base::first_ill_formed(cells[column])) return true;
    faults_.add(place(column), "the cell is not UTF-8: '" + base::excerpt(cells[column]) + "'",
                "save the table again as \"CSV UTF-8\"");
    return false;
  }

  // The cells up to the end of a line; counts the row.
  Cells next_row() {
    ++row_;
    Cells cells;
    for (;;) {
      cells.push_back(as_it_was(next_cell(cells.size())));
      if (at_ == text_.size()) return cells;
      const char end = text_[at_++];
      if (end == separator_) continue;
      if (end == '\r' && at_ < text_.size() && text_[at_] == '\n') ++at_;
      return cells;
    }
  }

  // Stops before a separator or a line end, or at the end of the text.
  std::string next_cell(std::size_t column) {
    std::string cell;
    if (at_ < text_.size() && text_[at_] == '"') {
      if (!read_quoted(cell)) {
        faults_.add(place(column),
                    "a quote is opened and never closed: '" + base::excerpt(cell) + "'",
                    "close it; write a quote inside a quoted cell twice");
        return cell;
      }
      if (!at_end_of_cell()) {
        faults_.add(place(column), "text after the closing quote of '" + base::excerpt(cell) + "'",
                    "quote the whole cell; write a quote inside it twice");
      }
    }
    while (!at_end_of_cell()) cell += text_[at_++];
    return cell;
  }

  // What stands between quotes; false if they are never closed.
  bool read_quoted(std::string& cell) {
    for (++at_; at_ < text_.size(); ++at_) {
      if (text_[at_] != '"') {
        cell += text_[at_];
      } else if (at_ + 1 < text_.size() && text_[at_ + 1] == '"') {
        cell += '"';
        ++at_;
      } else {
        ++at_;
        return true;
      }
    }
    return false;
  }

  [[nodiscard]] bool at_end_of_cell() const {
    return at_ == text_.size() || text_[at_] == separator_ || is_line_end(text_[at_]);
  }

  std::string_view text_;
  const std::string& name_;
  char separator_;
  std::size_t at_ = 0;
  std::size_t row_ = 0;
  CsvTable table_;
  colony::FaultList faults_;
};

// Within quotes a reader does not take another sign for the separator.
bool needs_quotes(const std::string& cell) {
  return cell.find_first_of(",;\t\"\r\n") != std::string::npos;
}

void append_row(std::string& text, const Cells& cells) {
  for (std::size_t column = 0; column < cells.size(); ++column) {
    if (column > 0) text += ',';
    const std::string cell = harmless(cells[column]);
    if (!needs_quotes(cell)) {
      text += cell;
      continue;
    }
    text += '"';
    for (const char c : cell) {
      if (c == '"') text += '"';
      text += c;
    }
    text += '"';
  }
  text += "\r\n";
}

}  // namespace

std::variant<CsvTable, colony::Faults> read_csv(std::string_view text, const std::string& name) {
  return CsvReader(base::without_byte_order_mark(text), name).read();
}

std::string write_csv(const CsvTable& table) {
  std::string text;
  append_row(text, table.header);
  for (const Cells& row : table.rows) append_row(text, row);
  return text;
}

}  // namespace likelihet::documents
