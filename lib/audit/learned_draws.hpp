// Tables drawn from what a scenario teaches, and odds averaged over them: what the book would have
// said.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <variant>
#include <vector>

#include <likelihet/audit/forecast.hpp>
#include <likelihet/odds/layers.hpp>

namespace likelihet::audit {

/// One chain (learning::Chain), begun where an earlier one ended. Shorter than those of `learn`:
/// a forecast needs the average over tables within about 0.01, not the ends of an interval.
struct DrawSettings {
  std::size_t settling = 60;  ///< sweeps before the first draw
  std::size_t draws = 120;
  std::size_t apart = 2;  ///< sweeps from draw to draw
  std::uint64_t seed = 1;
  std::size_t memory_bytes = std::size_t{2} << 30U;
};

/// Of a chain that begins at belief.
inline constexpr std::size_t first_settling = 500;

/// The draws, the last one where the next chain may begin; none where the records contradict
/// themselves.
std::variant<std::vector<odds::Tables>, odds::TooLarge> learned_draws(
    const odds::Scenario& scenario, odds::Tables start, const DrawSettings& settings);

/// P(exactly one copy) of each event by all evidence of the scenario, averaged over the tables;
/// empty where the evidence contradicts itself or there are no tables.
std::variant<std::vector<double>, odds::TooLarge> average_odds(
    const odds::Scenario& scenario, const std::vector<odds::Tables>& tables,
    const std::vector<Event>& events, std::size_t memory_bytes);

}  // namespace likelihet::audit
