// What is UTF-8 and what is not (RFC 3629), and short quotations of it.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace likelihet::documents {

/// Where the first byte stands that belongs to no well-formed sequence of RFC 3629 section 4
/// (overlong forms, surrogates and values over U+10FFFF are ill-formed); nothing if all of it is
/// well-formed. Stops at the first fault; otherwise linear.
std::optional<std::size_t> first_ill_formed(std::string_view text);

/// The text without a leading byte-order mark (RFC 3629 section 6). A view of `text`. One marker
/// only; a second is a character.
std::string_view without_byte_order_mark(std::string_view text);

/// At most `length` characters of the text for a message, with "…" for what was cut off; control
/// characters and ill-formed bytes are shown as "?". Counted in code points, not columns. What
/// comes out is well-formed whatever went in.
std::string excerpt(std::string_view text, std::size_t length = 40);

}  // namespace likelihet::documents
