// One sign in several strata (lines, breeders, years): one odds ratio for all, and whether there is
// one.
#pragma once

#include <cstddef>
#include <optional>
#include <span>

#include <likelihet/audit/interval.hpp>
#include <likelihet/audit/two_by_two.hpp>

namespace likelihet::audit {

// Throws std::invalid_argument for a count that is negative or not finite.

struct MantelHaenszel {
  /// Sum of TP TN / n over sum of FP FN / n, with the interval of Robins, Breslow and Greenland
  /// (1986, Biometrics 42:311), level 0.95. None where either sum is 0.
  std::optional<Estimate> odds_ratio;
  /// Of no association within strata, one degree of freedom (Mantel and Haenszel 1959, J Natl
  /// Cancer Inst 22:719), without and with the correction of 1/2 (of |observed - expected| where
  /// that is less), and the p of each.
  double chi_squared = 0;
  double p = 1;
  double chi_squared_corrected = 0;
  double p_corrected = 1;
};

/// None where no stratum has both kinds by the sign and both by what is so.
std::optional<MantelHaenszel> mantel_haenszel(std::span<const TwoByTwo> strata);

struct Homogeneity {
  double chi_squared = 0;
  std::size_t degrees = 0;
  double p = 1;
};

/// Woolf (1955, Annals of Human Genetics 19:251): log odds ratios against their mean, each weighted
/// by 1 / its variance. 1/2 is added to every cell of every stratum if any is 0 (Haldane 1956,
/// Annals of Human Genetics 20:309), else nothing. None with fewer than two strata that have a
/// case.
std::optional<Homogeneity> woolf_homogeneity(std::span<const TwoByTwo> strata);

struct BreslowDay {
  Homogeneity plain;
  Homogeneity corrected;  ///< Tarone's, which belongs to the Mantel-Haenszel odds ratio
};

/// Breslow and Day (1980, Statistical Methods in Cancer Research I, equation 4.30) at the
/// Mantel-Haenszel odds ratio, and with Tarone's (1985, Biometrika 72:91) correction. Strata with
/// an empty margin say nothing and don't count. None without that odds ratio, or with fewer than
/// two strata that count.
std::optional<BreslowDay> breslow_day(std::span<const TwoByTwo> strata);

}  // namespace likelihet::audit
