// Answers of 91 couples to one question, in four ordered categories: kappa with its error.
//
// Source: M. Hout, O. D. Duncan and M. E. Sobel, Sociological Methodology 17 (1987) 145-184;
// printed kappa, standard errors and intervals (M. Friendly, Visualizing Categorical Data (2000),
// p. 91) were read with the table on a reference page of the R package vcdExtra; further digits are
// those of the R package vcd.
#include <array>

#include "published/worked_colony.hpp"
#include <gtest/gtest.h>

#include <likelihet/audit/agreement.hpp>

namespace likelihet::published::hout_kappa_error_test {
namespace {

constexpr std::array table = {7.0, 7.0, 2.0, 3.0, 2.0, 8.0, 3.0, 7.0,
                              1.0, 5.0, 4.0, 9.0, 2.0, 8.0, 9.0, 14.0};

TEST(Hout, Unweighted) {
  const auto kappa = audit::cohen_kappa(table, 4);
  ASSERT_TRUE(kappa.value);
  EXPECT_NEAR(*kappa.value, .1293, half_unit(4));
  EXPECT_NEAR(kappa.standard_error, .06860, half_unit(5));
  EXPECT_NEAR(kappa.interval.low, -.00512, half_unit(5));
  EXPECT_NEAR(kappa.interval.high, .2638, half_unit(4));
  EXPECT_NEAR(*kappa.value, 0.12933025404, 1e-10);
  EXPECT_NEAR(kappa.standard_error, 0.068598532481, 1e-10);
  EXPECT_NEAR(kappa.interval.low, -0.0051203990129, 1e-10);
  EXPECT_NEAR(kappa.interval.high, 0.2637809071, 1e-10);
}

TEST(Hout, LinearWeights) {
  const auto kappa = audit::cohen_kappa(table, 4, audit::linear_weights(4));
  ASSERT_TRUE(kappa.value);
  EXPECT_NEAR(*kappa.value, .2374, half_unit(4));
  EXPECT_NEAR(kappa.standard_error, .07832, half_unit(5));
  EXPECT_NEAR(kappa.interval.low, .08388, half_unit(5));
  EXPECT_NEAR(kappa.interval.high, .3909, half_unit(4));
  EXPECT_NEAR(*kappa.value, 0.23738062756, 1e-10);
  EXPECT_NEAR(kappa.standard_error, 0.078316334778, 1e-10);
}

}  // namespace
}  // namespace likelihet::published::hout_kappa_error_test
