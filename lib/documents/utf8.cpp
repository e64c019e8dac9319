// Well-formedness of UTF-8 by the table of RFC 3629 section 4.
#include <likelihet/documents/utf8.hpp>

namespace likelihet::documents {

namespace {

unsigned char byte_at(std::string_view text, std::size_t at) {
  return at < text.size() ? static_cast<unsigned char>(text[at]) : 0;
}

bool within(unsigned char byte, unsigned char low, unsigned char high) {
  return byte >= low && byte <= high;
}

// The length of the well-formed sequence that starts at `at`; 0 if there is none.
std::size_t sequence_length(std::string_view text, std::size_t at) {
  const unsigned char first = byte_at(text, at);
  if (first < 0x80) return 1;
  const unsigned char second = byte_at(text, at + 1);
  if (within(first, 0xC2, 0xDF)) return within(second, 0x80, 0xBF) ? 2 : 0;
  const bool third = within(byte_at(text, at + 2), 0x80, 0xBF);
  if (within(first, 0xE0, 0xEF)) {
    const unsigned char low = first == 0xE0 ? 0xA0 : 0x80;
    const unsigned char high = first == 0xED ? 0x9F : 0xBF;
    return within(second, low, high) && third ? 3 : 0;
  }
  if (within(first, 0xF0, 0xF4)) {
    const unsigned char low = first == 0xF0 ? 0x90 : 0x80;
    const unsigned char high = first == 0xF4 ? 0x8F : 0xBF;
    const bool fourth = within(byte_at(text, at + 3), 0x80, 0xBF);
    return within(second, low, high) && third && fourth ? 4 : 0;
  }
  return 0;
}

}  // namespace

std::optional<std::size_t> first_ill_formed(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t length = sequence_length(text, at);
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
    const std::size_t bytes = sequence_length(text, at);
    const bool control = bytes == 1 && (byte_at(text, at) < 0x20 || byte_at(text, at) == 0x7F);
    if (bytes == 0 || control) {
      shown += '?';
      ++at;
    } else {
      shown += text.substr(at, bytes);
      at += bytes;
    }
  }
  return at < text.size() ? shown + "…" : shown;
}

}  // namespace likelihet::documents
