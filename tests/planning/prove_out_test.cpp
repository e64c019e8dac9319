// ProveOuts worked by hand.
#include <cmath>

#include "support/small_model.hpp"
#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

#include <likelihet/planning/prove_out.hpp>

namespace likelihet::planning::prove_out_test {
namespace {

using genetics::Chromosome;
using genetics::Sex;
using support::RecordsBuilder;

ProveOut prove_out_of(const colony::Colony& colony, const ProveOutAsked& asked) {
  return std::get<ProveOut>(proof(colony, asked, {}, {}));
}

colony::Colony colony_of(const RecordsBuilder& builder) {
  return support::colony_of(support::made(support::recessive_model()), builder.records);
}

RecordsBuilder possible_het(double odds) {
  RecordsBuilder builder;
  builder.founder("M", Sex::male).bought_as("tarnbrook", {{"+/+", 1 - odds}, {"+/e", odds}});
  builder.founder("V", Sex::female).bought_as("tarnbrook", {{"e/e", 1.0}});
  builder.founder("H", Sex::female).bought_as("tarnbrook", {{"+/+", 0.5}, {"+/e", 0.5}});
  return builder;
}

ProveOutAsked with_animal(const colony::Colony& colony, const char* animal, const char* partner) {
  ProveOutAsked asked;
  asked.animal = *colony.find_animal(animal);
  asked.partner = PartnerAnimal{*colony.find_animal(partner)};
  return asked;
}

ProveOutAsked with_genotype(const colony::Colony& colony, const char* animal, const char* key) {
  ProveOutAsked asked;
  asked.animal = *colony.find_animal(animal);
  asked.partner = PartnerGenotype{*colony.model().loci()[0].find(key)};
  return asked;
}

// From 1/2, to a visual: 1/2, 1/3, 1/5, 1/9, 1/17, 1/33.
TEST(ProveOut, ToAVisual) {
  const auto colony = colony_of(possible_het(0.5));
  for (const auto& asked : {with_animal(colony, "M", "V"), with_genotype(colony, "M", "e/e")}) {
    const ProveOut out = prove_out_of(colony, asked);
    for (int n = 0; n < 8; ++n) {
      const auto offspring = static_cast<std::size_t>(n);
      EXPECT_NEAR(out.odds.carrier_after(offspring), 1 / (1 + std::pow(2, n)), 1e-15);
      EXPECT_NEAR(out.odds.all_non_visual(offspring), (1 + std::pow(0.5, n)) / 2, 1e-15);
      EXPECT_NEAR(out.odds.detected(offspring), 1 - std::pow(0.5, n), 1e-15);
    }
    EXPECT_EQ(out.odds.needed(0.90), 4u);  // 1/17; 1/9 is not below a tenth
    EXPECT_EQ(out.odds.needed(0.95), 5u);
    EXPECT_EQ(out.odds.needed(0.99), 7u);
    EXPECT_EQ(out.odds.limit(), 1.0);
    EXPECT_NEAR(out.odds.visual(), 0.25, 1e-15);
    EXPECT_NEAR(out.odds.after_visual()->carrier, 1.0, 1e-15);
    EXPECT_TRUE(out.shows_itself);
  }
}

// Just at a level is enough; a hair short of it is not: 1/17 needs 16/17.
TEST(ProveOut, NeverRoundsDown) {
  const auto colony = colony_of(possible_het(0.5));
  const ProveOut out = prove_out_of(colony, with_genotype(colony, "M", "e/e"));
  EXPECT_EQ(out.odds.needed(16. / 17 - 1e-12), 4u);
  EXPECT_EQ(out.odds.needed(16. / 17 + 1e-12), 5u);
}

// A partner that may be clear herself: the animal is never ruled out beyond what she leaves. Both
// 1/2: as n grows, het by het is gone, and a carrier is left with 1/4 of 3/4.
TEST(ProveOut, ALevelThatCannotBeReached) {
  const auto colony = colony_of(possible_het(0.5));
  const ProveOut out = prove_out_of(colony, with_animal(colony, "M", "H"));
  EXPECT_NEAR(out.odds.limit(), 2. / 3, 1e-15);
  for (double level : prove_out_levels) EXPECT_FALSE(out.odds.needed(level));
  EXPECT_NEAR(out.odds.carrier_after(2000), 1. / 3, 1e-12);
  EXPECT_NEAR(out.odds.after_visual()->carrier, 1.0, 1e-15);
  EXPECT_NEAR(out.odds.after_visual()->partner_carrier, 1.0, 1e-15);
  EXPECT_NEAR(out.odds.visual(), 1. / 16, 1e-15);
}

TEST(ProveOut, AClearPartnerProvesNothing) {
  const auto colony = colony_of(possible_het(0.5));
  const ProveOut out = prove_out_of(colony, with_genotype(colony, "M", "+/+"));
  EXPECT_FALSE(out.odds.after_visual());
  EXPECT_EQ(out.odds.carrier_after(100), 0.5);
  EXPECT_FALSE(out.odds.needed(0.9));
}

TEST(ProveOut, SettledAnimals) {
  RecordsBuilder builder = possible_het(0.5);
  builder.founder("C", Sex::male).founder("E", Sex::male).bought_as("tarnbrook", {{"e/e", 1.0}});
  const auto colony = colony_of(builder);
  const ProveOut clear = prove_out_of(colony, with_animal(colony, "C", "V"));
  EXPECT_EQ(clear.odds.needed(0.99), 0u);
  EXPECT_FALSE(clear.odds.after_visual());
  const ProveOut carrier = prove_out_of(colony, with_animal(colony, "E", "V"));
  EXPECT_EQ(carrier.odds.carrier_after(0), 1.0);
  EXPECT_FALSE(carrier.odds.needed(0.9));
  EXPECT_EQ(carrier.odds.all_non_visual(1), 0.0);
  EXPECT_EQ(carrier.odds.detected(1), 1.0);
}

// Offspring that hatched already are in the present odds: the table goes on where it stood, and
// what was seen is told apart.
TEST(ProveOut, OffspringSeenAreInTheOdds) {
  RecordsBuilder builder = possible_het(0.5);
  builder.clutch("C", "V", {"M"});
  for (int k = 0; k < 3; ++k) {
    const std::string id = "H" + std::to_string(k);
    builder.hatchling(id, "C").shows(id, "tarnbrook", "plain");
  }
  builder.hatchling("unseen", "C");
  builder.clutch("other", "V", {}).hatchling("stranger", "other");
  const auto colony = colony_of(builder);
  const ProveOut out = prove_out_of(colony, with_animal(colony, "M", "V"));
  EXPECT_EQ(out.seen.non_visual, 3);
  EXPECT_EQ(out.seen.visual, 0);
  EXPECT_NEAR(out.odds.carrier_after(0), 1. / 9, 1e-15);
  EXPECT_EQ(out.odds.needed(0.95), 2u);  // five in all
  EXPECT_EQ(out.per_clutch, 2.5);
}

TEST(ProveOut, BroodsSeenWithTheGenotype) {
  RecordsBuilder builder = possible_het(0.5);
  builder.brood("M", "tarnbrook", "e/e", {{"plain", 2}})
      .brood("M", "tarnbrook", "+/e", {{"plain", 5}});
  const auto colony = colony_of(builder);
  ProveOutAsked asked = with_genotype(colony, "M", "e/e");
  asked.per_clutch = 6;
  const ProveOut out = prove_out_of(colony, asked);
  EXPECT_EQ(out.seen.non_visual, 2);
  EXPECT_EQ(out.per_clutch, 6.0);
  EXPECT_NEAR(out.odds.carrier_after(0), 0.25 * std::pow(0.75, 5) / (0.25 * std::pow(0.75, 5) + 1),
              1e-15);
}

// The joint odds of a daughter and her sire: he is het with 1/2, she by half of that; her clear
// offspring by him say less than if the two were strangers.
TEST(ProveOut, PartnersWhoAreKin) {
  RecordsBuilder builder = possible_het(0.5);
  builder.founder("C", Sex::female);
  builder.clutch("one", "C", {"M"}).hatchling("D", "one", Sex::female);
  const auto colony = colony_of(builder);
  const ProveOut out = prove_out_of(colony, with_animal(colony, "M", "D"));
  // M het (1/2): D het with 1/2. P(clear) = 7/8 given M het; the rest is clear.
  EXPECT_NEAR(out.odds.carrier_after(1), 7. / 15, 1e-15);
  EXPECT_NEAR(out.odds.carrier_after(2), (1 + 9. / 16) / (1 + 9. / 16 + 2), 1e-15);
  EXPECT_NEAR(out.odds.limit(), 2. / 3, 1e-15);
}

// On Z a female shows her one copy: sons and daughters of a het male by any dam, daughters half.
TEST(ProveOut, SexLinked) {
  RecordsBuilder builder;
  builder.founder("M", Sex::male).bought_as("tarnbrook", {{"+/+", 0.5}, {"+/e", 0.5}});
  builder.founder("F", Sex::female).founder("U").founder("V");
  const auto colony =
      support::colony_of(support::made(support::sex_linked_model(Chromosome::z)), builder.records);
  const ProveOut out = prove_out_of(colony, with_animal(colony, "M", "F"));
  EXPECT_NEAR(out.odds.visual(), 0.5 * 0.25, 1e-15);
  EXPECT_NEAR(out.odds.carrier_after(1), 0.75 / 1.75, 1e-15);
  const ProveOut same = prove_out_of(colony, with_genotype(colony, "M", "+/W"));
  EXPECT_NEAR(same.odds.carrier_after(3), out.odds.carrier_after(3), 1e-15);
  EXPECT_TRUE(prove_out_fault(colony, with_animal(colony, "U", "V")));
  EXPECT_FALSE(prove_out_fault(colony, with_animal(colony, "U", "M")));
  EXPECT_TRUE(prove_out_fault(colony, with_genotype(colony, "M", "+/e")));
}

TEST(ProveOut, WhatCannotBeAsked) {
  const auto colony = colony_of(possible_het(0.5));
  EXPECT_EQ(prove_out_fault(colony, with_animal(colony, "M", "M"))->what,
            "M cannot be paired with itself");
  EXPECT_EQ(prove_out_fault(colony, with_animal(colony, "V", "H"))->mend, "name a male");
  EXPECT_FALSE(prove_out_fault(colony, with_animal(colony, "M", "V")));
  EXPECT_FALSE(prove_out_fault(colony, with_genotype(colony, "M", "+/e")));
}

// Where a partner must be named anew, none is offered that cannot be: of the animal's own sex.
TEST(ProveOut, OffersPartnersThatCanBe) {
  for (const Chromosome on : {Chromosome::z, Chromosome::x}) {
    const Sex one = on == Chromosome::z ? Sex::female : Sex::male;
    RecordsBuilder builder;
    builder.founder("A", genetics::other_sex(one)).founder("B", one).founder("U");
    const auto colony =
        support::colony_of(support::made(support::sex_linked_model(on)), builder.records);
    const std::string only = on == Chromosome::z ? "e/W" : "e/Y";
    const std::string two = "e/e";
    EXPECT_EQ(prove_out_fault(colony, with_animal(colony, "A", "A"))->mend,
              "name another animal, or a genotype such as " + only);
    EXPECT_EQ(prove_out_fault(colony, with_animal(colony, "B", "B"))->mend,
              "name another animal, or a genotype such as " + two);
    const auto het = prove_out_fault(colony, with_genotype(colony, "A", "+/e"));
    ASSERT_TRUE(het);
    EXPECT_THAT(het->mend, testing::HasSubstr(only));
    const auto& locus = colony.model().loci()[0];
    for (const std::string& key : partner_genotypes(colony, *colony.find_animal("A"), 0)) {
      EXPECT_EQ(locus.genotypes()[*locus.find(key)].sex, one) << key;
    }
    EXPECT_EQ(partner_genotypes(colony, *colony.find_animal("U"), 0).size(), locus.size());
  }
}

// An allele that looks like nothing cannot be proven by looks.
TEST(ProveOut, AnAlleleThatNeverShows) {
  auto model = support::recessive_model();
  model.loci[0].appearance = {{"default", {{"plain", 1.0}}}};
  const auto colony = support::colony_of(support::made(model), possible_het(0.5).records);
  EXPECT_FALSE(prove_out_of(colony, with_animal(colony, "M", "V")).shows_itself);
}

// An allele that one copy shows in another way: an offspring of either look proves it.
// 3 in 10 hets are tinted: that proves nothing by a visual partner, all of whose offspring are
// hets.
TEST(ProveOut, AHetThatShowsNowAndThenIsNoVisual) {
  auto model = support::recessive_model();
  model.loci[0].appearance = {{"default", {{"plain", 1.0}}},
                              {"+/e", {{"plain", 0.7}, {"tinted", 0.3}}},
                              {"e/e", {{"tarnbrook", 1.0}}}};
  const auto colony = support::colony_of(support::made(model), possible_het(0.5).records);
  const ProveOut out = prove_out_of(colony, with_animal(colony, "M", "V"));
  ASSERT_EQ(out.visual_appearances.size(), 1u);
  EXPECT_EQ(colony.model().loci()[0].appearances()[out.visual_appearances[0]], "tarnbrook");
  EXPECT_NEAR(out.odds.visual(), 0.25, 1e-15);
  EXPECT_NEAR(out.odds.after_visual()->carrier, 1.0, 1e-15);
}

TEST(ProveOut, TwoLooksOfOneAllele) {
  auto model = support::recessive_model();
  model.loci[0].appearance = {{"default", {{"plain", 1.0}}},
                              {"+/e", {{"plain", 0.5}, {"corrinvale", 0.5}}},
                              {"e/e", {{"tarnbrook", 1.0}}}};
  const auto colony = support::colony_of(support::made(model), possible_het(0.5).records);
  const ProveOut out = prove_out_of(colony, with_genotype(colony, "M", "+/+"));
  EXPECT_EQ(out.visual_appearances.size(), 2u);
  EXPECT_TRUE(out.shows_itself);
  // A carrier's offspring is het with 1/2 and then corrinvale with 1/2.
  EXPECT_NEAR(out.odds.visual(), 0.5 * 0.25, 1e-15);
  // Where those without it may look so too, only what two copies show most counts.
  model.loci[0].appearance[0] = {"default",
                                 {{"plain", 0.9}, {"corrinvale", 0.05}, {"tarnbrook", 0.05}}};
  const auto blurred = support::colony_of(support::made(model), possible_het(0.5).records);
  const ProveOut fallback = prove_out_of(blurred, with_genotype(blurred, "M", "e/e"));
  ASSERT_EQ(fallback.visual_appearances.size(), 1u);
  EXPECT_EQ(blurred.model().loci()[0].appearances()[fallback.visual_appearances[0]], "tarnbrook");
}

// None of the offspring can live: nothing is learned, and the odds stay.
TEST(ProveOut, NoOffspringThatLive) {
  auto model = support::recessive_model();
  model.loci[0].viability = {{"+/e", 0.0}};
  RecordsBuilder builder;
  builder.founder("C", Sex::male);
  builder.founder("V", Sex::female).bought_as("tarnbrook", {{"e/e", 1.0}});
  const auto colony = support::colony_of(support::made(model), builder.records);
  for (const auto& asked : {with_animal(colony, "C", "V"), with_genotype(colony, "C", "e/e")}) {
    EXPECT_FALSE(prove_out_of(colony, asked).odds.after_visual());
    EXPECT_EQ(prove_out_of(colony, asked).odds.carrier_after(5), 0.0);
  }
}

TEST(ProveOutOdds, NeedsAPossibleState) {
  EXPECT_THROW(ProveOutOdds({}), std::invalid_argument);
  EXPECT_THROW(ProveOutOdds({{0.0, 0.5, true, true}}), std::invalid_argument);
}

// A slow rate: a visual once in 10 000 offspring.
TEST(ProveOutOdds, ManyOffspring) {
  const ProveOutOdds odds({{0.5, 1e-4, true, true}, {0.5, 0.0, false, true}});
  const double exact = std::log(1. / 19) / std::log1p(-1e-4);
  EXPECT_EQ(odds.needed(0.95), static_cast<std::size_t>(std::ceil(exact)));
  EXPECT_FALSE(ProveOutOdds({{0.5, 1e-6, true, true}, {0.5, 0.0, false, true}}).needed(0.95));
}

RC_GTEST_PROP(ProveOutOddsProperty, AgreesWithBayesStepByStep, ()) {
  std::vector<ProveOutCell> cells;
  const auto size = *rc::gen::inRange(1, 7);
  for (int k = 0; k < size; ++k) {
    cells.push_back({*rc::gen::inRange(1, 50) / 7.0, *rc::gen::inRange(0, 20) / 20.0,
                     *rc::gen::arbitrary<bool>(), *rc::gen::arbitrary<bool>()});
  }
  const ProveOutOdds odds(cells);
  for (std::size_t n = 0; n < 12; ++n) {
    double all = 0, hets = 0;
    for (const ProveOutCell& cell : cells) {
      all += cell.weight;
      if (cell.carrier) hets += cell.weight;
    }
    RC_ASSERT(std::abs(odds.carrier_after(n) - hets / all) < 1e-12);
    if (const auto needed = odds.needed(0.9); needed && n < *needed) {
      RC_ASSERT(1 - hets / all < 0.9 + 1e-12);
    }
    for (ProveOutCell& cell : cells) cell.weight *= 1 - cell.visual;
    double left = 0;
    for (const ProveOutCell& cell : cells) left += cell.weight;
    if (left == 0) break;
    // And far from underflow.
    for (ProveOutCell& cell : cells) cell.weight /= left;
  }
}

}  // namespace
}  // namespace likelihet::planning::prove_out_test
