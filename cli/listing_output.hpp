// Listings for a terminal.
#pragma once

#include <string>
#include <vector>

#include "terminal.hpp"

#include <likelihet/publishing/listing.hpp>

namespace likelihet::cli {

/// Each animal with its sections, wrapped to the terminal. Safe for it, whatever the book says.
std::string listing_text(const colony::Colony& colony,
                         const std::vector<publishing::Listing>& listings,
                         const Terminal& terminal);

}  // namespace likelihet::cli
