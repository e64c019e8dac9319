// Figures for people never round up to certainty.
#include "percent.hpp"

#include <limits>
#include <string>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace likelihet::cli::percent_test {
namespace {

genetics::Locus tarnbrook() {
  genetics::Locus::Parts parts;
  parts.id = "tarnbrook";
  parts.alleles = {"+", "e"};
  parts.appearances = {"plain"};
  parts.appearance = {{1}, {1}, {1}};
  parts.viability = {1, 1, 1};
  return genetics::Locus(parts);
}

TEST(Percent, HasOneDecimal) {
  EXPECT_EQ(percent(2.0 / 3), "66.7 %");
  EXPECT_EQ(percent(0.5), "50.0 %");
  EXPECT_EQ(percent_range(0.25, 0.9996), "25.0 – >99.9 %");
  EXPECT_EQ(percent_range(0, 0), "0 %");
}

TEST(Percent, IsCertainOnlyWhereTheContraryIsImpossible) {
  EXPECT_EQ(percent(Chance{1.0, 0.0}), "100 %");
  EXPECT_EQ(percent(Chance{0.0, 1.0}), "0 %");
  EXPECT_EQ(percent(Chance{1.0, 1e-300}), ">99.9 %");
  EXPECT_EQ(percent(Chance{1e-300, 1.0}), "<0.1 %");
  EXPECT_EQ(percent(0.99999), ">99.9 %");
}

TEST(Percent, CountsCopies) {
  const auto locus = tarnbrook();
  const std::vector<double> odds = {0.25, 0.5, 0.25};
  EXPECT_DOUBLE_EQ(chance_of_copies(locus, odds, 1, 1).yes, 0.5);
  EXPECT_DOUBLE_EQ(chance_of_copies(locus, odds, 1, 2).yes, 0.25);
  EXPECT_DOUBLE_EQ(chance_of_copies(locus, odds, 1, 0).no, 0.75);
  // 1 - 1e-20 is 1 as a double; the contrary keeps it from being called certain.
  EXPECT_EQ(percent(chance_of_copies(locus, {0, 1.0, 1e-20}, 1, 1)), ">99.9 %");
}

RC_GTEST_PROP(Percent, NeverSaysCertainOfWhatIsNot, ()) {
  const double tiny = 1.0 / (1.0 + *rc::gen::inRange(1, 1'000'000'000));
  for (const auto& text : {percent(Chance{1 - tiny, tiny}), percent(Chance{tiny, 1 - tiny})}) {
    RC_ASSERT(text != "100 %");
    RC_ASSERT(text != "100.0 %");
    RC_ASSERT(text != "0 %");
    RC_ASSERT(text != "0.0 %");
  }
}

TEST(Odds, ReadBothWays) {
  EXPECT_EQ(odds_in_words(0.75), "3 : 1");
  EXPECT_EQ(odds_in_words(0.25), "1 : 3");
  EXPECT_EQ(odds_in_words(0), "ruled out");
  EXPECT_EQ(odds_in_words(1), "certain");
}

TEST(Factor, IsWordedAtItsEnds) {
  EXPECT_EQ(factor_in_words(3.2), "×3.2");
  EXPECT_EQ(factor_in_words(0.04), "×0.04");
  EXPECT_EQ(factor_in_words(999.4), "×999");
  EXPECT_EQ(factor_in_words(999.9), "×1,000");
  EXPECT_EQ(factor_in_words(1000), "×1,000");
  EXPECT_EQ(factor_in_words(11600), "over ×1,000");
  EXPECT_EQ(factor_in_words(0.001), "×0.001");
  EXPECT_EQ(factor_in_words(1e-7), "under ×0.001");
  EXPECT_EQ(factor_in_words(std::numeric_limits<double>::infinity()), "proves it");
  EXPECT_EQ(factor_in_words(0), "rules it out");
}

TEST(Decibans, HaveASignAndNoNegativeZero) {
  EXPECT_EQ(decibans_in_words(5.05149978), "+5.1");
  EXPECT_EQ(decibans_in_words(-13.979), "-14.0");
  EXPECT_EQ(decibans_in_words(-1e-12), "+0.0");
  EXPECT_EQ(decibans_in_words(-std::numeric_limits<double>::infinity()), "");
}

}  // namespace
}  // namespace likelihet::cli::percent_test
