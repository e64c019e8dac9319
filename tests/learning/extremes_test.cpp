// Books with too little or too much of one thing: learning stays finite and says how it stands.
#include <cmath>

#include "learning/learning_colony.hpp"

#include <likelihet/inference/random_bits.hpp>
#include <likelihet/learning/chain.hpp>
#include <likelihet/learning/learn.hpp>
#include <likelihet/learning/level_factors.hpp>
#include <likelihet/learning/simulate.hpp>

namespace likelihet::learning::extremes_test {
namespace {

using support::recessive_model;
using support::RecordsBuilder;

Settings quick() {
  Settings settings;
  settings.draws = 400;
  settings.kept = 400;
  settings.further_starts = 1;
  return settings;
}

Learned learned(const Ready& ready) {
  return std::get<Learned>(learn(ready.colony(), quick()));
}

void expect_sensible(const Learned& found, const colony::Model& model) {
  EXPECT_TRUE(found.converged);
  for (const Summary& one : found.summaries) {
    EXPECT_GE(one.low, 0);
    EXPECT_LE(one.high, 1);
    EXPECT_LE(one.low, one.mean + 1e-12);
    EXPECT_GE(one.high, one.mean - 1e-12);
  }
  for (const LevelFactor& of : level_factors(model, found.draws)) {
    EXPECT_TRUE(std::isfinite(of.high)) << of.level;
    EXPECT_GT(of.low, 0) << of.level;
  }
}

TEST(Extremes, NothingRecordedGivesBackTheBelief) {
  const Ready ready(recessive_model(), {});
  const Learned found = learned(ready);
  expect_sensible(found, ready.model());
  for (const Summary& one : found.summaries) EXPECT_NEAR(one.mode, one.believed, 1e-9);
}

TEST(Extremes, NoVerifiedAnimalAndAllMarkersAbsent) {
  RecordsBuilder records;
  for (int i = 0; i < 30; ++i) {
    const std::string id = "F" + std::to_string(i);
    records.founder(id, std::nullopt, "bought").score(id, "crown-fleck", "absent");
  }
  const Ready ready(recessive_model(), records.records);
  const Learned found = learned(ready);
  expect_sensible(found, ready.model());
  // Others are nearly all of them: 8 x 0.8 + 30 of 38, but for the hets' share.
  EXPECT_NEAR(found.summaries[6].mode, 36.4 / 38, 0.005);
  EXPECT_LT(found.summaries[8].mode, 0.02);
  EXPECT_GT(found.summaries[8].mode, 0);  // a level never used
}

TEST(Extremes, AMarkSeenOnceAndAScorerWithOneReading) {
  const Ready ready(recessive_model(), RecordsBuilder()
                                           .founder("F", std::nullopt, "bought")
                                           .score("F", "crown-fleck", "strong", "ana")
                                           .records);
  const Learned found = learned(ready);
  expect_sensible(found, ready.model());
  EXPECT_NEAR(found.animals[0][0][0] + found.animals[0][0][1] + found.animals[0][0][2], 1, 1e-9);
  EXPECT_NEAR(found.summaries.back().mean, 0.95, 0.02);
}

TEST(Extremes, TwoMarkersIdenticalInEveryAnimalTeachTheSame) {
  auto description = recessive_model();
  description.markers.push_back(description.markers[0]);
  description.markers[1].id = "side-thread";
  RecordsBuilder records;
  const char* levels[3] = {"absent", "faint", "strong"};
  for (int i = 0; i < 20; ++i) {
    const std::string id = "F" + std::to_string(i);
    records.founder(id, std::nullopt, "bought");
    records.score(id, "crown-fleck", levels[i % 3]).score(id, "side-thread", levels[i % 3]);
  }
  const Ready ready(description, records.records);
  const Learned found = learned(ready);
  expect_sensible(found, ready.model());
  for (std::size_t p = 0; p < 9; ++p) {
    EXPECT_NEAR(found.summaries[p].mode, found.summaries[p + 9].mode, 1e-6);
  }
}

// A level that no genotype shows, and one that only the last row rules out.
TEST(Extremes, LevelsThatAreRuledOutGiveNoNumberThatIsNone) {
  auto description = recessive_model();
  description.markers[0].rows = {{{{"tarnbrook", "+/e"}}, {0.5, 0.5, 0.0}, 8.0},
                                 {{}, {1.0, 0.0, 0.0}, 8.0}};
  const auto model = support::made(description);
  inference::RandomBits random(1);
  const std::vector<odds::Tables> draws = {odds::drawn(*model, random),
                                           odds::drawn(*model, random)};
  const auto factors = level_factors(*model, draws);
  EXPECT_TRUE(std::isinf(factors[1].believed));
  EXPECT_TRUE(std::isinf(factors[1].median));
  EXPECT_EQ(factors[2].believed, 1);
  EXPECT_EQ(factors[2].high, 1);
}

// Nobody of a clutch could live: the answer is a contradiction, not a book.
TEST(Extremes, AnImpossiblePedigreeCannotBeSimulated) {
  auto description = recessive_model();
  description.loci[0].viability = {{"+/e", 0.0}};
  const auto records = RecordsBuilder()
                           .founder("D", genetics::Sex::female)
                           .bought_as("tarnbrook", {{"+/+", 1.0}})
                           .founder("S", genetics::Sex::male)
                           .bought_as("tarnbrook", {{"e/e", 1.0}})
                           .clutch("C", "D", {"S"})
                           .hatchling("H", "C")
                           .records;
  const Ready ready(description, records);
  EXPECT_TRUE(std::holds_alternative<odds::Contradiction>(simulate(ready.colony(), records, 1)));
}

// Nearly everybody carries what kills: the dead are counted, not drawn one by one.
TEST(Extremes, ManyUnbornTakeNoTime) {
  auto description = recessive_model();
  description.loci[0].viability = {{"e/e", 0.0}};
  const auto model = support::made(description);
  inference::RandomBits random(1);
  for (double q : {0.999999, 1 - 1e-12, 1 - 1e-15}) {
    const auto dead = drawn_unborn(model->loci()[0], {1 - q, q}, genetics::Sex::female, 5, random);
    // Of each five alive: q^2 / (1 - q^2) times as many are not.
    const double expected = 5 * q * q / (1 - q * q);
    EXPECT_GT(dead[2], expected / 20);
    EXPECT_LT(dead[2], expected * 20);
    EXPECT_EQ(dead[0] + dead[1], 0);
  }
}

// One animal of every kind of trouble at once: a contradiction is told, not averaged away.
TEST(Extremes, AContradictionIsTheAnswer) {
  const Ready ready(recessive_model(),
                    RecordsBuilder().founder("F").shows("F", "tarnbrook", "tarnbrook").records);
  EXPECT_TRUE(std::holds_alternative<odds::Contradiction>(learn(ready.colony(), quick())));
}

TEST(Extremes, TooLittleMemoryIsToldBeforehand) {
  const Ready ready(recessive_model(),
                    RecordsBuilder().founder("F", std::nullopt, "bought").records);
  Settings settings = quick();
  settings.memory_bytes = 1;
  EXPECT_TRUE(std::holds_alternative<odds::TooLarge>(learn(ready.colony(), settings)));
}

}  // namespace
}  // namespace likelihet::learning::extremes_test
