// Lethal and weak genotypes: odds among the living, what being alive tells, and sexes out of step.
#include <cmath>
#include <string>

#include <gtest/gtest.h>
#include <support/solved_colony.hpp>

namespace likelihet::odds::viability_test {
namespace {

using genetics::Chromosome;
using genetics::Sex;
using support::RecordsBuilder;
using support::SolvedColony;

colony::ModelDescription weak(double visuals) {
  auto model = support::recessive_model();
  model.loci[0].viability = {{"e/e", visuals}};
  return model;
}

RecordsBuilder two_carriers() {
  RecordsBuilder records;
  records.founder("D").bought_as("tarnbrook", {{"+/e", 1.0}});
  records.founder("S").bought_as("tarnbrook", {{"+/e", 1.0}});
  records.clutch("C", "D", {"S"}).hatchling("H", "C");
  return records;
}

// Cuenot (1905), Castle and Little (1910), from memory: 2 : 1 among the living of two hets.
TEST(Viability, OfALethalLeavesTwoToOne) {
  const SolvedColony solved(weak(0), two_carriers());
  EXPECT_NEAR(solved.pedigree("H", "+/e"), 2.0 / 3, 1e-15);
  EXPECT_NEAR(solved.pedigree("H", "+/+"), 1.0 / 3, 1e-15);
  EXPECT_EQ(solved.pedigree("H", "e/e"), 0.0);
  EXPECT_EQ(solved.odds().log_evidence, 0.0);
}

// Half of the visuals live: 2 : 4 : 1 of seven.
TEST(Viability, OfAWeakGenotypeShiftsTheShares) {
  const SolvedColony solved(weak(0.5), two_carriers());
  EXPECT_NEAR(solved.pedigree("H", "+/+"), 2.0 / 7, 1e-15);
  EXPECT_NEAR(solved.pedigree("H", "+/e"), 4.0 / 7, 1e-15);
  EXPECT_NEAR(solved.pedigree("H", "e/e"), 1.0 / 7, 1e-15);
}

// Only ratios count: all viabilities doubled change nothing.
TEST(Viability, IsRelative) {
  auto model = weak(0.5);
  model.loci[0].viability = {{"+/+", 2.0}, {"+/e", 2.0}, {"e/e", 1.0}};
  EXPECT_NEAR(SolvedColony(model, two_carriers()).pedigree("H", "e/e"), 1.0 / 7, 1e-15);
}

// A founder is alive too: q = 0.5, so 1 : 2 : 0 with a lethal.
TEST(Viability, CountsForFounders) {
  auto model = weak(0);
  model.origins[0].frequencies = {{"tarnbrook", {{"e", 0.5}}}};
  RecordsBuilder records;
  records.founder("F", std::nullopt, "bought");
  EXPECT_NEAR(SolvedColony(model, records).pedigree("F", "+/e"), 2.0 / 3, 1e-15);
}

// A bought animal's claim stands in the place of that prior: it is of the living already.
TEST(Viability, LeavesAClaimAlone) {
  RecordsBuilder records;
  records.founder("F").bought_as("tarnbrook", {{"+/+", 0.5}, {"e/e", 0.5}});
  EXPECT_NEAR(SolvedColony(weak(0.5), records).pedigree("F", "e/e"), 0.5, 1e-15);
}

// Renormalised for each pair of parents: that a hatchling lives does not speak for a clear dam.
TEST(Viability, DoesNotFavourParentsByTheirLosses) {
  RecordsBuilder records;
  records.founder("D").bought_as("tarnbrook", {{"+/+", 0.5}, {"+/e", 0.5}});
  records.founder("S").bought_as("tarnbrook", {{"+/e", 1.0}});
  records.clutch("C", "D", {"S"}).hatchling("H", "C").hatchling("I", "C");
  const SolvedColony solved(weak(0), records);
  EXPECT_NEAR(solved.pedigree("D", "+/e"), 0.5, 1e-15);
  // 1/2 from +/+ x +/e, 2/3 from +/e x +/e.
  EXPECT_NEAR(solved.pedigree("H", "+/e"), (0.5 + 2.0 / 3) / 2, 1e-15);
}

// But parents who can have no living offspring at all are not this hatchling's.
TEST(Viability, RulesOutParentsWithoutLivingOffspring) {
  auto model = weak(1);
  model.loci[0].viability = {{"e/e", 0.0}, {"+/e", 0.0}};
  RecordsBuilder records;
  records.founder("D").bought_as("tarnbrook", {{"+/+", 0.5}, {"e/e", 0.5}});
  records.founder("S").clutch("C", "D", {"S"}).hatchling("H", "C");
  const SolvedColony solved(model, records);
  EXPECT_EQ(solved.pedigree("D", "+/+"), 1.0);
  EXPECT_EQ(solved.pedigree("H", "+/+"), 1.0);
}

TEST(Viability, OfNoOffspringAtAllIsAnImpossiblePedigree) {
  RecordsBuilder records;
  records.founder("D").bought_as("tarnbrook", {{"e/e", 1.0}});
  records.founder("S").bought_as("tarnbrook", {{"e/e", 1.0}});
  records.clutch("C", "D", {"S"}).hatchling("H", "C");
  const auto colony = support::colony_of(weak(0), records);
  const auto clash = support::clash_of(colony);
  EXPECT_TRUE(clash.observations.empty());
  EXPECT_TRUE(clash.sexes.empty());
  EXPECT_NE(clash.what.find("pedigree alone is impossible"), std::string::npos) << clash.what;
}

// Many plain offspring of two hets are expected where visuals die: (1)^n against (3/4)^n.
TEST(Viability, ChangesWhatPlainOffspringSay) {
  RecordsBuilder records;
  records.founder("D").bought_as("tarnbrook", {{"+/+", 0.5}, {"+/e", 0.5}});
  records.founder("S").bought_as("tarnbrook", {{"+/e", 1.0}});
  records.clutch("C", "D", {"S"});
  for (const char* id : {"H", "I", "J", "K"}) {
    records.hatchling(id, "C").shows(id, "tarnbrook", "plain");
  }
  const double factor = std::pow(0.75, 4);
  EXPECT_NEAR(SolvedColony(weak(1), records).posterior("D", "+/e"), factor / (1 + factor), 1e-14);
  EXPECT_NEAR(SolvedColony(weak(0), records).posterior("D", "+/e"), 0.5, 1e-14);
}

// A Z-linked lethal: of a carrier sire's offspring, half of the daughters die, so a hatchling of
// unknown sex is a son with 2/3 and a carrier with 1/3.
TEST(Viability, OnZLeavesMoreSons) {
  auto model = support::sex_linked_model(Chromosome::z);
  model.loci[0].viability = {{"e/e", 0.0}, {"e/W", 0.0}};
  RecordsBuilder records;
  records.founder("D", Sex::female).founder("S", Sex::male);
  records.bought_as("tarnbrook", {{"+/e", 1.0}}).clutch("C", "D", {"S"});
  records.hatchling("H", "C").hatchling("I", "C", Sex::female);
  const SolvedColony solved(model, records);
  EXPECT_NEAR(solved.pedigree("H", "+/W"), 1.0 / 3, 1e-15);
  EXPECT_NEAR(solved.pedigree("H", "+/e"), 1.0 / 3, 1e-15);
  EXPECT_EQ(solved.pedigree("I", "+/W"), 1.0);
}

// There a recorded sex is evidence: daughters are 1/3 of a carrier's offspring and 1/2 of a clear
// male's, so the odds 1 : 1 that he carries fall to 2 : 3.
TEST(Viability, OnZMakesASexEvidence) {
  auto model = support::sex_linked_model(Chromosome::z);
  model.loci[0].viability = {{"e/e", 0.0}, {"e/W", 0.0}};
  RecordsBuilder records;
  records.founder("D", Sex::female).founder("S", Sex::male);
  records.bought_as("tarnbrook", {{"+/+", 0.5}, {"+/e", 0.5}}).clutch("C", "D", {"S"});
  records.hatchling("I", "C", Sex::female);
  const SolvedColony solved(model, records);
  EXPECT_NEAR(solved.pedigree("S", "+/e"), 0.4, 1e-15);
  EXPECT_EQ(solved.odds().log_evidence, 0.0) << "sexes are given";
}

// Two Z-linked lethals of one sire: daughters live with 1/4 of 1/2, sons all. Alive 1/2 + 1/8 =
// 5/8, so an offspring of unknown sex is a daughter with 1/5, and a clear son at both with 1/5.
TEST(Viability, OfTwoSexLinkedLociIsOfTheWholeAnimal) {
  auto model = support::sex_linked_model(Chromosome::z);
  model.loci.push_back(support::recessive_locus("brackmoor", Chromosome::z));
  for (auto& locus : model.loci) locus.viability = {{"e/e", 0.0}, {"e/W", 0.0}};
  RecordsBuilder records;
  records.founder("D", Sex::female).founder("S", Sex::male);
  records.bought_as("tarnbrook", {{"+/e", 1.0}}).bought_as("brackmoor", {{"+/e", 1.0}});
  records.clutch("C", "D", {"S"}).hatchling("H", "C");
  const SolvedColony solved(model, records);
  EXPECT_NEAR(solved.pedigree("H", "+/W"), 0.2, 1e-14);
  EXPECT_NEAR(solved.pedigree("H", "+/W", "brackmoor"), 0.2, 1e-14);
  EXPECT_NEAR(solved.pedigree("H", "+/e"), 0.4, 1e-14);
  EXPECT_NEAR(solved.pedigree("H", "+/+", "brackmoor"), 0.4, 1e-14);
}

// Of the same two loci, with a sire who carries brackmoor's for sure and tarnbrook's with 1/2: that
// an offspring lives says nothing of him, since the chance to live is taken over the pair's living
// offspring. That it is a daughter does: 1/8 of 5/8 if he carries both, 1/4 of 3/4 if one, so 3
// : 5.
TEST(Viability, OfTwoSexLinkedLociTellsOfTheSireBySexAlone) {
  auto model = support::sex_linked_model(Chromosome::z);
  model.loci.push_back(support::recessive_locus("brackmoor", Chromosome::z));
  for (auto& locus : model.loci) locus.viability = {{"e/e", 0.0}, {"e/W", 0.0}};
  RecordsBuilder records;
  records.founder("D", Sex::female).founder("S", Sex::male);
  records.bought_as("tarnbrook", {{"+/+", 0.5}, {"+/e", 0.5}})
      .bought_as("brackmoor", {{"+/e", 1.0}});
  records.clutch("C", "D", {"S"}).hatchling("H", "C");
  EXPECT_NEAR(SolvedColony(model, records).pedigree("S", "+/e"), 0.5, 1e-14);
  records.animal().sex = Sex::female;
  EXPECT_NEAR(SolvedColony(model, records).pedigree("S", "+/e"), 3.0 / 8, 1e-14);
}

// A chance of one in 1e200 to live: the visual is as good as never seen, yet not impossible.
TEST(Viability, HoldsAVanishingChanceToLive) {
  RecordsBuilder records = two_carriers();
  EXPECT_NEAR(SolvedColony(weak(1e-200), records).pedigree("H", "e/e") / 1e-200, 1.0 / 3, 1e-12);
  records.shows("H", "tarnbrook", "tarnbrook");
  const SolvedColony seen(weak(1e-200), records);
  EXPECT_EQ(seen.posterior("H", "e/e"), 1.0);
  EXPECT_NEAR(seen.odds().log_evidence, -200 * std::log(10.0) - std::log(3.0), 1e-9);
}

}  // namespace
}  // namespace likelihet::odds::viability_test
