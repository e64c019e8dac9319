// Sensitivity, specificity and likelihood ratios of one test in 1586 patients.
//
// Source: I. A. Scott, P. B. Greenberg and P. J. Poole, Internal Medicine Journal 38 (2008)
// 120-129, Table 1, whose intervals are those of D. L. Simel, G. P. Samsa and D. B. Matchar, J Clin
// Epidemiol 44 (1991) 763-770. Counts and printed values were read in the help page of the R
// package epiR (2.0.57); further digits are that package's, the negative ratio's our own formula in
// R.
#include "published/worked_colony.hpp"
#include <gtest/gtest.h>

#include <likelihet/audit/two_by_two.hpp>

namespace likelihet::published::scott_likelihood_ratio_test {
namespace {

constexpr audit::TwoByTwo table{670, 202, 74, 640};

TEST(Scott, SensitivityAndSpecificity) {
  const auto sensitivity = audit::sensitivity(table);
  const auto specificity = audit::specificity(table);
  EXPECT_NEAR(sensitivity.value, .90, half_unit(2));
  EXPECT_NEAR(specificity.value, .76, half_unit(2));
  EXPECT_NEAR(sensitivity.value, 0.90053763441, 1e-10);
  EXPECT_NEAR(specificity.value, 0.76009501188, 1e-10);
  // Printed with another method's intervals, the same to two places.
  EXPECT_NEAR(sensitivity.interval.low, .88, half_unit(2));
  EXPECT_NEAR(sensitivity.interval.high, .92, half_unit(2));
  EXPECT_NEAR(specificity.interval.low, .73, half_unit(2));
  EXPECT_NEAR(specificity.interval.high, .79, half_unit(2));
}

TEST(Scott, LikelihoodRatios) {
  const auto positive = audit::positive_ratio(table);
  EXPECT_NEAR(positive.value, 3.75, half_unit(2));
  EXPECT_NEAR(positive.interval.low, 3.32, half_unit(2));
  EXPECT_NEAR(positive.interval.high, 4.24, half_unit(2));
  EXPECT_NEAR(positive.value, 3.7537261791, 1e-9);
  EXPECT_NEAR(positive.interval.low, 3.3206884355, 1e-9);
  EXPECT_NEAR(positive.interval.high, 4.2432346488, 1e-9);
  const auto negative = audit::negative_ratio(table);
  EXPECT_NEAR(negative.value, 0.13085517473, 1e-10);
  EXPECT_NEAR(negative.interval.low, 0.10506432351, 1e-10);
  EXPECT_NEAR(negative.interval.high, 0.16297708091, 1e-10);
}

TEST(Scott, OddsRatio) {
  const auto found = audit::odds_ratio(table);
  EXPECT_NEAR(found.value, 28.6861118544, 1e-8);
  EXPECT_NEAR(found.interval.low, 21.5181916566, 1e-8);
  EXPECT_NEAR(found.interval.high, 38.2417364087, 1e-8);
}

}  // namespace
}  // namespace likelihet::published::scott_likelihood_ratio_test
