// Observations in a keeper's words.
#pragma once

#include <string>

#include <likelihet/colony/colony.hpp>
#include <likelihet/odds/colony_network.hpp>

namespace likelihet::odds {

/// "ana read crown-fleck: clear (90 % sure)", "shed-pcr: carrier (sample S-0091)",
/// "looks plain (ember)": without animal and day.
std::string words_of(const colony::Colony& colony, const colony::Observation& observation);

/// The same with both: "H0301: ana read crown-fleck: clear (2024-06-11)".
std::string describe(const colony::Colony& colony, const colony::Observation& observation);

/// "H0301 at ember", "the unnamed dam of clutch C03 at ember", "who fathered clutch C03".
std::string name_of(const colony::Colony& colony, const Owner& owner);

}  // namespace likelihet::odds
