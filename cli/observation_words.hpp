// Observations in a keeper's words. For people at a terminal; odds/words.hpp has the words
// themselves, not made safe.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include <likelihet/colony/colony.hpp>

namespace likelihet::cli {

/// "ana scored crown-fleck: strong (90 % sure)", "shed-pcr: carrier (sample S-0091)", "looks plain
/// (tarnbrook)"; with `name`, "H0301: …". Made safe for a terminal. A withdrawal has no animal and
/// so no name.
std::string words_of(const colony::Colony& colony, std::size_t observation, bool name);

/// Several, one after the other; with `name` and more than three: how many, and of which animals.
/// Parted by semicolons; empty for none.
std::string words_of(const colony::Colony& colony, const std::vector<std::size_t>& observations,
                     bool name);

/// The day it was seen, else the day it became known, else "undated".
std::string day_in_words(const colony::Observation& observation);

}  // namespace likelihet::cli
