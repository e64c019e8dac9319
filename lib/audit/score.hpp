// Probabilities that were given against what came of them: the scores.
#pragma once

#include <cstddef>
#include <optional>
#include <span>

namespace likelihet::audit {

/// One forecast and its outcome.
struct Case {
  double probability = 0;  ///< that was given, in [0, 1]
  /// P(it is so), in [0, 1]: an outcome keeps its own probability, and 0 and 1 are certain. Scores
  /// are expected values over it.
  double outcome = 0;
  std::size_t cluster = 0;  ///< cases of one cluster (a clutch, say) are not independent
};

// Of all here: throws std::invalid_argument for a probability or outcome outside [0, 1], and, where
// a number is given back for certain, for no cases.

/// Mean of (probability - outcome)^2, the outcome 0 or 1 (Brier 1950, Monthly Weather Review 78:1,
/// of one of two classes); with P(outcome) = o between them, o (1 - p)^2 + (1 - o) p^2. 0 is
/// perfect, 1/4 what 50 % for everything gets, 1 the worst.
double brier(std::span<const Case> cases);

/// Mean of -log2 of what was given to what came (Good 1952, J R Stat Soc B 14:107), in bits: 0 is
/// perfect, 1 what 50 % for everything gets. A probability given to what came counts as no less
/// than 1e-15: a wrong forecast of exactly 0 or 1 costs 49.8 bits.
double log_score(std::span<const Case> cases);

/// 1 - brier(cases) / brier(baseline): the share of the baseline's score that is gained. The lists
/// have one length, the same animals in the same order, else std::invalid_argument. Where the
/// baseline is perfect, 0 if the cases are too, else -infinity.
double skill(std::span<const Case> cases, std::span<const Case> baseline);

/// Sum of outcomes / sum of probabilities (Debray et al. 2017, BMJ 356:i6460): above 1 where too
/// little was given. None where nothing was expected.
std::optional<double> observed_expected(std::span<const Case> cases);

}  // namespace likelihet::audit
