// Strata: relations that hold for any, and strata that say nothing.
#include <array>
#include <cmath>
#include <stdexcept>
#include <vector>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <likelihet/audit/strata.hpp>

namespace likelihet::audit::strata_test {
namespace {

std::vector<TwoByTwo> any_strata(int least = 0) {
  std::vector<TwoByTwo> out;
  const int number = *rc::gen::inRange(1, 6);
  for (int k = 0; k < number; ++k) {
    const auto cell = [&] { return static_cast<double>(*rc::gen::inRange(least, 12)); };
    const double a = cell(), b = cell(), c = cell(), d = cell();
    out.push_back({a, b, c, d});
  }
  return out;
}

RC_GTEST_PROP(Strata, OneStratumHasItsOwnOddsRatio, ()) {
  const auto cell = [] { return static_cast<double>(*rc::gen::inRange(1, 30)); };
  const TwoByTwo table{cell(), cell(), cell(), cell()};
  const auto found = mantel_haenszel(std::array{table});
  RC_ASSERT((found.has_value() && found->odds_ratio.has_value()));
  // Robins, Breslow and Greenland's variance of one stratum is Woolf's.
  const Estimate woolf = odds_ratio(table);
  RC_ASSERT(std::abs(found->odds_ratio->value / woolf.value - 1) < 1e-12);
  RC_ASSERT(std::abs(found->odds_ratio->interval.low / woolf.interval.low - 1) < 1e-9);
  RC_ASSERT(std::abs(found->odds_ratio->interval.high / woolf.interval.high - 1) < 1e-9);
  RC_ASSERT(!woolf_homogeneity(std::array{table}));
  RC_ASSERT(!breslow_day(std::array{table}));
}

RC_GTEST_PROP(Strata, TurningTheSignTurnsTheRatio, ()) {
  const auto strata = any_strata();
  auto turned = strata;
  for (TwoByTwo& of : turned) {
    of = {of.false_negative, of.true_negative, of.true_positive, of.false_positive};
  }
  const auto here = mantel_haenszel(strata);
  const auto there = mantel_haenszel(turned);
  RC_ASSERT(here.has_value() == there.has_value());
  if (!here) return;
  RC_ASSERT(std::abs(here->chi_squared - there->chi_squared) < 1e-9);
  RC_ASSERT(here->chi_squared_corrected <= here->chi_squared);
  RC_ASSERT((here->p <= here->p_corrected && here->p_corrected <= 1));
  if (here->odds_ratio) {
    RC_ASSERT(std::abs(here->odds_ratio->value * there->odds_ratio->value - 1) < 1e-9);
  }
}

RC_GTEST_PROP(Strata, HomogeneityIsSound, ()) {
  const auto strata = any_strata();
  if (const auto woolf = woolf_homogeneity(strata)) {
    RC_ASSERT((std::isfinite(woolf->chi_squared) && woolf->chi_squared >= 0));
    RC_ASSERT((woolf->p >= 0 && woolf->p <= 1));
  }
  if (const auto found = breslow_day(strata)) {
    RC_ASSERT(std::isfinite(found->plain.chi_squared));
    RC_ASSERT(found->corrected.chi_squared <= found->plain.chi_squared + 1e-12);
    RC_ASSERT(found->plain.degrees == found->corrected.degrees);
    RC_ASSERT(found->plain.degrees < strata.size());
  }
}

// Every stratum the same, in different sizes: nothing to tell between them.
RC_GTEST_PROP(Strata, AlikeStrataAreHomogeneous, ()) {
  const auto cell = [] { return static_cast<double>(*rc::gen::inRange(1, 12)); };
  const TwoByTwo one{cell(), cell(), cell(), cell()};
  const TwoByTwo twice{2 * one.true_positive, 2 * one.false_positive, 2 * one.false_negative,
                       2 * one.true_negative};
  const std::array strata{one, twice};
  RC_ASSERT(woolf_homogeneity(strata)->chi_squared < 1e-9);
  RC_ASSERT(breslow_day(strata)->plain.chi_squared < 1e-9);
  RC_ASSERT(breslow_day(strata)->plain.degrees == 1U);
}

TEST(Strata, ThatSayNothing) {
  EXPECT_FALSE(mantel_haenszel({}));
  EXPECT_FALSE(woolf_homogeneity({}));
  EXPECT_FALSE(breslow_day({}));
  const std::array margins{TwoByTwo{3, 0, 2, 0}, TwoByTwo{3, 4, 0, 0}, TwoByTwo{}};
  EXPECT_FALSE(mantel_haenszel(margins));
  EXPECT_FALSE(breslow_day(margins));
  // No false negative nor false positive anywhere: associated, by no finite ratio.
  const auto perfect = mantel_haenszel(std::array{TwoByTwo{5, 0, 0, 5}});
  ASSERT_TRUE(perfect);
  EXPECT_FALSE(perfect->odds_ratio);
  EXPECT_LT(perfect->p, 0.01);
}

TEST(Strata, RefusesWhatIsNoCount) {
  const std::array bad{TwoByTwo{-1, 1, 1, 1}};
  EXPECT_THROW(mantel_haenszel(bad), std::invalid_argument);
  EXPECT_THROW(woolf_homogeneity(bad), std::invalid_argument);
  EXPECT_THROW(breslow_day(bad), std::invalid_argument);
}

}  // namespace
}  // namespace likelihet::audit::strata_test
