// Listings as Markdown, to be pasted where that is understood.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <likelihet/publishing/listing.hpp>

namespace likelihet::publishing {

/// Text that reads as itself in Markdown (CommonMarker 0.30, and the links that GitHub's dialect
/// makes of bare addresses): what would be emphasis, a link, an entity, a tag, a heading or a list
/// is escaped with a backslash; control characters and line ends become spaces. One line.
std::string markdown_text(std::string_view text);

/// One document with a heading for each animal. UTF-8.
std::string listing_markdown(const colony::Colony& colony, const std::vector<Listing>& listings);

}  // namespace likelihet::publishing
