// Learned prediction against logistic regression on measurements of 75 women, 45 of them carriers.
//
// Reference: R's glm (R Core Team 2022, version 4.2.2) on twenty halves; hemophilia.R names the
// source of the data, fits, predicts and writes hemophilia_logistic.csv. The halves are drawn here
// again by the same generator. Markers are thirds of what was measured.
#include <cmath>
#include <cstdlib>
#include <stdexcept>

#include "reference/halves.hpp"
#include <gtest/gtest.h>

namespace likelihet::reference::hemophilia_test {
namespace {

constexpr std::size_t women = 75;

// log10 of activity and antigen, in units of 1e-4.
Measured in_units() {
  Measured out = measured("hemophilia.csv");
  for (auto& column : out.columns) {
    for (double& number : column) number = std::round(1e4 * number);
  }
  return out;
}

bool in_full() {
  return std::getenv("LIKELIHET_LONG") != nullptr;
}

Means halves_of(const std::string& markers, const std::vector<Marked>& all) {
  return over_halves("hemophilia_logistic.csv", markers, all, 38, in_full() ? 20 : 8);
}

learning::Dependence dependence(const std::vector<Marked>& all) {
  const auto found = dependences(all);
  if (found.size() != 1) throw std::runtime_error("no pair of markers");
  testing::Test::RecordProperty("correlation", std::to_string(found.front().correlation));
  testing::Test::RecordProperty("p", std::to_string(found.front().p));
  return found.front();
}

// Antigen less activity, the logarithm of their ratio, and antigen: these repeat each other little
// (correlations of 0.20 and 0.43 within the classes, before they are cut into thirds).
TEST(Hemophilia, MarkersThatHardlyRepeatEachOtherPredictNoWorse) {
  Measured from = in_units();
  ASSERT_EQ(from.carrier.size(), women);
  for (std::size_t w = 0; w < women; ++w) {
    from.columns[0][w] = from.columns[1][w] - from.columns[0][w];
  }
  const auto all = in_thirds(from);
  const Means found = halves_of("ratio", all);
  EXPECT_GE(found.ours.auc, found.theirs.auc - 0.02);
  EXPECT_LE(found.ours.brier, found.theirs.brier);
  EXPECT_GT(dependence(all).p, 0.05);
}

// Activity and antigen rise together (0.80 and 0.64 within the classes). A product of likelihoods
// predicts worse than the regression there, which weighs one against the other (in full the
// figures are recorded); learning tells that the markers repeat each other.
TEST(Hemophilia, MarkersThatRepeatEachOtherAreTold) {
  const auto all = in_thirds(in_units());
  const learning::Dependence found = dependence(all);
  EXPECT_GT(found.correlation, 0.3);
  EXPECT_LT(found.p, 0.01);
  if (in_full()) halves_of("plain", all);
}

}  // namespace
}  // namespace likelihet::reference::hemophilia_test
