// Log odds and back.
#include <cmath>
#include <limits>

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <likelihet/base/log_odds.hpp>

namespace likelihet::base::log_odds_test {
namespace {

// By arithmetic: odds of 3 : 1 are a chance of 3/4, and of 1 : 1 a half.
TEST(LogOdds, AreTheLogarithmOfTheOdds) {
  EXPECT_DOUBLE_EQ(logit(0.75), std::log(3.0));
  EXPECT_DOUBLE_EQ(logistic(std::log(3.0)), 0.75);
  EXPECT_EQ(logit(0.5), 0);
  EXPECT_EQ(logistic(0), 0.5);
}

TEST(LogOdds, EndAtCertainty) {
  const double infinity = std::numeric_limits<double>::infinity();
  EXPECT_EQ(logistic(infinity), 1);
  EXPECT_EQ(logistic(-infinity), 0);
  EXPECT_EQ(logistic(-800), 0);
  EXPECT_EQ(logit(1), infinity);
  EXPECT_EQ(logit(0), -infinity);
}

TEST(LogOdds, AreInverse) {
  EXPECT_TRUE(rc::check("within twelve decimals", [](std::uint32_t n) {
    const double p = (n + 0.5) / 4294967296.0;
    RC_ASSERT(std::abs(logistic(logit(p)) - p) < 1e-12);
  }));
}

}  // namespace
}  // namespace likelihet::base::log_odds_test
