// Unnamed parents and several possible sires: one for the clutch, or one for each hatchling.
#include <cmath>
#include <string>

#include <gtest/gtest.h>
#include <support/solved_colony.hpp>

namespace likelihet::odds::paternity_test {
namespace {

using support::RecordsBuilder;
using support::SolvedColony;

// A visual dam; A carries, B is clear. Offspring are visual with 1/2 from A, never from B.
RecordsBuilder two_males(colony::Paternity paternity, double share_of_a = 1,
                         double share_of_b = 1) {
  RecordsBuilder records;
  records.founder("D").bought_as("tarnbrook", {{"e/e", 1.0}});
  records.founder("A").bought_as("tarnbrook", {{"+/e", 1.0}});
  records.founder("B").bought_as("tarnbrook", {{"+/+", 1.0}});
  records.clutch("C", "D", {"A", "B"});
  records.clutch_record().paternity = paternity;
  records.clutch_record().sires[0].share = share_of_a;
  records.clutch_record().sires[1].share = share_of_b;
  records.hatchling("H", "C").hatchling("I", "C").hatchling("J", "C");
  return records;
}

const auto model = support::recessive_model;

TEST(Paternity, SharesWeighTheSires) {
  for (const auto paternity : {colony::Paternity::single, colony::Paternity::mixed}) {
    const SolvedColony even(model(), two_males(paternity));
    EXPECT_NEAR(even.pedigree("H", "e/e"), 0.25, 1e-15);
    const SolvedColony uneven(model(), two_males(paternity, 3, 1));
    EXPECT_NEAR(uneven.pedigree("H", "e/e"), 0.375, 1e-15);
    EXPECT_NEAR(uneven.pedigree("H", "+/e"), 0.625, 1e-15);
  }
}

// One plain offspring: from A with 1/2, from B for sure, so A : B = 1 : 2 for him, and for a clutch
// of one sire for all of them.
TEST(Paternity, SingleJoinsTheWholeClutch) {
  RecordsBuilder records = two_males(colony::Paternity::single);
  records.shows("H", "tarnbrook", "plain");
  EXPECT_NEAR(SolvedColony(model(), records).posterior("I", "e/e"), 1.0 / 6, 1e-15);
  records.shows("J", "tarnbrook", "plain");
  // A : B = 1 : 4.
  EXPECT_NEAR(SolvedColony(model(), records).posterior("I", "e/e"), 1.0 / 10, 1e-15);
}

TEST(Paternity, MixedLeavesEachToItself) {
  RecordsBuilder records = two_males(colony::Paternity::mixed);
  records.shows("H", "tarnbrook", "plain").shows("J", "tarnbrook", "plain");
  EXPECT_NEAR(SolvedColony(model(), records).posterior("I", "e/e"), 0.25, 1e-15);
}

// A visual offspring proves A: for the clutch if it has one sire, for itself otherwise.
TEST(Paternity, AVisualProvesItsSire) {
  RecordsBuilder single = two_males(colony::Paternity::single);
  single.shows("H", "tarnbrook", "tarnbrook");
  EXPECT_NEAR(SolvedColony(model(), single).posterior("I", "e/e"), 0.5, 1e-15);
  RecordsBuilder mixed = two_males(colony::Paternity::mixed);
  mixed.shows("H", "tarnbrook", "tarnbrook");
  EXPECT_NEAR(SolvedColony(model(), mixed).posterior("I", "e/e"), 0.25, 1e-15);
  // P(one visual) is 1/4 either way; of two, 1/2 x 1/4 against 1/4 x 1/4.
  EXPECT_NEAR(SolvedColony(model(), single).odds().log_evidence, std::log(0.25), 1e-15);
  single.shows("I", "tarnbrook", "tarnbrook");
  mixed.shows("I", "tarnbrook", "tarnbrook");
  EXPECT_NEAR(SolvedColony(model(), single).odds().log_evidence, std::log(0.125), 1e-14);
  EXPECT_NEAR(SolvedColony(model(), mixed).odds().log_evidence, std::log(0.0625), 1e-14);
}

// What is not known of a male moves with his chance to be the sire: A is a carrier or not, and a
// visual offspring says he must be, if he is the only one who could.
TEST(Paternity, OffspringTellOfASireInDoubt) {
  RecordsBuilder records;
  records.founder("D").bought_as("tarnbrook", {{"e/e", 1.0}});
  records.founder("A").bought_as("tarnbrook", {{"+/+", 0.5}, {"+/e", 0.5}});
  records.founder("B").bought_as("tarnbrook", {{"+/+", 1.0}});
  records.clutch("C", "D", {"A", "B"}).hatchling("H", "C").shows("H", "tarnbrook", "plain");
  // Carrier: 1/2 x 1/2 + 1/2 = 3/4; clear: 1. 3 : 4.
  EXPECT_NEAR(SolvedColony(model(), records).posterior("A", "+/e"), 3.0 / 7, 1e-15);
}

// Evidence at another locus tells who the sire was, and so moves this one.
TEST(Paternity, LociTellOfEachOtherThroughTheSire) {
  auto two = support::masked_model();
  for (const auto paternity : {colony::Paternity::single, colony::Paternity::mixed}) {
    RecordsBuilder records;
    records.founder("D")
        .bought_as("tarnbrook", {{"e/e", 1.0}})
        .bought_as("brackmoor", {{"s/s", 1.0}});
    records.founder("A")
        .bought_as("tarnbrook", {{"+/e", 1.0}})
        .bought_as("brackmoor", {{"s/s", 1.0}});
    records.founder("B");
    records.clutch("C", "D", {"A", "B"}).hatchling("H", "C");
    records.clutch_record().paternity = paternity;
    records.shows("H", "brackmoor", "plain");
    EXPECT_EQ(SolvedColony(two, records).posterior("H", "+/e"), 1.0) << "only B gives a +";
    records.records.observations.clear();
    records.shows("H", "brackmoor", "thornwick");
    EXPECT_NEAR(SolvedColony(two, records).posterior("H", "e/e"), 0.5, 1e-15);
  }
}

// No named dam: one unnamed dam for all of the clutch, all first allele without an origin.
TEST(UnnamedDam, IsTheSameForAllHatchlings) {
  RecordsBuilder records;
  records.founder("S").bought_as("tarnbrook", {{"e/e", 1.0}});
  records.clutch("C", std::nullopt, {"S"}).hatchling("H", "C").hatchling("I", "C");
  EXPECT_EQ(SolvedColony(model(), records).pedigree("H", "+/e"), 1.0);
  records.clutch_record().dam_origin = "bought";
  // A visual sibling proves her e: +/e or e/e, 0.0392/2 : 0.0004, so 1/2 x 0.98 + 1 x 0.02 = 0.51.
  EXPECT_NEAR(SolvedColony(model(), records).pedigree("H", "e/e"), 0.02, 1e-15);
  records.shows("I", "tarnbrook", "tarnbrook");
  EXPECT_NEAR(SolvedColony(model(), records).posterior("H", "e/e"), 0.51, 1e-14);
}

TEST(UnnamedDam, OfTwoClutchesAreTwo) {
  RecordsBuilder records;
  records.founder("S").bought_as("tarnbrook", {{"e/e", 1.0}});
  records.clutch("C", std::nullopt, {"S"}).hatchling("H", "C");
  records.clutch_record().dam_origin = "bought";
  records.clutch("E", std::nullopt, {"S"}).hatchling("I", "E").shows("I", "tarnbrook", "tarnbrook");
  records.clutch_record().dam_origin = "bought";
  EXPECT_NEAR(SolvedColony(model(), records).posterior("H", "e/e"), 0.02, 1e-15);
}

// Both unnamed, of two origins: P(het) = p1 q2 + q1 p2 with q = 0.02 and 0.5.
TEST(UnnamedParents, HaveOriginsOfTheirOwn) {
  auto description = model();
  description.origins.push_back({"line-bred", {{"tarnbrook", {{"e", 0.5}}}}, 10.0});
  RecordsBuilder records;
  records.clutch("C", std::nullopt, {}).hatchling("H", "C");
  records.clutch_record().dam_origin = "bought";
  records.clutch_record().sire_origin = "line-bred";
  const SolvedColony solved(description, records);
  EXPECT_NEAR(solved.pedigree("H", "+/e"), 0.98 * 0.5 + 0.02 * 0.5, 1e-15);
  EXPECT_NEAR(solved.pedigree("H", "e/e"), 0.01, 1e-15);
}

// Six candidates, one offspring each: the shares alone decide, whatever the order they are named
// in.
TEST(Paternity, HoldsManyCandidates) {
  RecordsBuilder records;
  records.founder("D").bought_as("tarnbrook", {{"e/e", 1.0}});
  for (const char* id : {"A", "B", "E", "F", "G", "K"}) records.founder(id);
  records.bought_as("tarnbrook", {{"e/e", 1.0}});
  records.clutch("C", "D", {"K", "A", "B", "E", "F", "G"});
  records.clutch_record().paternity = colony::Paternity::mixed;
  records.clutch_record().sires[0].share = 5.0;
  records.hatchling("H", "C").hatchling("I", "C").shows("I", "tarnbrook", "plain");
  const SolvedColony solved(model(), records);
  EXPECT_NEAR(solved.posterior("H", "e/e"), 0.5, 1e-15);
  EXPECT_EQ(solved.posterior("I", "+/e"), 1.0);
}

}  // namespace
}  // namespace likelihet::odds::paternity_test
