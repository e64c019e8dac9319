// A listing as sections of plain sentences, which text, Markdown and HTML share.
#pragma once

#include <string>
#include <vector>

#include <likelihet/publishing/listing.hpp>

namespace likelihet::publishing {

/// A heading of our own and sentences that may hold words of the keeper's: not made safe for a
/// terminal or a page.
struct ListingSection {
  std::string heading;
  std::vector<std::string> lines;
};

/// What one allele's statement says: its headline first, then plain words, reason, what it rests
/// on and what would change it.
ListingSection section_of(const colony::Colony& colony, const Statement& statement);

/// "made 2026-01-31", "as of 2025-12-31" of an earlier day's records; empty where no day is known.
std::string dated(const Listing& listing);

/// In the order in which they are read: a section for each allele that it may carry, one for all
/// that it does not, then results, markers, record, health and cautions, those with nothing to say
/// left out.
std::vector<ListingSection> sections_of(const colony::Colony& colony, const Listing& listing);

/// What a number rests on, as a buyer reads it: "descent, the seller's description, sexes and
/// looks; ...".
std::string words_of(Basis basis);

}  // namespace likelihet::publishing
