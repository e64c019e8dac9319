// UTF-8, one code point after the other.
#include <likelihet/base/utf8.hpp>

namespace likelihet::base {

bool continues(char byte) {
  return (static_cast<unsigned char>(byte) & 0xC0U) == 0x80U;
}

CodePoint code_point_at(std::string_view text, std::size_t at) {
  const auto byte = [&](std::size_t i) {
    return static_cast<std::uint32_t>(static_cast<unsigned char>(text[at + i]));
  };
  const std::uint32_t lead = byte(0);
  if (lead < 0x80) return {lead, 1};
  const std::size_t length = lead < 0xC2   ? 0
                             : lead < 0xE0 ? 2
                             : lead < 0xF0 ? 3
                             : lead < 0xF5 ? 4
                                           : 0;
  if (length == 0) return {};
  std::uint32_t value = lead & (0xFFU >> (length + 1));
  for (std::size_t i = 1; i < length; ++i) {
    if (at + i >= text.size() || !continues(text[at + i])) return {};
    value = (value << 6U) | (byte(i) & 0x3FU);
  }
  const bool overlong = (length == 3 && value < 0x800) || (length == 4 && value < 0x10000);
  const bool surrogate = value >= 0xD800 && value <= 0xDFFF;
  if (overlong || surrogate || value > 0x10FFFF) return {};
  return {value, length};
}

std::optional<std::size_t> first_ill_formed(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t length = code_point_at(text, at).length;
    if (length == 0) return at;
    at += length;
  }
  return std::nullopt;
}

std::string_view without_byte_order_mark(std::string_view text) {
  return text.substr(0, 3) == "\xEF\xBB\xBF" ? text.substr(3) : text;
}

std::string excerpt(std::string_view text, std::size_t length) {
  std::string shown;
  std::size_t at = 0;
  for (std::size_t characters = 0; at < text.size() && characters < length; ++characters) {
    const CodePoint point = code_point_at(text, at);
    if (point.length == 0 || point.value < 0x20 || point.value == 0x7F) {
      shown += '?';
      ++at;
    } else {
      shown += text.substr(at, point.length);
      at += point.length;
    }
  }
  return at < text.size() ? shown + "…" : shown;
}

}  // namespace likelihet::base
