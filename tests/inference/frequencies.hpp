// Whether counts of draws look like probabilities.
#pragma once

#include <cstddef>
#include <vector>

#include <boost/math/distributions/chi_squared.hpp>

namespace likelihet::test {

/// Upper tail of Pearson's X² of counts against probabilities; cells of less than five expected are
/// pooled.
inline double p_value(const std::vector<double>& counts, const std::vector<double>& probabilities,
                      double draws) {
  double statistic = 0;
  double pooled_count = 0;
  double pooled = 0;
  int cells = 0;
  for (std::size_t i = 0; i < counts.size(); ++i) {
    const double expected = draws * probabilities[i];
    if (expected < 5) {
      pooled_count += counts[i];
      pooled += expected;
      continue;
    }
    statistic += (counts[i] - expected) * (counts[i] - expected) / expected;
    ++cells;
  }
  if (pooled >= 5) {
    statistic += (pooled_count - pooled) * (pooled_count - pooled) / pooled;
    ++cells;
  }
  if (cells < 2) return 1;
  return boost::math::cdf(complement(boost::math::chi_squared(cells - 1), statistic));
}

}  // namespace likelihet::test
