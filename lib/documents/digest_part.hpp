// Several texts as one, to take a digest of.
#pragma once

#include <string>
#include <string_view>

namespace likelihet::documents {

/// Appends a part with its length before it, so that no two lists of parts give one text (a
/// netstring without its comma).
inline void add_part(std::string& whole, std::string_view part) {
  whole += std::to_string(part.size());
  whole += ':';
  whole += part;
}

}  // namespace likelihet::documents
