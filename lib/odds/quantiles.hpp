// Quantiles of draws.
#pragma once

#include <span>

namespace likelihet::odds {

/// Interpolated between order statistics: definition 7 of Hyndman and Fan (1996, The American
/// Statistician 50:361). `p` in [0, 1]; one value or more. Partly sorts `values`, in linear time.
double quantile(std::span<double> values, double p);

/// The same of values that are sorted, at once.
double quantile_of_sorted(std::span<const double> sorted, double p);

}  // namespace likelihet::odds
