// Forecasts in groups: what was given against what came, and Murphy's three parts.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include <likelihet/audit/interval.hpp>
#include <likelihet/audit/score.hpp>

namespace likelihet::audit {

struct ReliabilityGroup {
  double probability = 0;  ///< mean of what was given
  double observed = 0;     ///< mean outcome
  double weight = 0;       ///< number of cases, or share of them
  Interval interval;       ///< Wilson's of `observed`, level 0.95, of the cases as if independent
};

/// Groups of near-equal numbers of cases in ascending order of forecast: at most `groups`, each of
/// `at_least` cases or more (all cases are one group if there are fewer), equal forecasts always
/// together. None is empty. No cases, no groups. Throws std::invalid_argument where either number
/// is 0, or for a probability or an outcome outside [0, 1].
std::vector<ReliabilityGroup> reliability_groups(std::span<const Case> cases, std::size_t groups,
                                                 std::size_t at_least);

/// Murphy (1973, J Appl Meteorol 12:595).
struct MurphyDecomposition {
  double reliability = 0;  ///< mean of (probability - observed)^2: 0 is best
  double resolution = 0;   ///< mean of (observed - mean outcome)^2: more is better
  double uncertainty = 0;  ///< of the mean outcome m, m (1 - m)
};

/// The parts of groups, by weight. reliability - resolution + uncertainty is the Brier score where
/// all forecasts of a group are the same, and not else (Stephenson, Coelho and Jolliffe 2008,
/// Weather and Forecasting 23:752). Throws std::invalid_argument where no weight is above 0.
MurphyDecomposition murphy_decomposition(std::span<const ReliabilityGroup> groups);

}  // namespace likelihet::audit
