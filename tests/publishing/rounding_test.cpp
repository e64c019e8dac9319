// Rounding down, never up.
#include <cmath>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <likelihet/publishing/rounding.hpp>

namespace likelihet::publishing::rounding_test {
namespace {

TEST(RoundedDown, WholePercentsAreNeverRoundedUp) {
  EXPECT_EQ(whole_percent(0.9997).high, 0.99);
  EXPECT_EQ(whole_percent(2.0 / 3).high, 0.66);
  EXPECT_EQ(whole_percent(0.999999999).high, 0.99);
  EXPECT_EQ(whole_percent(0.57).high, 0.57);
  EXPECT_EQ(whole_percent(0.009).high, 0.0);
}

TEST(RoundedDown, KeepsAWholePercentThatAdditionMissedByItsRounding) {
  EXPECT_EQ(whole_percent(std::nextafter(0.5, 0)).high, 0.5);
  EXPECT_EQ(whole_percent(0.1 + 0.2 - 1e-15).high, 0.3);
}

TEST(RoundedDown, SaysOneOnlyWhereItIsCertainWithinRounding) {
  EXPECT_EQ(whole_percent(1).high, 1.0);
  EXPECT_EQ(whole_percent(1 - 5e-13).high, 1.0);
  EXPECT_EQ(whole_percent(1 - 2e-12).high, 0.99);
  EXPECT_EQ(whole_percent(std::nextafter(1 - 1e-12, 0)).high, 0.99);
  EXPECT_EQ(rounded_down(1 - 2e-12, 0.05), 0.95);
}

TEST(RoundedDown, StepsNeedNotPartOneEvenly) {
  EXPECT_DOUBLE_EQ(rounded_down(0.95, 0.3), 0.9);
  EXPECT_DOUBLE_EQ(rounded_down(0.29, 0.3), 0.0);
  EXPECT_DOUBLE_EQ(rounded_down(0.7, 0.07), 0.7);
}

RC_GTEST_PROP(RoundedDown, IsAMultipleAtMostTheProbabilityAndLessThanAStepBelow, ()) {
  const double p = *rc::gen::inRange(0, 1'000'000'001) / 1e9;
  const double step = *rc::gen::element(0.01, 0.02, 0.05, 0.1, 0.25, 0.03, 0.07);
  const double down = rounded_down(p, step);
  RC_ASSERT(down <= p + rounding_error);
  RC_ASSERT(p - down < step + 1e-9);
  const double steps = down / step;
  RC_ASSERT(down == 1.0 || std::abs(steps - std::round(steps)) < 1e-9);
}

TEST(InPercent, OneFigureOrARange) {
  EXPECT_EQ(in_percent({0.66, 0.66, 0.01}), "66 %");
  EXPECT_EQ(in_percent({0.55, 0.7, 0.05}), "55 to 70 %");
  EXPECT_EQ(in_percent({0, 0.4, 0.05}), "0 to 40 %");
  EXPECT_EQ(in_percent({0, 0, 0.01}), "below 1 %");
  EXPECT_EQ(in_percent({0, 0, 0.05}), "below 5 %");
  EXPECT_EQ(in_percent({1, 1, 0.01}), "100 %");
  EXPECT_EQ(in_percent({0.625, 0.625, 0.125}), "62.5 %");
}

TEST(ErrorInPercent, IsRoundedUp) {
  EXPECT_EQ(error_in_percent(0.00431), "0.5 %");
  EXPECT_EQ(error_in_percent(0.005), "0.5 %");
  EXPECT_EQ(error_in_percent(1e-6), "0.1 %");
  EXPECT_EQ(error_in_percent(0), "0 %");
  EXPECT_EQ(error_in_percent(1), "100 %");
}

TEST(InSoMany, NaturalFrequenciesAreRoundedDown) {
  EXPECT_EQ(in_so_many(2.0 / 3), "about 66 in 100");
  EXPECT_EQ(in_so_many(0.5), "about 5 in 10");
  EXPECT_EQ(in_so_many(0.1), "about 1 in 10");
  EXPECT_EQ(in_so_many(0.35), "about 35 in 100") << "as the percentage, not 3 in 10";
  EXPECT_EQ(in_so_many(0.9), "about 9 in 10");
  EXPECT_EQ(in_so_many(0.9997), "about 99 in 100");
  EXPECT_EQ(in_so_many(0.053311), "about 5 in 100");
  EXPECT_EQ(in_so_many(0.003), "fewer than 1 in 100");
  EXPECT_EQ(in_so_many(1), "all");
  EXPECT_EQ(in_so_many(0), "none");
}

}  // namespace
}  // namespace likelihet::publishing::rounding_test
