// Rankings of small books by hand, and of a large one in time.
#include <cmath>
#include <set>

#include "support/faults.hpp"
#include "support/small_model.hpp"
#include <gtest/gtest.h>

#include <likelihet/planning/rank.hpp>

namespace likelihet::planning::rank_test {
namespace {

using genetics::Chromosome;
using genetics::Sex;
using support::RecordsBuilder;

Goal goal_of(const colony::Colony& colony, const char* text) {
  return std::get<Goal>(read_goal(colony.model(), text));
}

Ranking ranking_of(const colony::Colony& colony, const char* goal, std::size_t offspring) {
  return std::get<Ranking>(rank(colony, goal_of(colony, goal), offspring, {}, {}));
}

std::string name(const colony::Colony& colony, Pair pair) {
  return colony.animals()[pair.dam].id + "x" + colony.animals()[pair.sire].id;
}

RecordsBuilder collection() {
  RecordsBuilder builder;
  builder.founder("visual", Sex::female).bought_as("tarnbrook", {{"e/e", 1.0}});
  builder.founder("het", Sex::male).bought_as("tarnbrook", {{"+/e", 1.0}});
  builder.founder("half", Sex::male).bought_as("tarnbrook", {{"+/+", 0.5}, {"+/e", 0.5}});
  builder.founder("strong", Sex::male);
  builder.founder("open").bought_as("tarnbrook", {{"+/e", 1.0}});
  return builder;
}

TEST(Rank, BestFirst) {
  const auto colony =
      support::colony_of(support::made(support::recessive_model()), collection().records);
  const Ranking ranking = ranking_of(colony, "tarnbrook=e/e", 4);
  // One female, three males, one of unknown sex that is both: 1 x 4 + 1 x 3.
  EXPECT_EQ(ranking.considered, 7u);
  ASSERT_EQ(ranking.pairs.size(), 7u);
  EXPECT_EQ(name(colony, ranking.pairs[0].pair), "visualxhet");
  EXPECT_EQ(name(colony, ranking.pairs[1].pair), "visualxopen");
  EXPECT_EQ(name(colony, ranking.pairs[2].pair), "openxhet");
  EXPECT_TRUE(ranking.pairs[1].sire_of_unknown_sex);
  EXPECT_FALSE(ranking.pairs[1].dam_of_unknown_sex);
  EXPECT_NEAR(ranking.pairs[0].wanted.chance(), 0.5, 1e-15);
  EXPECT_NEAR(ranking.pairs[0].wanted.at_least_one(4), 15. / 16, 1e-15);
  // Known parents teach nothing.
  EXPECT_EQ(ranking.pairs[0].teaches, 0.0);
}

// visual x half: visuals with 1/2 or never. Four offspring: H(count) - E[H(count | parents)], by
// hand: P(0) = 1/2 + 1/32, so the half is told but for a het that threw none.
TEST(Rank, WhatAPairingTeaches) {
  const auto colony =
      support::colony_of(support::made(support::recessive_model()), collection().records);
  const Ranking ranking = ranking_of(colony, "tarnbrook=tarnbrook", 4);
  for (const auto& ranked : ranking.pairs) {
    if (name(colony, ranked.pair) != "visualxhalf") continue;
    const double left = 0.5 + 1. / 32;  // P(no visual), and of that 1/17 is the het's
    const double p = 1. / 17;
    const double uncertain = left * -(p * std::log2(p) + (1 - p) * std::log2(1 - p));
    EXPECT_NEAR(ranked.teaches, 1 - uncertain, 1e-12);
    return;
  }
  FAIL();
}

// Among pairs as good, less inbreeding first.
TEST(Rank, TiesGoToStrangers) {
  RecordsBuilder builder;
  builder.founder("A", Sex::female).bought_as("tarnbrook", {{"e/e", 1.0}});
  builder.founder("Z", Sex::male).bought_as("tarnbrook", {{"e/e", 1.0}});
  builder.founder("B", Sex::male).bought_as("tarnbrook", {{"e/e", 1.0}});
  builder.clutch("C", "A", {"B"}).hatchling("AB", "C", Sex::male);
  const auto colony =
      support::colony_of(support::made(support::recessive_model()), builder.records);
  const Ranking ranking = ranking_of(colony, "tarnbrook=tarnbrook", 3);
  EXPECT_EQ(name(colony, ranking.pairs[0].pair), "AxB");
  EXPECT_EQ(name(colony, ranking.pairs[1].pair), "AxZ");
  EXPECT_EQ(name(colony, ranking.pairs[2].pair), "AxAB");
  EXPECT_EQ(ranking.pairs[2].inbreeding, 0.25);
}

// With a locus on Z a sex tells of genotypes: each part is taken as of its sex.
TEST(Rank, UnknownSexesOnASexChromosome) {
  RecordsBuilder builder;
  builder.founder("U", std::nullopt, "bought").founder("V", std::nullopt, "bought");
  builder.founder("F", Sex::female, "bought").founder("M", Sex::male, "bought");
  const auto colony =
      support::colony_of(support::made(support::sex_linked_model(Chromosome::z)), builder.records);
  const Ranking ranking = ranking_of(colony, "tarnbrook=e/W", 1);
  EXPECT_EQ(ranking.considered, 7u);  // FxM, UxM, VxM, FxU, FxV, UxV, VxU
  for (const auto& ranked : ranking.pairs) {
    EXPECT_NEAR(ranked.wanted.chance(), 0.01, 1e-15) << name(colony, ranked.pair);
  }
}

// Offspring by a female partner make U a male, though nobody recorded his sex: he is ranked as a
// sire, and no pairing of others is lost for it.
TEST(Rank, ASexThatRecordsRuleOut) {
  RecordsBuilder builder;
  builder.founder("F", Sex::female, "bought").founder("M", Sex::male, "bought");
  builder.founder("U", std::nullopt, "bought").brood("U", "tarnbrook", "e/W", {{"plain", 3}});
  const auto colony =
      support::colony_of(support::made(support::sex_linked_model(Chromosome::z)), builder.records);
  const Ranking ranking = ranking_of(colony, "tarnbrook=+/e", 4);
  EXPECT_EQ(ranking.considered, 2u);
  std::set<std::string> names;
  for (const auto& ranked : ranking.pairs) names.insert(name(colony, ranked.pair));
  EXPECT_EQ(names, (std::set<std::string>{"FxM", "FxU"}));
  // A clash of the book itself stays one.
  builder.founder("K", Sex::female).shows("K", "tarnbrook", "tarnbrook");
  const auto clash =
      support::colony_of(support::made(support::sex_linked_model(Chromosome::z)), builder.records);
  EXPECT_TRUE(std::holds_alternative<odds::Contradiction>(
      rank(clash, goal_of(clash, "tarnbrook=+/e"), 4, {}, {})));
}

TEST(Rank, LethalOffspringAreCounted) {
  auto model = support::recessive_model();
  model.loci[0].viability = {{"e/e", 0.0}};
  RecordsBuilder builder;
  builder.founder("F", Sex::female).bought_as("tarnbrook", {{"+/e", 1.0}});
  builder.founder("M", Sex::male).bought_as("tarnbrook", {{"+/e", 1.0}});
  const auto colony = support::colony_of(support::made(model), builder.records);
  const Ranking ranking = ranking_of(colony, "tarnbrook=+/e", 1);
  EXPECT_NEAR(ranking.pairs[0].lethal, 0.25, 1e-15);
  EXPECT_NEAR(ranking.pairs[0].wanted.chance(), 2. / 3, 1e-15);
}

TEST(Rank, NothingToPair) {
  RecordsBuilder builder;
  builder.founder("F", Sex::female);
  const auto colony =
      support::colony_of(support::made(support::recessive_model()), builder.records);
  EXPECT_TRUE(ranking_of(colony, "tarnbrook=e/e", 5).pairs.empty());
}

TEST(Rank, KinshipThatDoesNotFit) {
  RecordsBuilder builder;
  for (int k = 0; k < 200; ++k) builder.founder("A" + std::to_string(k));
  const auto colony =
      support::colony_of(support::made(support::recessive_model()), builder.records);
  odds::Options options;
  options.memory_bytes = 200 * 200 * 8 - 1;
  const auto outcome = rank(colony, goal_of(colony, "tarnbrook=e/e"), 5, options, {});
  EXPECT_TRUE(std::holds_alternative<odds::TooLarge>(outcome));
}

// 60 x 60 pairs, in blocks of some hundred where little memory is allowed, and only the best kept.
TEST(Rank, BlocksOfPairsAndTheBestOfThemAreThoseOfTheWhole) {
  RecordsBuilder builder;
  for (int k = 0; k < 120; ++k) {
    const double het = ((k * 37) % 101) / 101.0;
    builder.founder("A" + std::to_string(k), k % 2 == 0 ? Sex::female : Sex::male)
        .bought_as("tarnbrook", {{"+/+", 1 - het}, {"+/e", het}});
  }
  const auto colony =
      support::colony_of(support::made(support::recessive_model()), builder.records);
  const Goal goal = goal_of(colony, "tarnbrook=e/e");
  const Ranking whole = ranking_of(colony, "tarnbrook=e/e", 4);
  odds::Options little;
  little.memory_bytes = 512 * 1024;
  const auto blocks = std::get<Ranking>(rank(colony, goal, 4, little, {}));
  const auto best = std::get<Ranking>(rank(colony, goal, 4, little, {}, 7));
  EXPECT_EQ(whole.considered, 3600u);
  EXPECT_EQ(best.considered, 3600u);
  ASSERT_EQ(whole.pairs.size(), 3600u);
  ASSERT_EQ(blocks.pairs.size(), 3600u);
  ASSERT_EQ(best.pairs.size(), 7u);
  for (std::size_t n = 0; n < whole.pairs.size(); ++n) {
    EXPECT_EQ(name(colony, blocks.pairs[n].pair), name(colony, whole.pairs[n].pair));
    EXPECT_EQ(blocks.pairs[n].teaches, whole.pairs[n].teaches);
  }
  for (std::size_t n = 0; n < best.pairs.size(); ++n) {
    EXPECT_EQ(name(colony, best.pairs[n].pair), name(colony, whole.pairs[n].pair));
  }
}

TEST(ReadGoal, GenotypesAppearancesAndFaults) {
  const auto model = support::made(support::recessive_model());
  const auto genotype = std::get<Goal>(read_goal(*model, "tarnbrook=e/e"));
  EXPECT_EQ(genotype.genotype, 2u);
  EXPECT_EQ(model->loci()[0].appearances()[genotype.appearance], "tarnbrook");
  EXPECT_FALSE(std::get<Goal>(read_goal(*model, "tarnbrook=plain")).genotype);
  const auto fault = [&](const char* text) {
    return std::get<colony::Fault>(read_goal(*model, text));
  };
  EXPECT_EQ(fault("tarnbrook").mend, "write LOCUS=GENOTYPE or LOCUS=APPEARANCE");
  EXPECT_NE(fault("tarnbrok=e/e").mend.find("tarnbrook"), std::string::npos);
  EXPECT_NE(fault("tarnbrook=plane").mend.find("plain"), std::string::npos);
  EXPECT_EQ(fault("tarnbrook=e/+").mend, "write '+/e': alleles stand in the model's order");
  EXPECT_NE(fault("tarnbrook=").what.find("no genotype"), std::string::npos);
}

// 60 x 60 with kin and markers: one plan for all, so seconds are many times too long.
TEST(Rank, SixtyBySixty) {
  RecordsBuilder builder;
  for (int k = 0; k < 20; ++k) {
    builder.founder("f" + std::to_string(k), Sex::female, "bought");
    builder.founder("m" + std::to_string(k), Sex::male, "bought");
  }
  for (int k = 0; k < 40; ++k) {
    const std::string clutch = "c" + std::to_string(k);
    builder.clutch(clutch, "f" + std::to_string(k % 20), {"m" + std::to_string((7 * k) % 20)});
    builder.hatchling("d" + std::to_string(k), clutch, Sex::female);
    builder.hatchling("s" + std::to_string(k), clutch, Sex::male);
    builder.score("d" + std::to_string(k), "crown-fleck", k % 3 == 0 ? "strong" : "absent");
  }
  const auto colony =
      support::colony_of(support::made(support::recessive_model()), builder.records);
  const Ranking ranking = ranking_of(colony, "tarnbrook=e/e", 8);
  EXPECT_EQ(ranking.considered, 3600u);
  EXPECT_EQ(ranking.pairs.size(), 3600u);
  for (std::size_t n = 1; n < ranking.pairs.size(); ++n) {
    EXPECT_GE(ranking.pairs[n - 1].wanted.at_least_one(8) + 1e-12,
              ranking.pairs[n].wanted.at_least_one(8));
  }
}

}  // namespace
}  // namespace likelihet::planning::rank_test
