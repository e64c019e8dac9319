// Fits where the derivatives of the likelihood are 0, and lists of cases that have none.
#include <array>
#include <cmath>
#include <stdexcept>

#include "audit/random_cases.hpp"
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <likelihet/audit/calibration.hpp>

namespace likelihet::audit::calibration_test {
namespace {

double logit(double p) {
  const double inside = std::clamp(p, least_on_logit, 1 - least_on_logit);
  return std::log(inside / (1 - inside));
}

double logistic(double x) {
  return 1 / (1 + std::exp(-x));
}

RC_GTEST_PROP(Calibration, InterceptMakesTheMeanRight, ()) {
  const Cases cases = *random_cases(true);
  const auto intercept = calibration_intercept(cases);
  double observed = 0;
  for (const Case& one : cases) observed += one.outcome;
  const auto n = static_cast<double>(cases.size());
  RC_ASSERT((intercept.has_value() == (observed > 0 && observed < n)));
  if (!intercept) return;
  double expected = 0;
  for (const Case& one : cases) expected += logistic(*intercept + logit(one.probability));
  RC_ASSERT(std::abs(expected - observed) < 1e-9 * n);
}

RC_GTEST_PROP(Calibration, SlopeIsWhereTheLikelihoodIsLevel, ()) {
  const Cases cases = *random_cases(true);
  const auto fit = calibration_slope(cases);
  if (!fit) return;
  double level = 0;
  double tilt = 0;
  std::array<double, 3> information{};
  for (const Case& one : cases) {
    const double x = logit(one.probability);
    const double mean = logistic(fit->intercept + fit->slope * x);
    level += one.outcome - mean;
    tilt += (one.outcome - mean) * x;
    information[0] += mean * (1 - mean);
    information[1] += mean * (1 - mean) * x;
    information[2] += mean * (1 - mean) * x * x;
  }
  RC_ASSERT((std::abs(level) < 1e-7 && std::abs(tilt) < 1e-7));
  const double determinant = information[0] * information[2] - information[1] * information[1];
  const auto near = [](double a, double b) { return std::abs(a - b) <= 1e-6 * std::abs(b) + 1e-9; };
  RC_ASSERT(near(fit->covariance[0], information[2] / determinant));
  RC_ASSERT(near(fit->covariance[1], -information[1] / determinant));
  RC_ASSERT(fit->covariance[1] == fit->covariance[2]);
  RC_ASSERT(near(fit->covariance[3], information[0] / determinant));
}

// Outcomes that come in exactly the share that was given.
RC_GTEST_PROP(Calibration, OfExactForecasts, ()) {
  Cases cases = *random_cases();
  for (Case& one : cases) one.outcome = std::clamp(one.probability, 0.05, 0.95);
  for (Case& one : cases) one.probability = one.outcome;
  RC_PRE(!cases.empty());
  RC_ASSERT(std::abs(*calibration_intercept(cases)) < 1e-9);
  if (const auto fit = calibration_slope(cases)) {
    RC_ASSERT((std::abs(fit->intercept) < 1e-9 && std::abs(fit->slope - 1) < 1e-9));
  }
  if (const auto z = spiegelhalter_z(cases)) RC_ASSERT(std::abs(*z) < 1e-9);
}

TEST(Calibration, ExtremeForecastsHaveASlopeBelowOne) {
  Cases cases;
  add(cases, .99, 10, 8);
  add(cases, .01, 10, 2);
  const auto fit = calibration_slope(cases);
  ASSERT_TRUE(fit);
  // Two forecasts: the line goes through both shares, logit .8 / logit .99.
  EXPECT_NEAR(fit->slope, std::log(4.0) / std::log(99.0), 1e-9);
  EXPECT_NEAR(fit->intercept, 0, 1e-9);
  EXPECT_NEAR(*calibration_intercept(cases), 0, 1e-9);
}

// Nearly parted, by outcomes that are nearly certain: symmetric, so that the line goes through 1/2,
// and steep, until the doubt is one that rounding makes.
TEST(Calibration, NearlyParted) {
  double last = 0;
  for (double doubt : {1e-2, 1e-3, 1e-4, 1e-6, 1e-8}) {
    const auto fit =
        calibration_slope(Cases{{.2, doubt, 0}, {.3, 0, 0}, {.7, 1, 0}, {.8, 1 - doubt, 0}});
    ASSERT_TRUE(fit) << doubt;
    EXPECT_NEAR(fit->intercept, 0, 1e-4);
    EXPECT_GT(fit->slope, last);
    last = fit->slope;
  }
  EXPECT_FALSE(
      calibration_slope(Cases{{.2, 1e-12, 0}, {.3, 0, 0}, {.7, 1, 0}, {.8, 1 - 1e-12, 0}}));
}

TEST(Calibration, NothingToFit) {
  EXPECT_FALSE(calibration_intercept({}));
  EXPECT_FALSE(calibration_slope({}));
  EXPECT_FALSE(spiegelhalter_z({}));
  const Cases one{{.3, 1, 0}};
  EXPECT_FALSE(calibration_intercept(one));
  EXPECT_FALSE(calibration_slope(one));
  Cases positive;
  add(positive, .9, 3, 3);
  add(positive, .4, 3, 3);
  EXPECT_FALSE(calibration_intercept(positive));
  EXPECT_FALSE(calibration_slope(positive));
  Cases level;
  add(level, .5, 6, 3);
  EXPECT_NEAR(calibration_intercept(level).value_or(1), 0, 1e-12);
  EXPECT_FALSE(calibration_slope(level));
  EXPECT_FALSE(spiegelhalter_z(level));
}

// By hand, of .8 and .4 with outcomes 1 and 0, variance .36 .16 + .04 .24 = .0672:
// (1 - .8)(1 - 1.6) + (0 - .4)(1 - .8) = -.12 - .08.
TEST(Calibration, SpiegelhalterByHand) {
  const auto z = spiegelhalter_z(Cases{{.8, 1, 0}, {.4, 0, 1}});
  ASSERT_TRUE(z);
  EXPECT_NEAR(*z, -.2 / std::sqrt(.0672), 1e-12);
}

TEST(Calibration, RefusesWhatIsNoProbability) {
  const std::array bad{Case{1.5, 0, 0}};
  EXPECT_THROW(calibration_intercept(bad), std::invalid_argument);
  EXPECT_THROW(calibration_slope(bad), std::invalid_argument);
  EXPECT_THROW(spiegelhalter_z(bad), std::invalid_argument);
}

}  // namespace
}  // namespace likelihet::audit::calibration_test
