// Likelihood ratios of levels, by hand.
#include "learning/learning_colony.hpp"
#include <boost/math/special_functions/beta.hpp>

#include <likelihet/learning/level_factors.hpp>

namespace likelihet::learning::level_factors_test {
namespace {

// crown-fleck: e/e {.2, .3, .5}, +/e {.3, .3, .4}, all others {.8, .15, .05}.
TEST(LevelFactors, AreRatiosToTheLastRow) {
  const auto model = support::made(support::recessive_model());
  const auto found = level_factors(*model, {});
  ASSERT_EQ(found.size(), 6U);
  EXPECT_NEAR(found[0].believed, 0.2 / 0.8, 1e-15);
  EXPECT_NEAR(found[5].believed, 0.4 / 0.05, 1e-15);
  EXPECT_EQ(found[5].median, found[5].believed);
  EXPECT_EQ(found[5].low, found[5].high);
}

TEST(LevelFactors, TakeTheMarkersWeight) {
  auto description = support::recessive_model();
  description.markers[0].weight = 0.5;
  const auto model = support::made(description);
  EXPECT_NEAR(level_factors(*model, {})[5].believed, std::sqrt(8.0), 1e-15);
}

// Of the draws 1, 2, ..., 5 the median is 3 and the ends lie 0.1 from the extremes (type 7).
TEST(LevelFactors, IntervalsAreQuantilesOfTheDraws) {
  const auto model = support::made(support::recessive_model());
  std::vector<odds::Tables> draws;
  for (int i = 5; i >= 1; --i) {
    draws.push_back(odds::believed(*model));
    draws.back().rows[0][0][2][2] = 0.4 / i;
  }
  const auto of = level_factors(*model, draws)[5];
  EXPECT_NEAR(of.median, 3, 1e-12);
  EXPECT_NEAR(of.low, 1.1, 1e-12);
  EXPECT_NEAR(of.high, 4.9, 1e-12);
}

// Belief alone: expectation, and the ends of its Beta; 2 % of e worth 50 is Beta(1, 49), whose
// distribution function is 1 - (1 - x)^49.
TEST(BeliefAlone, HasTheEndsOfItsBeta) {
  const auto model = support::made(support::recessive_model());
  const Learned belief = belief_alone(*model);
  for (const Summary& one : belief.summaries) {
    if (one.parameter.kind != Parameter::Kind::origin || one.parameter.entry != 1) continue;
    EXPECT_NEAR(one.mean, 0.02, 1e-15);
    EXPECT_NEAR(one.low, 1 - std::pow(0.975, 1.0 / 49), 1e-12);
    EXPECT_NEAR(one.high, 1 - std::pow(0.025, 1.0 / 49), 1e-12);
  }
  EXPECT_TRUE(belief.draws.empty());
}

}  // namespace
}  // namespace likelihet::learning::level_factors_test
