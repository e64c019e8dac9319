// What users of forecast and agreement statistics complain of elsewhere, one test each.
#include <array>
#include <cmath>
#include <stdexcept>

#include "audit/random_cases.hpp"
#include <gtest/gtest.h>

#include <likelihet/audit/agreement.hpp>
#include <likelihet/audit/calibration.hpp>
#include <likelihet/audit/isotonic.hpp>
#include <likelihet/audit/net_benefit.hpp>
#include <likelihet/audit/reliability.hpp>
#include <likelihet/audit/roc.hpp>
#include <likelihet/audit/two_by_two.hpp>

namespace likelihet::audit::pitfalls_test {
namespace {

// Fourteen forecasts crowd at two ends: ten uniform bins would be empty in the middle. Groups go by
// rank, and the isotonic curve has no bins at all.
TEST(Pitfalls, FewPointsAndUniformBins) {
  Cases cases;
  add(cases, .02, 6, 0);
  add(cases, .05, 4, 1);
  add(cases, .97, 4, 4);
  const auto groups = reliability_groups(cases, 10, 4);
  ASSERT_EQ(groups.size(), 3U);
  for (const ReliabilityGroup& group : groups) EXPECT_GE(group.weight, 4);
  ASSERT_EQ(isotonic(cases).size(), 3U);
}

// A bar of one or two cases never stands by itself unless it is asked for, and then its interval is
// as wide as it should be.
TEST(Pitfalls, BarsOfOneAndTwoCases) {
  Cases cases;
  add(cases, .1, 10, 1);
  add(cases, .5, 1, 1);
  add(cases, .9, 2, 2);
  const auto pooled = reliability_groups(cases, 10, 5);
  ASSERT_EQ(pooled.size(), 1U);
  EXPECT_EQ(pooled[0].weight, 13);
  const auto single = reliability_groups(cases, 13, 1);
  ASSERT_EQ(single.size(), 3U);
  EXPECT_GT(single[1].interval.high - single[1].interval.low, 0.75);
  EXPECT_GT(single[2].interval.high - single[2].interval.low, 0.6);
}

// All right in every group: no group of no cases, no width of 0, no division by 0.
TEST(Pitfalls, NearPerfectOrEmptyBins) {
  Cases cases;
  add(cases, 0, 20, 0);
  add(cases, 1, 20, 20);
  for (const ReliabilityGroup& group : reliability_groups(cases, 10, 1)) {
    EXPECT_EQ(group.weight, 20);
    EXPECT_EQ(group.probability, group.observed);
    EXPECT_GT(group.interval.high - group.interval.low, 0.1);
  }
  const auto parts = decompose(cases);
  EXPECT_EQ(parts.miscalibration, 0);
  EXPECT_EQ(parts.discrimination, 0.25);
  EXPECT_TRUE(reliability_groups({}, 10, 1).empty());
}

// Every forecast is its own: a decomposition whose bins are single cases would put all in
// resolution or none. The isotonic one finds skill, and not all of it.
TEST(Pitfalls, BinlessDecompositionDiscriminates) {
  Cases cases;
  for (int i = 0; i < 40; ++i) {
    cases.push_back({(i + .5) / 40, i % 4 == 3 || i >= 30 ? 1.0 : 0.0, 0});
  }
  const auto parts = decompose(cases);
  EXPECT_GT(parts.discrimination, 0.05);
  EXPECT_LT(parts.discrimination, parts.uncertainty);
  EXPECT_GT(parts.miscalibration, 0);
}

// Too extreme and too low at once: the intercept beside a free slope is not calibration in the
// large, and the two even differ in sign. Each has its own name.
TEST(Pitfalls, TwoInterceptsAreTwoNumbers) {
  Cases cases;
  add(cases, .9, 20, 12);
  add(cases, .97, 20, 13);
  add(cases, .6, 20, 11);
  const auto in_the_large = calibration_intercept(cases);
  const auto fit = calibration_slope(cases);
  ASSERT_TRUE(in_the_large && fit);
  EXPECT_LT(*in_the_large, -1);
  EXPECT_GT(fit->intercept, 0);
}

// The wrong way round stays below 1/2.
TEST(Pitfalls, AucDirectionIsNeverTurned) {
  Cases cases;
  add(cases, .2, 5, 5);
  add(cases, .8, 5, 0);
  ASSERT_TRUE(auc(cases));
  EXPECT_EQ(auc(cases)->value, 0);
  EXPECT_EQ(auc(cases)->interval.low, 0);
  EXPECT_GT(auc(cases)->interval.high, 0.1);
}

TEST(Pitfalls, AucIsNeverAboveOneAndItsIntervalHasWidth) {
  for (int n = 1; n <= 60; ++n) {
    Cases cases;
    add(cases, 1.0 / 3, n, 0);
    add(cases, 2.0 / 3, n + 1, n + 1);
    const auto found = auc(cases);
    ASSERT_TRUE(found);
    EXPECT_EQ(found->value, 1);
    EXPECT_EQ(found->interval.high, 1);
    EXPECT_LT(found->interval.low, 0.99);
    EXPECT_GT(found->interval.low, 0);
  }
}

TEST(Pitfalls, ThresholdsZeroAndOneAreRefused) {
  const Cases cases{{.5, 1, 0}, {.2, 0, 1}};
  for (double threshold : {0.0, 1.0, -0.1, 1.1, std::nan("")}) {
    EXPECT_THROW(net_benefit(cases, threshold), std::invalid_argument);
    EXPECT_THROW(net_benefit_of_all(cases, threshold), std::invalid_argument);
  }
}

// 0 / 0 has a reason and the category's place, and is not a number.
TEST(Pitfalls, KappaOfOneCategoryIsNoNumber) {
  const Kappa found = cohen_kappa(std::array{0.0, 0.0, 0.0, 25.0}, 2);
  EXPECT_FALSE(found.value);
  EXPECT_EQ(found.undefined, "all were put in one category");
  EXPECT_EQ(found.only_category, 1U);
  EXPECT_EQ(found.observed, 1);
  EXPECT_FALSE(std::isnan(found.standard_error));
  const Kappa many = fleiss_kappa(std::array{0.0, 3.0, 0.0, 0.0, 2.0, 0.0}, 3);
  EXPECT_FALSE(many.value);
  EXPECT_EQ(many.only_category, 1U);
  const auto by_category = fleiss_kappa_by_category(std::array{0.0, 3.0, 0.0, 0.0, 2.0, 0.0}, 3);
  EXPECT_EQ(by_category[0].undefined, "no one chose it");
  EXPECT_EQ(by_category[1].undefined, "all were put in one category");
}

// 92 of 100 agree, yet kappa is about 0: nearly all are in one category. AC1 says what was seen.
TEST(Pitfalls, SkewedCategoriesTakeASecondIndex) {
  const std::array table{92.0, 4.0, 4.0, 0.0};
  const Kappa cohen = cohen_kappa(table, 2);
  const Kappa second = gwet(table, 2);
  ASSERT_TRUE(cohen.value && second.value);
  EXPECT_LT(*cohen.value, 0);
  EXPECT_GT(*second.value, 0.9);
  EXPECT_EQ(cohen.observed, second.observed);
}

TEST(Pitfalls, ZeroCells) {
  const TwoByTwo table{8, 0, 2, 30};
  for (const Estimate& found : {positive_ratio(table), negative_ratio(table), odds_ratio(table)}) {
    EXPECT_TRUE(std::isfinite(found.value) && found.value > 0);
    EXPECT_TRUE(std::isfinite(found.interval.high) && found.interval.low > 0);
  }
  // By hand, after 1/2: (8.5 / 11) / (.5 / 31).
  EXPECT_NEAR(positive_ratio(table).value, 8.5 / 11 * 62, 1e-9);
}

// Parted, or touching at one forecast: no slope. One case across: a slope.
TEST(Pitfalls, SeparationHasNoSlope) {
  Cases cases;
  add(cases, .2, 5, 0);
  add(cases, .8, 5, 5);
  EXPECT_FALSE(calibration_slope(cases));
  EXPECT_TRUE(calibration_intercept(cases));
  add(cases, .8, 1, 0);
  EXPECT_FALSE(calibration_slope(cases));
  Cases turned;
  add(turned, .2, 5, 5);
  add(turned, .8, 5, 0);
  EXPECT_FALSE(calibration_slope(turned));
  add(cases, .2, 1, 1);
  const auto fit = calibration_slope(cases);
  ASSERT_TRUE(fit);
  EXPECT_NEAR(fit->slope, std::log(5.0) / std::log(4.0), 1e-9);
}

}  // namespace
}  // namespace likelihet::audit::pitfalls_test
