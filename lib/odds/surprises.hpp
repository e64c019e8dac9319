// Records that nothing else led one to expect, and what may lie behind them.
#pragma once

#include <vector>

#include <likelihet/odds/odds.hpp>
#include <likelihet/odds/options.hpp>
#include <likelihet/odds/scenario.hpp>

namespace likelihet::odds {

/// Below this a result or an appearance is a surprise; a probability.
inline constexpr double surprise_limit = 0.01;

/// Each counting result or appearance o with P(o | all the rest) < surprise_limit, exact, in the
/// order of the records. With p the posterior of the animal's genotype and L(g) = P(o | g) > 0, P(o
/// | rest) = 1 / Σ_g p(g) / L(g), since p(g) ∝ P(g | rest) L(g); where L has zeros they are
/// softened first. Marks' contexts are held as recorded. `plain_bytes` is what the plan of `all`
/// took: softened plans much larger than it are made in parts. The first eight surprises have their
/// reasons weighed.
std::vector<Surprise> find_surprises(const Scenario& all, const ColonyOdds& odds,
                                     std::size_t plain_bytes, const Options& options);

/// Rival readings of one surprise, most likely first; their shares sum to 1.
std::vector<Reason> weigh_reasons(const Scenario& all, const colony::Observation& surprise,
                                  const Options& options);

}  // namespace likelihet::odds
