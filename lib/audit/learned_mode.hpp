// Tables learned from a scenario, for one forecast.
#pragma once

#include <cstddef>
#include <optional>
#include <variant>

#include <likelihet/odds/layers.hpp>

namespace likelihet::audit {

/// Forecasts' tables are at the mode within this: no probability in a table moves further in a
/// step.
inline constexpr double mode_tolerance = 1e-5;

/// Where learning::climb() ends from `start`, within mode_tolerance or 2000 steps. No tables where
/// the records contradict themselves.
std::variant<std::optional<odds::Tables>, odds::TooLarge> learned_mode(
    const odds::Scenario& scenario, const odds::Tables& start, std::size_t memory_bytes);

/// Belief, off the saddle: where the first climb starts.
odds::Tables first_start(const colony::Model& model);

}  // namespace likelihet::audit
