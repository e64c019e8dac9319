// What all indices of agreement share; internal to the layer.
#pragma once

#include <likelihet/audit/agreement.hpp>

namespace likelihet::audit {

/// Value, standard error and interval of an index from its observed and expected agreement among
/// `n` animals and its variance; 1 - expected is above 0.
Kappa kappa_of(double observed, double expected, double variance, double n);

/// The index that has no value, and why.
Kappa no_kappa(double observed, double expected, std::string why);

}  // namespace likelihet::audit
