// Whether markers and hets go together within strata, such as clutches.
#pragma once

#include <cstddef>
#include <span>

namespace likelihet::audit {

/// One animal: how much of the marker it shows, its chance to be a carrier by everything but
/// markers, and the stratum in which it is compared.
struct Compared {
  double marker = 0;
  double carrier = 0;
  std::size_t stratum = 0;
};

/// Σ_strata Σ (marker - mean)(carrier - mean), over its standard deviation if markers were shuffled
/// within strata. Positive: hets show more. Of zeros and ones it is the test of Mantel and
/// Haenszel (1959) without correction for continuity, of grades that of Mantel (1963, Journal of
/// the American Statistical Association 58:690).
struct StratifiedTest {
  double z = 0;                        ///< 0 where no stratum tells
  double p = 1;                        ///< two-sided, by the normal distribution
  std::size_t informative_strata = 0;  ///< in which both differ
};
StratifiedTest stratified_test(std::span<const Compared> animals);

}  // namespace likelihet::audit
