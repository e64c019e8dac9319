// Log odds and back.
#pragma once

#include <cmath>

namespace likelihet::base {

/// 1/(1 + e^-x): the probability whose log odds, in nats, are x.
inline double logistic(double x) {
  return 1 / (1 + std::exp(-x));
}

/// ln(p/(1 - p)), in nats; infinite at 0 and 1.
inline double logit(double p) {
  return std::log(p / (1 - p));
}

}  // namespace likelihet::base
