// Digits of base sixteen.
#include <likelihet/base/hexadecimal.hpp>

namespace likelihet::base {

std::string hexadecimal(std::span<const unsigned char> bytes) {
  constexpr const char* digits = "0123456789abcdef";
  std::string text;
  text.reserve(2 * bytes.size());
  for (const unsigned char byte : bytes) {
    text += digits[byte >> 4U];
    text += digits[byte & 15U];
  }
  return text;
}

std::string hexadecimal(std::uint64_t number, std::size_t digits) {
  constexpr const char* all = "0123456789ABCDEF";
  std::string text;
  for (; number > 0; number >>= 4U) text.insert(text.begin(), all[number & 15U]);
  if (text.size() < digits) text.insert(0, digits - text.size(), '0');
  return text;
}

}  // namespace likelihet::base
