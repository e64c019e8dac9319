// Listings as one page.
#pragma once

#include <string>
#include <vector>

#include <likelihet/publishing/listing.hpp>

namespace likelihet::publishing {

/// One HTML file for screen and paper that fetches nothing and runs no script. For programs that
/// read pages it holds the same figures as JSON-LD (JSON-LD 1.1; schema.org's WebPage, Product and
/// PropertyValue), in percent. All that comes from the book is escaped, in the page and in the
/// data. UTF-8, as the book is.
std::string listing_html(const colony::Colony& colony, const std::vector<Listing>& listings);

}  // namespace likelihet::publishing
