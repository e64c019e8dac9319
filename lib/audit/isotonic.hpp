// The calibration curve without bins: the rising step curve that is nearest to the outcomes.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include <likelihet/audit/reliability.hpp>
#include <likelihet/audit/score.hpp>

namespace likelihet::audit {

// Of all here: throws std::invalid_argument for a probability or an outcome outside [0, 1], and,
// where a number is given back for certain, for no cases.

struct IsotonicStep {
  double probability = 0;  ///< a forecast that was given
  double observed = 0;     ///< the curve there
  double weight = 0;       ///< cases with that forecast
};

/// One for each different forecast, ascending: isotonic regression of outcomes on forecasts by
/// pooling adjacent violators (Ayer et al. 1955, Ann Math Stat 26:641), equal forecasts first
/// merged. No cases, no steps.
std::vector<IsotonicStep> isotonic(std::span<const Case> cases);

/// CORP (Dimitriadis, Gneiting and Jordan 2021, PNAS 118:e2016191118): the Brier
/// score is miscalibration - discrimination + uncertainty, exactly, and no bins were chosen.
struct Decomposition {
  double miscalibration = 0;  ///< Brier score less that of the curve: 0 is best
  double discrimination = 0;  ///< that of the mean outcome less that of the curve: more is better
  double uncertainty = 0;     ///< Brier score of giving everyone the mean outcome
};

Decomposition decompose(std::span<const Case> cases);

/// Mean of |forecast - curve|. The integrated calibration index (2019, Statistics in Medicine
/// 38:4051) is defined with a loess curve; here the curve is the isotonic one, which has nothing to
/// tune and comes out larger in small samples.
double integrated_calibration_index(std::span<const Case> cases);

struct BandPoint {
  double probability = 0;
  double low = 0;
  double high = 0;
};

/// Where the curve would lie if the forecasts were right: at each different forecast the central
/// `level` of curves whose outcomes are drawn from the forecasts themselves (Dimitriadis, Gneiting
/// and Jordan 2021, "consistency bands", by resampling), pointwise, independently between cases.
/// Quantiles of type 7. The draws are those of std::mt19937_64 with `seed`, one a case in ascending
/// order of forecast. No cases, no points. Throws std::invalid_argument also for no resamples and
/// for a level outside (0, 1).
std::vector<BandPoint> consistency_band(std::span<const Case> cases, double level,
                                        std::size_t resamples, std::uint64_t seed);

}  // namespace likelihet::audit
