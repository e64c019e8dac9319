// What is UTF-8 and what is not (RFC 3629), and short quotations of it.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace likelihet::base {

/// A Unicode scalar value and the bytes that it takes in UTF-8.
struct CodePoint {
  std::uint32_t value = 0;
  std::size_t length = 0;  ///< 0: the bytes are not UTF-8
};

/// The code point that starts at byte `at`, which is in the text (RFC 3629 section 4: overlong
/// forms, surrogates and values over U+10FFFF are ill-formed).
CodePoint code_point_at(std::string_view text, std::size_t at);

/// Whether this byte goes on with a sequence that an earlier one began.
bool continues(char byte);

/// Where the first byte stands that belongs to no well-formed sequence; nothing if all of it is
/// well-formed. Stops at the first fault; otherwise linear.
std::optional<std::size_t> first_ill_formed(std::string_view text);

/// The text without a leading byte-order mark (RFC 3629 section 6). A view of `text`. One only; a
/// second is a character.
std::string_view without_byte_order_mark(std::string_view text);

/// At most `length` characters of the text for a message, with "…" for what was cut off; control
/// characters and ill-formed bytes are shown as "?". Counted in code points, not columns. What
/// comes out is well-formed whatever went in.
std::string excerpt(std::string_view text, std::size_t length = 40);

}  // namespace likelihet::base
