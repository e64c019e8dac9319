// Observations and probabilities in a keeper's words.
#pragma once

#include <string>

#include <likelihet/colony/colony.hpp>
#include <likelihet/odds/colony_network.hpp>

namespace likelihet::odds {

/// "ana read crown-fleck as clear on H0301 (2024-06-11)", for each kind of observation.
std::string describe(const colony::Colony& colony, const colony::Observation& observation);

/// "H0301 at ember", "the unnamed dam of clutch C03 at ember", "who fathered clutch C03".
std::string name_of(const colony::Colony& colony, const Owner& owner);

/// "3.2 %", with digits enough to tell it from 0 and 100, and never "0 %" or "100 %" for a
/// probability that is not exactly so.
std::string percent(double probability);

}  // namespace likelihet::odds
