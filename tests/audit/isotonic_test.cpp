// The rising curve against the formula of greatest and least means, and what is read off it.
#include <algorithm>
#include <cmath>
#include <map>
#include <stdexcept>

#include "audit/random_cases.hpp"
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <likelihet/audit/isotonic.hpp>

namespace likelihet::audit::isotonic_test {
namespace {

// The curve at i is the greatest over a <= i of the least over b >= i of the mean outcome of the
// forecasts a to b.
std::vector<double> by_means(const Cases& cases) {
  std::map<double, std::pair<double, double>> sums;  // forecast: outcomes, cases
  for (const Case& one : cases) {
    sums[one.probability].first += one.outcome;
    sums[one.probability].second += 1;
  }
  std::vector<std::pair<double, double>> groups;
  for (const auto& [forecast, sum] : sums) groups.push_back(sum);
  std::vector<double> out;
  for (std::size_t i = 0; i < groups.size(); ++i) {
    double greatest = -1;
    for (std::size_t a = 0; a <= i; ++a) {
      double least = 2;
      double outcomes = 0;
      double number = 0;
      for (std::size_t b = a; b < groups.size(); ++b) {
        outcomes += groups[b].first;
        number += groups[b].second;
        if (b >= i) least = std::min(least, outcomes / number);
      }
      greatest = std::max(greatest, least);
    }
    out.push_back(greatest);
  }
  return out;
}

RC_GTEST_PROP(Isotonic, IsTheCurveOfGreatestAndLeastMeans, ()) {
  const Cases cases = *random_cases(true);
  const auto curve = isotonic(cases);
  const auto expected = by_means(cases);
  RC_ASSERT(curve.size() == expected.size());
  double weight = 0;
  for (std::size_t i = 0; i < curve.size(); ++i) {
    RC_ASSERT(std::abs(curve[i].observed - expected[i]) < 1e-12);
    RC_ASSERT((i == 0 || curve[i - 1].probability < curve[i].probability));
    weight += curve[i].weight;
  }
  RC_ASSERT(weight == static_cast<double>(cases.size()));
}

RC_GTEST_PROP(Isotonic, PartsMakeUpTheScore, ()) {
  const Cases cases = *rc::gen::nonEmpty(random_cases(true));
  const auto parts = decompose(cases);
  RC_ASSERT(std::abs(parts.miscalibration - parts.discrimination + parts.uncertainty -
                     brier(cases)) < 1e-12);
  RC_ASSERT((parts.miscalibration >= 0 && parts.discrimination >= 0));
  RC_ASSERT(parts.discrimination <= parts.uncertainty + 1e-12);
  // The definition: scores of the curve and of the mean outcome.
  Cases recalibrated = cases;
  Cases mean = cases;
  const auto curve = isotonic(cases);
  double outcomes = 0;
  for (const Case& one : cases) outcomes += one.outcome;
  for (Case& one : mean) {
    one.probability = std::min(1.0, outcomes / static_cast<double>(cases.size()));
  }
  for (Case& one : recalibrated) {
    one.probability = std::find_if(curve.begin(), curve.end(), [&](const IsotonicStep& step) {
                        return step.probability == one.probability;
                      })->observed;
  }
  RC_ASSERT(std::abs(parts.miscalibration - (brier(cases) - brier(recalibrated))) < 1e-12);
  RC_ASSERT(std::abs(parts.discrimination - (brier(mean) - brier(recalibrated))) < 1e-12);
}

RC_GTEST_PROP(Isotonic, BandHoldsProbabilitiesAndIsTheSameAgain, ()) {
  const Cases cases = *random_cases();
  const auto band = consistency_band(cases, 0.9, 20, 7);
  const auto again = consistency_band(cases, 0.9, 20, 7);
  RC_ASSERT(band.size() == isotonic(cases).size());
  for (std::size_t i = 0; i < band.size(); ++i) {
    RC_ASSERT((0 <= band[i].low && band[i].low <= band[i].high && band[i].high <= 1));
    RC_ASSERT((i == 0 || (band[i - 1].low <= band[i].low && band[i - 1].high <= band[i].high)));
    RC_ASSERT((band[i].low == again[i].low && band[i].high == again[i].high));
  }
}

// One forecast of .3 for 100: the curve is the share, 95 % of them within the binomial quantiles.
TEST(Isotonic, BandOfOneForecastIsBinomial) {
  Cases cases;
  add(cases, 0.3, 100, 50);
  const auto band = consistency_band(cases, 0.95, 4000, 1);
  ASSERT_EQ(band.size(), 1U);
  EXPECT_NEAR(band[0].low, 0.21, 0.011);
  EXPECT_NEAR(band[0].high, 0.39, 0.011);
}

// What is sure has no band.
TEST(Isotonic, BandOfCertainForecasts) {
  const auto band = consistency_band(Cases{{0, 0, 0}, {1, 1, 1}}, 0.95, 50, 1);
  ASSERT_EQ(band.size(), 2U);
  EXPECT_EQ(band[0].high, 0);
  EXPECT_EQ(band[1].low, 1);
}

// By hand: .2 for two of whom one is so, .8 for two, both so: |.2 - .5| and |.8 - 1|, halves.
TEST(Isotonic, IndexByHand) {
  Cases cases;
  add(cases, .2, 2, 1);
  add(cases, .8, 2, 2);
  EXPECT_NEAR(integrated_calibration_index(cases), .25, 1e-12);
}

TEST(Isotonic, NothingAndOneCase) {
  EXPECT_TRUE(isotonic({}).empty());
  EXPECT_TRUE(consistency_band({}, 0.95, 10, 1).empty());
  EXPECT_THROW(decompose({}), std::invalid_argument);
  EXPECT_THROW(integrated_calibration_index({}), std::invalid_argument);
  const Cases one{{.3, 1, 0}};
  EXPECT_EQ(isotonic(one).front().observed, 1);
  EXPECT_EQ(decompose(one).uncertainty, 0);
  EXPECT_NEAR(decompose(one).miscalibration, .49, 1e-12);
  EXPECT_THROW(consistency_band(one, 0.95, 0, 1), std::invalid_argument);
  EXPECT_THROW(consistency_band(one, 1, 10, 1), std::invalid_argument);
}

}  // namespace
}  // namespace likelihet::audit::isotonic_test
