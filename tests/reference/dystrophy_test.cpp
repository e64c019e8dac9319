// Learned prediction against logistic regression on four noisy markers in the blood of 194 women,
// 67 of them carriers.
//
// Reference: R's glm (R Core Team 2022, version 4.2.2) on twenty halves; dystrophy.R names the
// source of the data, fits, predicts and writes dystrophy_logistic.csv. The halves are drawn here
// again by the same generator. Markers are thirds of what was measured, for both.
#include <algorithm>
#include <cstdlib>

#include "reference/halves.hpp"
#include <gtest/gtest.h>

namespace likelihet::reference::dystrophy_test {
namespace {

TEST(Dystrophy, FourMarkersPredictTheUntestedHalfNoWorse) {
  const Measured from = measured("dystrophy.csv");
  ASSERT_EQ(from.carrier.size(), 194U);
  ASSERT_EQ(std::count(from.carrier.begin(), from.carrier.end(), true), 67);
  const std::size_t halves = std::getenv("LIKELIHET_LONG") != nullptr ? 20 : 6;
  const Means found = over_halves("dystrophy_logistic.csv", "thirds", in_thirds(from), 97, halves);
  EXPECT_GE(found.ours.auc, found.theirs.auc - 0.02);
  EXPECT_LE(found.ours.brier, found.theirs.brier);
}

}  // namespace
}  // namespace likelihet::reference::dystrophy_test
