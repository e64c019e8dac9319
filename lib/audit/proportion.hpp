// Intervals of a proportion.
#pragma once

#include <likelihet/audit/interval.hpp>

namespace likelihet::audit {

// Of all: `events` of `n`, 0 <= events <= n, neither need be whole (cases that count in part): the
// formulas are continued through the incomplete beta function. `level` in (0, 1). n = 0 gives
// [0, 1]. The low end is 0 at no event and the high end 1 at nothing but events. Throws
// std::invalid_argument for other numbers.

/// Wilson's score interval (Wilson 1927, J Am Stat Assoc 22:209; Newcombe 1998, Statistics in
/// Medicine 17:857, method 3). The one to show: right on average, never of width 0.
Interval wilson(double events, double n, double level = 0.95);

/// With continuity correction (Newcombe 1998, method 4).
Interval wilson_corrected(double events, double n, double level = 0.95);

/// Exact, never less often right than `level` says (Clopper and Pearson 1934, Biometrika 26:404;
/// Newcombe 1998, method 5).
Interval clopper_pearson(double events, double n, double level = 0.95);

/// Exact with half the probability of what was seen (Lancaster 1961, J Am Stat Assoc 56:223;
/// Newcombe 1998, method 6).
Interval mid_p(double events, double n, double level = 0.95);

/// Equal tails of the posterior under Beta(1/2, 1/2), the ends at no event and at nothing but
/// events set to 0 and 1 (Brown, Cai and DasGupta 2001, Statistical Science 16:101, section 4.1.2).
Interval jeffreys(double events, double n, double level = 0.95);

}  // namespace likelihet::audit
