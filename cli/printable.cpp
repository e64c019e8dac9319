// Making text safe and fit for a terminal.
#include "printable.hpp"

#include <algorithm>
#include <cstdint>

#include <fmt/format.h>

#include <likelihet/base/utf8.hpp>
#include <likelihet/colony/hidden_characters.hpp>

namespace likelihet::cli {
namespace {

using base::code_point_at;
using base::CodePoint;
using base::continues;

/// The blocks that Unicode Standard Annex 11 calls wide, coarsely.
bool is_wide(std::uint32_t value) {
  return (value >= 0x1100 && value <= 0x115F) || (value >= 0x2E80 && value <= 0xA4CF) ||
         (value >= 0xAC00 && value <= 0xD7A3) || (value >= 0xF900 && value <= 0xFAFF) ||
         (value >= 0xFE30 && value <= 0xFE6F) || (value >= 0xFF00 && value <= 0xFF60) ||
         (value >= 0x1F300 && value <= 0x1FAFF) || (value >= 0x20000 && value <= 0x3FFFD);
}

std::string escaped(const CodePoint& point) {
  if (point.value == '\n') return "\\n";
  if (point.value == '\r') return "\\r";
  if (point.value == '\t') return "\\t";
  return point.value < 0x100 ? fmt::format("\\x{:02x}", point.value)
                             : fmt::format("\\u{:04x}", point.value);
}

std::string shortened(const std::string& text, std::size_t most) {
  const auto characters = static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char c) { return !continues(c); }));
  if (characters <= most) return text;
  const std::size_t kept = most / 2;
  std::size_t head = 0;
  for (std::size_t seen = 0; seen < kept; ++seen) head += code_point_at(text, head).length;
  std::size_t tail = text.size();
  for (std::size_t seen = 0; seen < kept && tail > head; ++seen) {
    do --tail;
    while (continues(text[tail]));
  }
  return fmt::format("{}…({} characters left out)…{}", text.substr(0, head), characters - 2 * kept,
                     text.substr(tail));
}

}  // namespace

std::string printable(std::string_view text, std::size_t most) {
  std::string shown;
  shown.reserve(text.size());
  for (std::size_t at = 0; at < text.size();) {
    const CodePoint point = code_point_at(text, at);
    if (point.length == 0) {
      shown += fmt::format("\\x{:02x}", static_cast<unsigned char>(text[at]));
      ++at;
      continue;
    }
    if (colony::is_hidden(point.value)) {
      shown += escaped(point);
    } else {
      shown += text.substr(at, point.length);
    }
    at += point.length;
  }
  return shortened(shown, most);
}

std::string printable_id(std::string_view id) {
  const auto blank_at = [&](std::size_t at) {
    return at < id.size() && colony::is_blank(code_point_at(id, at).value);
  };
  std::size_t head = 0;
  std::string before;
  while (blank_at(head)) {
    const CodePoint point = code_point_at(id, head);
    before += escaped(point);
    head += point.length;
  }
  std::size_t tail = id.size();
  std::string after;
  while (tail > head) {
    std::size_t start = tail - 1;
    while (start > head && continues(id[start])) --start;
    if (!blank_at(start)) break;
    after.insert(0, escaped(code_point_at(id, start)));
    tail = start;
  }
  return before + printable(id.substr(head, tail - head)) + after;
}

std::string for_programs(std::string_view json) {
  std::string shown;
  shown.reserve(json.size());
  for (std::size_t at = 0; at < json.size();) {
    const CodePoint point = code_point_at(json, at);
    const std::size_t length = std::max<std::size_t>(point.length, 1);
    // A line end stands between values; within texts the writer has escaped it. Beyond U+FFFF JSON
    // would need a pair: those turn nothing and move nothing.
    if (point.value >= 0x7F && point.value <= 0xFFFF && colony::is_hidden(point.value)) {
      shown += fmt::format("\\u{:04x}", point.value);
    } else {
      shown += json.substr(at, length);
    }
    at += length;
  }
  return shown;
}

bool is_utf8(std::string_view text) {
  return !base::first_ill_formed(text);
}

std::size_t columns(std::string_view text) {
  std::size_t count = 0;
  for (std::size_t at = 0; at < text.size();) {
    const CodePoint point = code_point_at(text, at);
    at += point.length == 0 ? 1 : point.length;
    const bool combining = point.value >= 0x300 && point.value <= 0x36F;
    if (!combining) count += is_wide(point.value) ? 2 : 1;
  }
  return count;
}

std::string wrapped(std::string_view text, std::size_t width, std::size_t indent) {
  std::string lines;
  std::size_t used = 0;
  while (!text.empty()) {
    std::size_t end = text.find(' ');
    // "16 %" is one word.
    while (end != std::string_view::npos && end + 1 < text.size() && text[end + 1] == '%') {
      end = text.find(' ', end + 1);
    }
    const std::string_view word = text.substr(0, end);
    const std::size_t wide = columns(word);
    if (used > 0 && used + 1 + wide > width) {
      lines += "\n" + std::string(indent, ' ');
      used = indent;
    } else if (used > 0) {
      lines += " ";
      ++used;
    }
    lines += word;
    used += wide;
    text = end == std::string_view::npos ? std::string_view{} : text.substr(end + 1);
  }
  return lines;
}

std::string fitted(std::string_view text, std::size_t width, std::size_t indent) {
  std::string lines;
  while (!text.empty()) {
    const std::size_t end = text.find('\n');
    const std::string_view line = text.substr(0, end);
    const std::size_t first = line.find_first_not_of(' ');
    if (columns(line) <= width || first == std::string_view::npos) {
      lines += line;
    } else {
      lines += line.substr(0, first);
      lines += wrapped(line.substr(first), width - std::min(first, width), indent);
    }
    if (end == std::string_view::npos) break;
    lines += '\n';
    text = text.substr(end + 1);
  }
  return lines;
}

}  // namespace likelihet::cli
