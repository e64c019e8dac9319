// Listings as a document for programs.
#pragma once

#include <string_view>
#include <vector>

#include <nlohmann/json_fwd.hpp>

#include <likelihet/publishing/listing.hpp>

namespace likelihet::publishing {

/// "visual", "proven", "certain", "possible", "none".
std::string_view word_of(Label label);
/// "pedigree", "results", "markers".
std::string_view word_of(Basis basis);

/// The "likelihet-listing" document, version 1 (docs/documents.md, models/schema/): everything that
/// the listings hold, records named by their ids. Numbers read back as the same double. All of one
/// day and as of one day: those of the first.
nlohmann::ordered_json listing_document(const colony::Colony& colony,
                                        const std::vector<Listing>& listings);

}  // namespace likelihet::publishing
