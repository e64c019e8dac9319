// Quoting, number printing and lists for fault messages.
#include <algorithm>
#include <array>
#include <charconv>

#include <likelihet/base/hexadecimal.hpp>
#include <likelihet/base/shortest.hpp>
#include <likelihet/base/utf8.hpp>
#include <likelihet/colony/wording.hpp>

namespace likelihet::colony {

std::string in_quotes(std::string_view text) {
  constexpr std::size_t longest = 200;
  const bool cut = text.size() > longest;
  if (cut) {
    std::size_t end = longest;
    while (end > 0 && base::continues(text[end])) --end;
    text = text.substr(0, end);
  }
  std::string result = "'";
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (byte >= 0x20 && byte != 0x7F) {
      result += c;
      continue;
    }
    result += "\\x" + base::hexadecimal(byte, 2);
  }
  return result + (cut ? "…'" : "'");
}

std::string number(double value) {
  return base::shortest(value);
}

std::string listed(const std::vector<std::string>& words, std::size_t most) {
  std::string text;
  for (std::size_t i = 0; i < std::min(most, words.size()); ++i) {
    text += (i == 0 ? "" : ", ") + in_quotes(words[i]);
  }
  if (words.size() > most) text += ", … (" + std::to_string(words.size() - most) + " more)";
  return text;
}

}  // namespace likelihet::colony
