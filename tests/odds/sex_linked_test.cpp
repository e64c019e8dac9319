// Loci on X and Z with sexes known and unknown, from descent to log evidence, in fractions by hand.
#include <cmath>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <support/solved_colony.hpp>

namespace likelihet::odds::sex_linked_test {
namespace {

using genetics::Chromosome;
using genetics::Sex;
using support::RecordsBuilder;
using support::SolvedColony;

RecordsBuilder carriers_daughter_or_son(std::optional<Sex> sex) {
  RecordsBuilder records;
  records.founder("D", Sex::female).bought_as("tarnbrook", {{"+/W", 1.0}});
  records.founder("S", Sex::male).bought_as("tarnbrook", {{"+/e", 1.0}});
  records.clutch("C", "D", {"S"}).hatchling("H", "C", sex);
  return records;
}

// A Z-linked carrier sire and a clear dam: sons clear or hets, daughters clear or visual.
TEST(ZLinked, OffspringOfACarrierSire) {
  const auto model = support::sex_linked_model(Chromosome::z);
  const SolvedColony daughter(model, carriers_daughter_or_son(Sex::female));
  EXPECT_NEAR(daughter.posterior("H", "e/W"), 0.5, 1e-15);
  EXPECT_NEAR(daughter.posterior("H", "+/W"), 0.5, 1e-15);
  EXPECT_EQ(daughter.posterior("H", "+/e"), 0.0);
  const SolvedColony son(model, carriers_daughter_or_son(Sex::male));
  EXPECT_NEAR(son.posterior("H", "+/e"), 0.5, 1e-15);
  EXPECT_EQ(son.posterior("H", "e/W"), 0.0);
  const SolvedColony unknown(model, carriers_daughter_or_son(std::nullopt));
  for (const char* key : {"+/+", "+/e", "+/W", "e/W"}) {
    EXPECT_NEAR(unknown.posterior("H", key), 0.25, 1e-15) << key;
  }
  // The sex is given, not observed: nothing to weigh.
  EXPECT_EQ(daughter.odds().log_evidence, 0.0);
}

// Plain and of unknown sex, one of three is a daughter: sons +/+ and +/e, daughter +/W.
TEST(ZLinked, ALookTellsOfTheSex) {
  RecordsBuilder records = carriers_daughter_or_son(std::nullopt);
  records.shows("H", "tarnbrook", "plain");
  const SolvedColony solved(support::sex_linked_model(Chromosome::z), records);
  EXPECT_NEAR(solved.posterior("H", "+/W"), 1.0 / 3, 1e-15);
  EXPECT_NEAR(solved.posterior("H", "+/e"), 1.0 / 3, 1e-15);
  EXPECT_NEAR(solved.odds().log_evidence, std::log(0.75), 1e-15);
}

// A visual offspring of a clear dam is a daughter.
TEST(ZLinked, AVisualOfAClearDamIsADaughter) {
  RecordsBuilder records = carriers_daughter_or_son(std::nullopt);
  records.shows("H", "tarnbrook", "tarnbrook");
  EXPECT_EQ(SolvedColony(support::sex_linked_model(Chromosome::z), records).posterior("H", "e/W"),
            1.0);
}

// e/W holds exactly one copy and counts as such, though no daughter can be a silent carrier.
TEST(ZLinked, HetCountsTheOneCopySex) {
  const SolvedColony solved(support::sex_linked_model(Chromosome::z),
                            carriers_daughter_or_son(std::nullopt));
  EXPECT_NEAR(solved.at("H").het[0].mean, 0.5, 1e-15);
}

// A grandson of a carrier over his sire: the sire, a son, is +/e with 1/2; his sons have it with
// 1/4, and a daughter of his is visual with 1/4.
TEST(ZLinked, PassesThroughASon) {
  RecordsBuilder records = carriers_daughter_or_son(Sex::male);
  records.founder("E", Sex::female).clutch("G", "E", {"H"});
  records.hatchling("N", "G", Sex::male).hatchling("M", "G", Sex::female);
  const SolvedColony solved(support::sex_linked_model(Chromosome::z), records);
  EXPECT_NEAR(solved.posterior("N", "+/e"), 0.25, 1e-15);
  EXPECT_NEAR(solved.posterior("M", "e/W"), 0.25, 1e-15);
}

// Each clear daughter halves the odds of her sire: 1 : 1 -> 1 : 2^n. Plain sons say nothing.
TEST(ZLinked, ClearDaughtersClearTheirSire) {
  RecordsBuilder records;
  records.founder("D", Sex::female).founder("S", Sex::male);
  records.bought_as("tarnbrook", {{"+/+", 0.5}, {"+/e", 0.5}}).clutch("C", "D", {"S"});
  for (int i = 0; i < 5; ++i) {
    std::string id = "F";
    id += std::to_string(i);
    records.hatchling(id, "C", Sex::female).shows(id, "tarnbrook", "plain");
    id[0] = 'M';
    records.hatchling(id, "C", Sex::male).shows(id, "tarnbrook", "plain");
  }
  EXPECT_NEAR(SolvedColony(support::sex_linked_model(Chromosome::z), records).posterior("S", "+/e"),
              1.0 / 33, 1e-15);
}

// Of unknown sex each plain offspring weighs 3/4 instead: (3/4)^5.
TEST(ZLinked, PlainOffspringOfUnknownSexSayLess) {
  RecordsBuilder records;
  records.founder("D").founder("S").bought_as("tarnbrook", {{"+/+", 0.5}, {"+/e", 0.5}});
  records.clutch("C", "D", {"S"});
  for (int i = 0; i < 5; ++i) {
    std::string id = "F";
    id += std::to_string(i);
    records.hatchling(id, "C").shows(id, "tarnbrook", "plain");
  }
  const double factor = std::pow(0.75, 5);
  EXPECT_NEAR(SolvedColony(support::sex_linked_model(Chromosome::z), records).posterior("S", "+/e"),
              factor / (1 + factor), 1e-15);
}

// X is the mirror: a carrier dam's sons are visual or clear, and a visual sire's daughters all
// carry, his sons never.
TEST(XLinked, MirrorsZ) {
  const auto model = support::sex_linked_model(Chromosome::x);
  RecordsBuilder records;
  records.founder("D", Sex::female).bought_as("tarnbrook", {{"+/e", 1.0}});
  records.founder("S", Sex::male).bought_as("tarnbrook", {{"+/Y", 1.0}});
  records.founder("V", Sex::male).bought_as("tarnbrook", {{"e/Y", 1.0}});
  records.founder("K", Sex::female).bought_as("tarnbrook", {{"+/+", 1.0}});
  records.clutch("C", "D", {"S"}).hatchling("son", "C", Sex::male);
  records.clutch("E", "K", {"V"}).hatchling("girl", "E", Sex::female);
  records.hatchling("boy", "E", Sex::male).hatchling("either", "E");
  const SolvedColony solved(model, records);
  EXPECT_NEAR(solved.posterior("son", "e/Y"), 0.5, 1e-15);
  EXPECT_EQ(solved.posterior("girl", "+/e"), 1.0);
  EXPECT_EQ(solved.posterior("boy", "+/Y"), 1.0);
  EXPECT_NEAR(solved.posterior("either", "+/e"), 0.5, 1e-15);
  EXPECT_NEAR(solved.posterior("either", "+/Y"), 0.5, 1e-15);
}

// A founder bought as a claim on both sexes: within each, the claim is renormalised; each sex 1/2.
TEST(XLinked, AClaimIsRenormalisedWithinEachSex) {
  RecordsBuilder records;
  records.founder("F").bought_as("tarnbrook", {{"+/+", 0.3}, {"+/e", 0.1}, {"e/Y", 0.6}});
  const SolvedColony solved(support::sex_linked_model(Chromosome::x), records);
  EXPECT_NEAR(solved.pedigree("F", "+/+"), 0.375, 1e-15);
  EXPECT_NEAR(solved.pedigree("F", "+/e"), 0.125, 1e-15);
  EXPECT_NEAR(solved.pedigree("F", "e/Y"), 0.5, 1e-15);
}

// Two loci on Z of an animal of unknown sex: a visual at one proves a daughter of this pair, and
// with it that the other locus holds one copy.
TEST(SexLinked, TwoLociTellOfEachOtherThroughTheSex) {
  auto model = support::sex_linked_model(Chromosome::z);
  model.loci.push_back(support::recessive_locus("brackmoor", Chromosome::z));
  RecordsBuilder records;
  records.founder("D", Sex::female);
  records.founder("S", Sex::male).bought_as("tarnbrook", {{"+/e", 1.0}});
  records.bought_as("brackmoor", {{"+/e", 1.0}});
  records.clutch("C", "D", {"S"}).hatchling("H", "C").hatchling("I", "C");
  records.shows("H", "tarnbrook", "tarnbrook");
  const SolvedColony solved(model, records);
  EXPECT_NEAR(solved.posterior("H", "e/W", "brackmoor"), 0.5, 1e-15);
  EXPECT_NEAR(solved.posterior("H", "+/W", "brackmoor"), 0.5, 1e-15);
  EXPECT_EQ(solved.posterior("H", "+/e", "brackmoor"), 0.0);
  EXPECT_NEAR(solved.posterior("I", "+/e", "brackmoor"), 0.25, 1e-15);
  EXPECT_NEAR(solved.odds().log_evidence, std::log(0.25), 1e-14);
}

// A dam is female though no one wrote it down.
TEST(SexLinked, PartsInAClutchSettleSexes) {
  RecordsBuilder records;
  records.founder("D", std::nullopt, "bought").founder("S", std::nullopt, "bought");
  records.clutch("C", "D", {"S"}).hatchling("H", "C");
  const SolvedColony solved(support::sex_linked_model(Chromosome::z), records);
  EXPECT_EQ(solved.pedigree("D", "+/+") + solved.pedigree("D", "+/e"), 0.0);
  EXPECT_NEAR(solved.pedigree("D", "e/W"), 0.02, 1e-15);
  EXPECT_NEAR(solved.pedigree("S", "+/e"), 0.0392, 1e-15);
  // A daughter's Z is her sire's: q again; a son is +/e with p q of either way.
  EXPECT_NEAR(solved.pedigree("H", "e/W"), 0.01, 1e-15);
  EXPECT_NEAR(solved.pedigree("H", "+/e"), 0.0196, 1e-15);
}

// Sexes recorded against what is possible: a daughter of this pair cannot be a carrier.
TEST(SexLinked, ARecordedSexCanContradict) {
  RecordsBuilder records = carriers_daughter_or_son(Sex::male);
  records.shows("H", "tarnbrook", "tarnbrook");
  const auto colony = support::colony_of(support::sex_linked_model(Chromosome::z), records);
  const auto clash = support::clash_of(colony);
  EXPECT_EQ(support::ids_of(colony, clash.observations), (std::vector<std::string>{"o1"}));
  EXPECT_EQ(clash.sexes, (std::vector<std::size_t>{*colony.find_animal("H")}));
  EXPECT_NE(clash.what.find("H is taken as male"), std::string::npos) << clash.what;
}

}  // namespace
}  // namespace likelihet::odds::sex_linked_test
