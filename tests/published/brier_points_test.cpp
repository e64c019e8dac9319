// Single forecasts of rain.
//
// Source: the encyclopaedia article "Brier score" after G. W. Brier, "Verification of forecasts
// expressed in terms of probability", Monthly Weather Review 78 (1950) 1-3; inputs and scores were
// read in a copy of the article.
#include <array>

#include <gtest/gtest.h>

#include <likelihet/audit/score.hpp>

namespace likelihet::published::brier_points_test {
namespace {

double score(double forecast, double outcome) {
  return audit::brier(std::array{audit::Case{forecast, outcome, 0}});
}

TEST(BrierPoints, OneForecastEach) {
  EXPECT_NEAR(score(1, 1), 0, 1e-15);
  EXPECT_NEAR(score(1, 0), 1, 1e-15);
  EXPECT_NEAR(score(.7, 1), 0.09, 1e-15);
  EXPECT_NEAR(score(.3, 1), 0.49, 1e-15);
  EXPECT_NEAR(score(.5, 1), 0.25, 1e-15);
  EXPECT_NEAR(score(.5, 0), 0.25, 1e-15);
}

}  // namespace
}  // namespace likelihet::published::brier_points_test
