// Observations in a keeper's words. Plain text, not made safe for a terminal: ids and words stand
// as the keeper wrote them.
#pragma once

#include <string>

#include <likelihet/colony/colony.hpp>
#include <likelihet/odds/colony_network.hpp>

namespace likelihet::odds {

/// "ana scored crown-fleck: strong (90 % sure)", "shed-pcr: carrier (sample S-0091)", "looks plain
/// (tarnbrook)": without animal and day. For each kind of observation; positions in it must be
/// those of `colony`.
std::string words_of(const colony::Colony& colony, const colony::Observation& observation);

/// The same with both: "H0301: ana scored crown-fleck: strong (2024-06-11)". A withdrawal has no
/// animal. The day is the one it was seen, else the one it became known, else none.
std::string describe(const colony::Colony& colony, const colony::Observation& observation);

/// "H0301 at tarnbrook", "the unnamed dam of clutch C03 at tarnbrook", "who fathered clutch C03".
/// For messages about size, where variables without a record of their own take part.
std::string name_of(const colony::Colony& colony, const Owner& owner);

}  // namespace likelihet::odds
