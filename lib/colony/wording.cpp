// Quoting, number printing and lists for fault messages.
#include <algorithm>
#include <array>
#include <charconv>

#include <likelihet/colony/wording.hpp>

namespace likelihet::colony {

std::string in_quotes(std::string_view text) {
  constexpr std::size_t longest = 200;
  const bool cut = text.size() > longest;
  if (cut) {
    std::size_t end = longest;
    while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) --end;
    text = text.substr(0, end);
  }
  constexpr std::string_view hexadecimal = "0123456789ABCDEF";
  std::string result = "'";
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (byte >= 0x20 && byte != 0x7F) {
      result += c;
      continue;
    }
    result += "\\x";
    result += hexadecimal[byte >> 4U];
    result += hexadecimal[byte & 0xFU];
  }
  return result + (cut ? "…'" : "'");
}

std::string number(double value) {
  std::array<char, 32> text{};
  const auto end = std::to_chars(text.data(), text.data() + text.size(), value).ptr;
  return {text.data(), end};
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
