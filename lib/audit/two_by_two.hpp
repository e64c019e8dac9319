// A sign that is there or not, against what is so.
#pragma once

#include <likelihet/audit/interval.hpp>

namespace likelihet::audit {

/// Counts, whole or in part (a case that counts by its probability): positive and negative by the
/// sign, true and false by what is so.
struct TwoByTwo {
  double true_positive = 0;
  double false_positive = 0;
  double false_negative = 0;
  double true_negative = 0;
};

// Of all: intervals of level 0.95. Throws std::invalid_argument for a count that is negative or not
// finite.

/// P(positive | so), of the true positives and the false negatives, with Wilson's interval. Without
/// any the value is 1/2 and the interval [0, 1]: nothing is known.
Estimate sensitivity(const TwoByTwo& table);

/// P(negative | not so), of the true negatives and the false positives, in the same way.
Estimate specificity(const TwoByTwo& table);

/// The one rule for empty cells: 1/2 is added to all four if any is 0, else nothing. All ratios
/// below are of the table after it, and so never 0, infinite or not a number.
TwoByTwo without_empty_cells(const TwoByTwo& table);

/// sensitivity / (1 - specificity), the interval from the standard error of its logarithm,
/// sqrt(1/TP - 1/(TP + FN) + 1/FP - 1/(FP + TN)) (Simel, Samsa and Matchar 1991, J Clin Epidemiol
/// 44:763).
Estimate positive_ratio(const TwoByTwo& table);

/// (1 - sensitivity) / specificity, in the same way.
Estimate negative_ratio(const TwoByTwo& table);

/// TP TN / (FP FN), the standard error of its logarithm the root of the sum of 1/cell (Woolf 1955,
/// Annals of Human Genetics 19:251).
Estimate odds_ratio(const TwoByTwo& table);

}  // namespace likelihet::audit
