// Supposed evidence against the same evidence recorded.
#include <cmath>
#include <limits>
#include <string>
#include <vector>

#include "properties/dice.hpp"
#include <gtest/gtest.h>
#include <support/solved_colony.hpp>
#include <support/supposed_told.hpp>

#include <likelihet/odds/supposed.hpp>

namespace likelihet::odds::supposed_test {
namespace {

using genetics::Sex;
using support::expect_close;
using support::prepared;
using support::RecordsBuilder;
using support::told;

RecordsBuilder family() {
  RecordsBuilder records;
  records.founder("D", Sex::female, "bought").bought_as("tarnbrook", {{"+/+", 0.5}, {"+/e", 0.5}});
  records.founder("S", Sex::male).bought_as("tarnbrook", {{"+/e", 1.0}});
  records.clutch("C", "D", {"S"})
      .hatchling("H", "C")
      .hatchling("I", "C")
      .shows("H", "tarnbrook", "plain");
  return records;
}

// The dam turns out +/e with 1/2 and the offspring are 1/4, 1/2, 1/4 out of two hets, 1/2, 1/2, 0
// otherwise. Supposing that I is e/e: P = 1/8, and the dam is a carrier for sure.
TEST(Supposed, IsWorkedByHand) {
  const auto colony = support::colony_of(support::recessive_model(), family());
  const GenotypePlace place{*colony.find_animal("I"), 0};
  const auto ready = prepared(colony, {place});
  const auto out = told(colony, *ready, {{}, {{place, {0, 0, 1}}}, {{place, {2, 2, 2}}}});
  // Plain rules out 1/4 of H's genotypes where the dam carries: P(H plain) = 7/8.
  EXPECT_NEAR(out.log_evidence[0], std::log(7.0 / 8), 1e-14);
  EXPECT_NEAR(out.log_evidence[1], std::log(0.5 * 0.75 * 0.25), 1e-14);
  EXPECT_NEAR(out.log_evidence[2], std::log(2 * 7.0 / 8), 1e-14);
  expect_close(out.odds[1][*colony.find_animal("D")], {0, 1, 0});
  expect_close(out.odds[1][*colony.find_animal("I")], {0, 0, 1});
  EXPECT_EQ(out.odds[0], out.odds[2]) << "a constant tells nothing";
}

TEST(Supposed, MayBeImpossible) {
  const auto colony = support::colony_of(support::recessive_model(), family());
  const GenotypePlace s{*colony.find_animal("S"), 0};
  const GenotypePlace h{*colony.find_animal("H"), 0};
  const auto ready = prepared(colony, {s, h});
  const auto out = told(colony, *ready, {{{s, {1, 0, 0}}}, {{h, {0, 0, 1}}}, {{h, {1, 0, 0}}}});
  EXPECT_EQ(out.log_evidence[0], -std::numeric_limits<double>::infinity());
  EXPECT_EQ(out.log_evidence[1], -std::numeric_limits<double>::infinity());
  expect_close(out.odds[0][*colony.find_animal("D")], {0, 0, 0});
  EXPECT_NEAR(out.log_evidence[2], std::log(0.5 * 0.5 + 0.5 * 0.25), 1e-14);
}

TEST(Supposed, NeedsAPlaceOfTheScenario) {
  const auto colony = support::colony_of(support::recessive_model(), family());
  const auto ready = prepared(colony, {{0, 0}});
  EXPECT_THROW(told(colony, *ready, {{{{1, 0}, {1, 1, 1}}}}), std::out_of_range);
}

// Tiny likelihoods go through numbers without underflow.
TEST(Supposed, StandsTinyLikelihoods) {
  const auto colony = support::colony_of(support::recessive_model(), family());
  const GenotypePlace place{*colony.find_animal("I"), 0};
  const auto ready = prepared(colony, {place});
  const auto out =
      told(colony, *ready, {{{place, {1e-300, 2e-300, 1e-300}}, {place, {1e-5, 0, 0}}}});
  // I is +/+ and H plain: 1/2 x 1 x 1/2 + 1/2 x 3/4 x 1/4.
  EXPECT_NEAR(out.log_evidence[0], std::log(0.25 + 3.0 / 32) - 305 * std::log(10.0), 1e-9);
  expect_close(out.odds[0][*colony.find_animal("I")], {1, 0, 0});
}

TEST(Supposed, SetsAreIndependentOfOneAnotherAndOfMemory) {
  const auto colony = support::colony_of(support::recessive_model(), family());
  std::vector<SupposedSet> sets;
  properties::Dice dice(5);
  std::vector<GenotypePlace> places;
  for (std::size_t a = 0; a < 4; ++a) places.push_back({a, 0});
  const auto ready = prepared(colony, places);
  for (std::size_t s = 0; s < 21; ++s) {
    auto& set = sets.emplace_back();
    for (std::size_t a = 0; a < 4; ++a) {
      if (dice.chance(0.5)) set.push_back({{a, 0}, {dice.unit(), dice.unit(), dice.unit()}});
    }
  }
  const auto together = told(colony, *ready, sets);
  const auto tight = told(colony, *ready, sets, 1);
  for (std::size_t s = 0; s < sets.size(); ++s) {
    const auto alone = told(colony, *ready, {sets[s]});
    EXPECT_EQ(alone.log_evidence[0], together.log_evidence[s]);
    EXPECT_EQ(alone.odds[0], together.odds[s]);
    EXPECT_NEAR(tight.log_evidence[s], together.log_evidence[s], 1e-13);
  }
}

// Strangers have nothing to do with each other; a clutch has, and two loci have not until a sex or
// a marker joins them.
TEST(SeparateParts, AreThoseThatNothingJoins) {
  RecordsBuilder records = family();
  records.founder("X");
  const auto colony = support::colony_of(support::masked_model(), records);
  const auto ready = prepared(colony, {});
  const auto part = separate_parts(ready->net, colony.animals().size(), 2);
  const auto of = [&](const char* id, std::size_t l) {
    return part[*colony.find_animal(id) * 2 + l];
  };
  EXPECT_EQ(of("D", 0), of("S", 0));
  EXPECT_EQ(of("D", 0), of("H", 0));
  EXPECT_EQ(of("D", 0), of("I", 0));
  EXPECT_NE(of("D", 0), of("D", 1));
  EXPECT_NE(of("X", 0), of("D", 0));
  EXPECT_NE(of("X", 0), of("X", 1));
}

}  // namespace
}  // namespace likelihet::odds::supposed_test
