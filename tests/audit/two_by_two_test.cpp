// Two-by-two tables: relations of the ratios to one another, and empty cells.
#include <cmath>
#include <stdexcept>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <likelihet/audit/two_by_two.hpp>

namespace likelihet::audit::two_by_two_test {
namespace {

TwoByTwo any_table(int least = 0) {
  const auto cell = [&] { return static_cast<double>(*rc::gen::inRange(least, 12)); };
  const double a = cell(), b = cell(), c = cell(), d = cell();
  return {a, b, c, d};
}

bool sound(const Estimate& found) {
  return found.interval.low > 0 && found.interval.low < found.value &&
         found.value < found.interval.high && std::isfinite(found.interval.high);
}

RC_GTEST_PROP(TwoByTwo, RatiosAreNeverZeroNorInfinite, ()) {
  const TwoByTwo table = any_table();
  RC_ASSERT(sound(positive_ratio(table)));
  RC_ASSERT(sound(negative_ratio(table)));
  RC_ASSERT(sound(odds_ratio(table)));
}

RC_GTEST_PROP(TwoByTwo, RatiosBelongTogether, ()) {
  const TwoByTwo table = any_table(1);
  const double positive = positive_ratio(table).value;
  const double negative = negative_ratio(table).value;
  RC_ASSERT(std::abs(odds_ratio(table).value / (positive / negative) - 1) < 1e-12);
  const double se = sensitivity(table).value;
  const double sp = specificity(table).value;
  RC_ASSERT(std::abs(positive / (se / (1 - sp)) - 1) < 1e-12);
  RC_ASSERT(std::abs(negative / ((1 - se) / sp) - 1) < 1e-12);
}

// The sign turned round.
RC_GTEST_PROP(TwoByTwo, SwappedSignSwapsTheRatios, ()) {
  const TwoByTwo table = any_table();
  const TwoByTwo other{table.false_negative, table.true_negative, table.true_positive,
                       table.false_positive};
  RC_ASSERT(std::abs(positive_ratio(table).value / negative_ratio(other).value - 1) < 1e-12);
  RC_ASSERT(std::abs(odds_ratio(table).value * odds_ratio(other).value - 1) < 1e-12);
}

TEST(TwoByTwo, HalfIsAddedToAllFourOrToNone) {
  const TwoByTwo full = without_empty_cells({3, 0, 2, 5});
  EXPECT_EQ(full.true_positive, 3.5);
  EXPECT_EQ(full.false_positive, 0.5);
  EXPECT_EQ(full.false_negative, 2.5);
  EXPECT_EQ(full.true_negative, 5.5);
  EXPECT_EQ(without_empty_cells({3, 1, 2, 5}).true_positive, 3);
}

TEST(TwoByTwo, NothingKnown) {
  EXPECT_EQ(sensitivity({}).value, 0.5);
  EXPECT_EQ(sensitivity({}).interval.low, 0);
  EXPECT_EQ(specificity({}).interval.high, 1);
  EXPECT_EQ(positive_ratio({}).value, 1);
}

TEST(TwoByTwo, RefusesWhatIsNoCount) {
  EXPECT_THROW(sensitivity({-1, 0, 0, 0}), std::invalid_argument);
  EXPECT_THROW(specificity({0, 0, 0, INFINITY}), std::invalid_argument);
  EXPECT_THROW(odds_ratio({1, NAN, 1, 1}), std::invalid_argument);
}

}  // namespace
}  // namespace likelihet::audit::two_by_two_test
