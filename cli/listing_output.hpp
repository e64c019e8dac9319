// Listings for a terminal.
#pragma once

#include <string>
#include <vector>

#include "terminal.hpp"

#include <likelihet/publishing/listing.hpp>

namespace likelihet::cli {

/// Each animal in a few lines, to paste into an advert: what it is, its numbers in the trade's
/// words, its claim, one caution. Without what it does not carry.
std::string short_listing_text(const colony::Colony& colony,
                               const std::vector<publishing::Listing>& listings,
                               const Terminal& terminal);

/// Each animal with its sections, wrapped to the terminal. Safe for it, whatever the book says.
std::string listing_text(const colony::Colony& colony,
                         const std::vector<publishing::Listing>& listings,
                         const Terminal& terminal);

}  // namespace likelihet::cli
