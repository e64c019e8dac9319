// The few values of the normal and chi-squared distributions that intervals and tests take;
// internal to the layer.
#pragma once

namespace likelihet::audit {

/// Half the width, in standard errors, of a two-sided normal interval: 1.959964 at 0.95. Throws
/// std::invalid_argument unless 0 < level < 1.
double normal_width(double level);

/// P(|Z| >= |z|).
double two_sided_p(double z);

/// P(X >= chi_squared), `degrees` of freedom above 0.
double chi_squared_p(double chi_squared, double degrees);

}  // namespace likelihet::audit
