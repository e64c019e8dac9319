// Text from records, made safe to show on a terminal. Records come from files of strangers; what
// they hold must not act on the terminal that shows it.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace likelihet::cli {

/// The text with control characters and bytes that are no UTF-8 written as `\n`, `\x1b`, `\xff`, so
/// that a record can't move the cursor or forge a line. So is all that colony::is_hidden() names,
/// such as `\u200b`: two ids that are not the same must not look the same. Of more than `most`
/// characters half of `most` are kept at each end, with a note between of how many were left out.
std::string printable(std::string_view text, std::size_t most = 400);

/// The same for an id alone, with blanks at its ends as `\x20`: books of earlier versions may hold
/// such ids.
std::string printable_id(std::string_view id);

/// A JSON document with hidden characters inside its texts as `\u007f`: the same document, safe to
/// look at on a terminal.
std::string for_programs(std::string_view json);

/// Whether the text is UTF-8 (RFC 3629: no surrogates, no overlong forms). An empty text is.
bool is_utf8(std::string_view text);

/// Columns that UTF-8 text takes on a terminal: none for combining marks (U+0300-036F), two for
/// the wide letters of East Asia and for pictographs (Unicode Standard Annex 11), else one. Coarse:
/// it knows blocks, not single characters, and terminals differ anyway. Bytes that are no UTF-8
/// take one each.
std::size_t columns(std::string_view text);

/// Breaks text at spaces into lines of at most `width` columns, all but the first set in by
/// `indent` spaces. A word wider than a line stays whole. Widths are in columns(). Line ends in the
/// text are not looked at.
std::string wrapped(std::string_view text, std::size_t width, std::size_t indent);

/// Each line of the text that is wider than `width` broken at spaces, its first part set in as it
/// was and the others by `indent` spaces. Line ends stay as they are; a word wider than that stays
/// whole.
std::string fitted(std::string_view text, std::size_t width, std::size_t indent);

}  // namespace likelihet::cli
