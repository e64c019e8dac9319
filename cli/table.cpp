// Lays text out in columns.
#include "table.hpp"

#include <algorithm>

#include "printable.hpp"

namespace likelihet::cli {
namespace {

constexpr std::size_t gap = 2;
constexpr std::size_t least_last_column = 20;

std::string padded(const std::string& cell, std::size_t width, Align align) {
  const std::size_t wide = columns(cell);
  const std::string space(width > wide ? width - wide : 0, ' ');
  return align == Align::right ? space + cell : cell + space;
}

std::string without_trailing_spaces(std::string line) {
  line.erase(line.find_last_not_of(' ') + 1);
  return line;
}

}  // namespace

std::vector<std::size_t> Table::widths() const {
  std::vector<std::size_t> widths;
  for (std::size_t c = 0; c < columns_.size(); ++c) {
    std::size_t widest = columns(columns_[c].title);
    for (const auto& row : rows_) {
      if (c < row.size()) widest = std::max(widest, columns(row[c]));
    }
    widths.push_back(widest);
  }
  return widths;
}

std::string Table::text(const Terminal& terminal, std::size_t indent) const {
  const auto wide = widths();
  const auto line = [&](const std::vector<std::string>& cells) {
    std::string text(indent, ' ');
    std::size_t used = indent;
    for (std::size_t c = 0; c < columns_.size(); ++c) {
      const std::string cell = c < cells.size() ? cells[c] : std::string{};
      if (c + 1 == columns_.size() && columns_[c].align == Align::left) {
        const std::size_t room = terminal.width() > used ? terminal.width() - used : 0;
        std::string last = wrapped(cell, std::max(room, least_last_column), 0);
        for (std::size_t at = last.find('\n'); at != std::string::npos;
             at = last.find('\n', at + 1 + used)) {
          last.insert(at + 1, used, ' ');
        }
        return without_trailing_spaces(text + last);
      }
      text += padded(cell, wide[c], columns_[c].align) + std::string(gap, ' ');
      used += wide[c] + gap;
    }
    return without_trailing_spaces(text);
  };

  std::vector<std::string> titles;
  for (const auto& column : columns_) titles.push_back(column.title);
  std::string text = terminal.faint(line(titles)) + "\n";
  for (const auto& row : rows_) text += line(row) + "\n";
  return text;
}

}  // namespace likelihet::cli
