// The inverse of the log odds.
#pragma once

#include <cmath>

namespace likelihet::audit {

/// 1/(1 + e^-x): the probability whose log odds, in nats, are x.
inline double logistic(double x) {
  return 1 / (1 + std::exp(-x));
}

}  // namespace likelihet::audit
