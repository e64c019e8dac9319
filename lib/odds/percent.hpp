// Probabilities as percentages that never round up to certainty. The library's sentences and the
// command line share these, so that all figures round alike.
#pragma once

#include <string>

namespace likelihet::odds {

/// A probability with that of its contrary, so that 1 - 1e-20 is not shown as certain. Both are
/// summed from the same probabilities, so `no` keeps digits that 1 - yes has lost. They need not
/// sum to 1 exactly.
struct Chance {
  double yes = 0;
  double no = 0;
};

/// "66.7 %"; "<0.1 %" and ">99.9 %" beyond those; "0 %" and "100 %" only where it is certain. One
/// decimal, rounded to the nearest.
std::string percent(const Chance& chance);
/// For a probability that comes without its contrary: "100 %" only where it is exactly 1.
std::string percent(double probability);

/// "97.0 – 99.5 %", in the same manner; one figure where both ends read the same.
std::string percent_range(double low, double high);

/// "×3.2", "×0.04"; three significant digits up to a thousand, "over ×1,000" and "under ×0.001"
/// beyond, where digits would only look exact; "proves it" for infinity, "rules it out" for 0. A
/// Bayes factor on the odds, in [0, infinity].
std::string factor_in_words(double factor);

}  // namespace likelihet::odds
