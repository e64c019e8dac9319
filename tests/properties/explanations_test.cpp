// Surprises, accounts, histories and intervals of random colonies against enumeration.
#include <algorithm>
#include <cmath>
#include <string>
#include <variant>
#include <vector>

#include "properties/enumeration.hpp"
#include "properties/random_colony.hpp"
#include "support/small_model.hpp"
#include <gtest/gtest.h>

#include <likelihet/colony/counting.hpp>
#include <likelihet/odds/odds.hpp>
#include <likelihet/odds/surprises.hpp>
#include <likelihet/odds/why.hpp>

namespace likelihet::properties::explanations_test {
namespace {

odds::Options quiet() {
  odds::Options options;
  options.draws = 0;
  options.surprises = false;
  return options;
}

// The same colony with one more withdrawal.
colony::Colony without(const RandomColony& drawn, std::size_t observation) {
  colony::Records records = drawn.records;
  colony::ObservationRecord withdrawal;
  withdrawal.id = "left out";
  withdrawal.what = colony::WithdrawalRecord{records.observations[observation].id, std::nullopt};
  records.observations.push_back(withdrawal);
  return support::colony_of(drawn.model, records);
}

// Leave-one-out by definition: P(o | all the rest) = P(all)/P(all but o). Every result and look
// below the limit is found, no other is, and the probability is that ratio. Contexts are left out
// of the models, since they are held as recorded.
TEST(RandomColonies, SurprisesAreThoseOfTheDefinition) {
  std::size_t found = 0;
  std::size_t expected_ones = 0;
  for (std::uint64_t seed = 1; seed <= 1200 && !HasFailure(); ++seed) {
    Dice dice(seed);
    const RandomColony drawn = random_colony(dice, [](colony::ModelDescription& model) {
      for (auto& marker : model.markers) marker.contexts.clear();
    });
    SCOPED_TRACE("seed " + std::to_string(seed));
    const Enumerated all = enumerate(*drawn.colony, std::nullopt);
    if (all.contradiction) continue;
    odds::Options options = quiet();
    options.surprises = true;
    const auto outcome = odds::compute(*drawn.colony, options);
    const auto& surprises = std::get<odds::ColonyOdds>(outcome).surprises;
    for (const std::size_t o : colony::counting(*drawn.colony, std::nullopt)) {
      const auto& what = drawn.colony->observations()[o].what;
      const bool asked = std::holds_alternative<colony::AppearanceSeen>(what) ||
                         std::holds_alternative<colony::Result>(what);
      const auto listed = std::find_if(surprises.begin(), surprises.end(),
                                       [&](const auto& s) { return s.observation == o; });
      if (!asked) {
        EXPECT_EQ(listed, surprises.end());
        continue;
      }
      const Enumerated rest = enumerate(without(drawn, o), std::nullopt);
      ASSERT_FALSE(rest.contradiction);
      const double probability = std::exp(all.log_evidence - rest.log_evidence);
      if (std::abs(probability - odds::surprise_limit) < 1e-9) continue;
      ASSERT_EQ(listed != surprises.end(), probability < odds::surprise_limit)
          << drawn.records.observations[o].id << " has " << probability;
      if (listed == surprises.end()) {
        ++expected_ones;
        continue;
      }
      ++found;
      EXPECT_NEAR(listed->probability, probability, 1e-9 * probability + 1e-14);
      double shares = 0;
      for (const auto& reason : listed->reasons) shares += reason.share;
      if (!listed->reasons.empty()) {
        EXPECT_NEAR(shares, 1, 1e-2);
      }
    }
  }
  EXPECT_GT(found, 20U);
  EXPECT_GT(expected_ones, 200U);
}

// start x every factor = the odds of the posterior, for every animal, locus and allele.
TEST(RandomColonies, AccountsMultiplyToThePosterior) {
  std::size_t steps = 0;
  for (std::uint64_t seed = 1; seed <= 150 && !HasFailure(); ++seed) {
    Dice dice(seed);
    const RandomColony drawn = random_colony(dice);
    SCOPED_TRACE("seed " + std::to_string(seed));
    const Enumerated truth = enumerate(*drawn.colony, std::nullopt);
    for (std::size_t a = 0; a < drawn.colony->animals().size(); ++a) {
      const std::size_t locus = a % drawn.model->loci().size();
      const auto outcome = odds::why(*drawn.colony, {a, locus, 1}, quiet());
      if (truth.contradiction) {
        EXPECT_FALSE(std::holds_alternative<odds::TooLarge>(outcome));
        continue;
      }
      const auto& account = std::get<odds::Account>(outcome);
      EXPECT_NEAR(account.end, truth.animals[a][locus].het[0], 1e-12);
      double before = account.start;
      double product = 1;
      for (const auto& step : account.steps) {
        ++steps;
        EXPECT_NEAR(step.before, before, 1e-9);
        before = step.after;
        product *= step.factor;
      }
      EXPECT_NEAR(before, account.end, 1e-9);
      if (!(product > 0) || !std::isfinite(product) || account.start >= 1) continue;
      const double odds = account.start / (1 - account.start) * product;
      EXPECT_NEAR(odds / (1 + odds), account.end, 1e-9);
    }
  }
  EXPECT_GT(steps, 200U);
}

// Each moment has the odds that enumeration gives for the records of its day.
TEST(RandomColonies, HistoriesAreTheOddsOfEachDay) {
  std::size_t moments_met = 0;
  for (std::uint64_t seed = 1; seed <= 150 && !HasFailure(); ++seed) {
    Dice dice(seed);
    const RandomColony drawn = random_colony(dice);
    SCOPED_TRACE("seed " + std::to_string(seed));
    const std::size_t animal = dice.roll(drawn.colony->animals().size());
    const auto outcome = odds::history(*drawn.colony, animal, quiet());
    const auto* moments = std::get_if<std::vector<odds::Moment>>(&outcome);
    if (moments == nullptr) continue;
    for (const auto& moment : *moments) {
      if (!moment.day) continue;
      ++moments_met;
      const Enumerated then = enumerate(*drawn.colony, moment.day);
      ASSERT_EQ(moment.contradictory, then.contradiction) << moment.day->text();
      if (then.contradiction) continue;
      for (std::size_t l = 0; l < drawn.model->loci().size(); ++l) {
        const auto& expected = then.animals[animal][l].posterior;
        for (std::size_t g = 0; g < expected.size(); ++g) {
          EXPECT_NEAR(moment.odds.loci[l].posterior[g], expected[g], 1e-12);
        }
      }
    }
  }
  EXPECT_GT(moments_met, 100U);
}

// Intervals lie in [0, 1], are in order, and are points where the chance is 0 or 1 whatever the
// tables say.
TEST(RandomColonies, IntervalsAreIntervals) {
  std::size_t wide = 0;
  for (std::uint64_t seed = 1; seed <= 200 && !HasFailure(); ++seed) {
    Dice dice(seed);
    const RandomColony drawn = random_colony(dice);
    SCOPED_TRACE("seed " + std::to_string(seed));
    odds::Options options = quiet();
    options.draws = 20;
    const auto outcome = odds::compute(*drawn.colony, options);
    const auto* found = std::get_if<odds::ColonyOdds>(&outcome);
    if (found == nullptr) continue;
    for (const auto& animal : found->animals) {
      for (const auto& locus : animal.loci) {
        for (const auto& het : locus.het) {
          EXPECT_GE(het.low, 0);
          EXPECT_LE(het.low, het.high);
          EXPECT_LE(het.high, 1 + 1e-12);
          if (het.mean == 0) {
            EXPECT_EQ(het.high, 0.0);
          }
          wide += het.high > het.low ? 1 : 0;
        }
      }
    }
  }
  EXPECT_GT(wide, 100U);
}

}  // namespace
}  // namespace likelihet::properties::explanations_test
