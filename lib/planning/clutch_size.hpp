// How many offspring a clutch of this keeper brings.
#pragma once

#include <cstddef>
#include <optional>

#include <likelihet/colony/colony.hpp>

namespace likelihet::planning {

/// Recorded offspring a clutch, over the clutches of which any are recorded; nothing where there
/// are none. Eggs that did not hatch are not in it.
std::optional<double> mean_offspring(const colony::Colony& colony);

/// Clutches for so many offspring, rounded up; nothing where a clutch's size is not known.
std::optional<double> clutches_for(std::size_t offspring, const std::optional<double>& per_clutch);

}  // namespace likelihet::planning
