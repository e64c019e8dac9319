// How values stand in a fault's sentence. Private to the layer.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace likelihet::colony {

/// The text between single quotes, as it was written, but control characters as `\x0A` and all past
/// the first 200 bytes (whole UTF-8 characters) as an ellipsis, so that one fault stays one line.
/// Quotes inside are left alone: the text is for people, not for parsing.
std::string in_quotes(std::string_view text);

/// The shortest decimal that reads back as the same double; `inf` and `nan` as such. At most 24
/// characters; the C++ locale plays no part.
std::string number(double value);

/// "'a', 'b', … (12 more)": the first `most` of the words, quoted. Without any words, an empty
/// text.
std::string listed(const std::vector<std::string>& words, std::size_t most);

}  // namespace likelihet::colony
