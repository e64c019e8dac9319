// Lays text out in columns.
#include "table.hpp"

#include <algorithm>
#include <numeric>

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

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines(1);
  for (const char letter : text) {
    if (letter == '\n') {
      lines.emplace_back();
    } else {
      lines.back() += letter;
    }
  }
  return lines;
}

std::size_t longest_word(const std::string& text) {
  std::size_t longest = 0;
  for (const std::string& word : lines_of(wrapped(text, 1, 0))) {
    longest = std::max(longest, columns(word));
  }
  return longest;
}

// Titles of one line or more as rows of cells, their last lines in the last row.
std::vector<std::vector<std::string>> bottom_up(
    const std::vector<std::vector<std::string>>& titles) {
  std::size_t high = 1;
  for (const auto& lines : titles) high = std::max(high, lines.size());
  std::vector<std::vector<std::string>> rows(high, std::vector<std::string>(titles.size()));
  for (std::size_t c = 0; c < titles.size(); ++c) {
    const std::size_t above = high - titles[c].size();
    for (std::size_t l = 0; l < titles[c].size(); ++l) rows[above + l][c] = titles[c][l];
  }
  return rows;
}

std::string without_trailing_spaces(std::string line) {
  line.erase(line.find_last_not_of(' ') + 1);
  return line;
}

}  // namespace

std::vector<std::size_t> Table::widths(bool broken_titles) const {
  std::vector<std::size_t> widths;
  for (std::size_t c = 0; c < columns_.size(); ++c) {
    std::size_t widest =
        broken_titles ? longest_word(columns_[c].title) : columns(columns_[c].title);
    for (const auto& row : rows_) {
      if (c < row.size()) widest = std::max(widest, columns(row[c]));
    }
    widths.push_back(widest);
  }
  return widths;
}

std::string Table::text(const Terminal& terminal, std::size_t indent) const {
  auto wide = widths(false);
  const std::size_t room = terminal.width() - std::min(terminal.width(), indent);
  const std::size_t gaps = gap * (columns_.size() - 1);
  const bool flexible = columns_.back().align == Align::left;
  if (flexible) wide.back() = std::min(wide.back(), least_last_column);
  const auto narrow = widths(true);
  std::vector<bool> broken(columns_.size(), false);
  const std::size_t breakable = columns_.size() - (flexible ? 1 : 0);
  for (std::size_t broken_now = 0; broken_now < breakable; ++broken_now) {
    const std::size_t all = std::accumulate(wide.begin(), wide.end(), gaps);
    std::size_t most = 0;
    for (std::size_t c = 1; c < breakable; ++c) {
      if (wide[c] - narrow[c] > wide[most] - narrow[most]) most = c;
    }
    if (all <= room || wide[most] == narrow[most]) break;
    wide[most] = std::max(narrow[most], wide[most] - std::min(wide[most], all - room));
    broken[most] = true;
  }
  const auto line = [&](const std::vector<std::string>& cells) {
    std::string text(indent, ' ');
    std::size_t used = indent;
    for (std::size_t c = 0; c < columns_.size(); ++c) {
      const std::string cell = c < cells.size() ? cells[c] : std::string{};
      if (c + 1 == columns_.size() && columns_[c].align == Align::left) {
        const std::size_t left = terminal.width() > used ? terminal.width() - used : 0;
        std::string last = wrapped(cell, std::max(left, least_last_column), 0);
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

  std::vector<std::vector<std::string>> titles;
  for (std::size_t c = 0; c < columns_.size(); ++c) {
    titles.push_back(broken[c] ? lines_of(wrapped(columns_[c].title, wide[c], 0))
                               : std::vector<std::string>{columns_[c].title});
  }
  std::string text;
  for (const auto& cells : bottom_up(titles)) text += terminal.faint(line(cells)) + "\n";
  for (const auto& row : rows_) text += line(row) + "\n";
  return text;
}

}  // namespace likelihet::cli
