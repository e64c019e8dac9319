// Pairings worked by hand.
#include <cmath>
#include <numeric>

#include "support/small_model.hpp"
#include <gtest/gtest.h>

#include <likelihet/inference/random_bits.hpp>
#include <likelihet/planning/outlook.hpp>

namespace likelihet::planning::outlook_test {
namespace {

using genetics::Chromosome;
using genetics::Sex;
using support::RecordsBuilder;

Outlook outlook_of(const colony::Colony& colony, const std::string& dam, const std::string& sire,
                   std::span<const odds::Tables* const> learned = {}) {
  auto made = outlook(colony, {*colony.find_animal(dam), *colony.find_animal(sire)}, {}, learned);
  return std::get<Outlook>(std::move(made));
}

colony::Colony colony_of(const colony::ModelDescription& model, const RecordsBuilder& builder) {
  return support::colony_of(support::made(model), builder.records);
}

RecordsBuilder two_founders(const colony::Named<double>& dam, const colony::Named<double>& sire) {
  RecordsBuilder builder;
  builder.founder("F", Sex::female).bought_as("tarnbrook", dam);
  builder.founder("M", Sex::male).bought_as("tarnbrook", sire);
  return builder;
}

TEST(Outlook, KnownParents) {
  const auto colony =
      colony_of(support::recessive_model(), two_founders({{"+/e", 1.0}}, {{"+/e", 1.0}}));
  const Outlook out = outlook_of(colony, "F", "M");
  const auto& tarnbrook = out.loci[0];
  EXPECT_NEAR(tarnbrook.genotypes[0].chance(), 0.25, 1e-15);
  EXPECT_NEAR(tarnbrook.genotypes[1].chance(), 0.5, 1e-15);
  EXPECT_NEAR(
      tarnbrook.appearances[*colony.model().loci()[0].find_appearance("tarnbrook")].at_least_one(8),
      1 - std::pow(0.75, 8), 1e-14);
  EXPECT_NEAR(tarnbrook.parents[1 * 3 + 1], 1.0, 1e-15);
  EXPECT_EQ(out.none_can_live, 0.0);
  EXPECT_EQ(out.tables, 0u);
  ASSERT_EQ(out.combined.size(), 2u);
  EXPECT_NEAR(out.combined[0].chance.chance(), 0.75, 1e-15);
}

// Brother and sister of a het and a clear parent: each is het with 1/2 and independently, so a
// visual needs both: 1/4 x 1/4, and a clutch of six holds one with (1 - (3/4)^6) / 4.
TEST(Outlook, SibsFromOneHet) {
  RecordsBuilder builder = two_founders({{"+/e", 1.0}}, {{"+/+", 1.0}});
  builder.clutch("C", "F", {"M"});
  builder.hatchling("D", "C", Sex::female).hatchling("S", "C", Sex::male);
  const Outlook out = outlook_of(colony_of(support::recessive_model(), builder), "D", "S");
  EXPECT_NEAR(out.loci[0].genotypes[2].chance(), 1. / 16, 1e-15);
  EXPECT_NEAR(out.loci[0].genotypes[2].at_least_one(6), (1 - std::pow(0.75, 6)) / 4, 1e-15);
  EXPECT_EQ(out.inbreeding, 0.25);
}

// The same siblings where it is open whether the dam is het. D and S are het with P = 1/4 each, but
// together: P(both) = 1/2 x 1/4 = 1/8, where the product of the marginals says 1/16. Naive: 1/64 a
// offspring; truly 1/32.
TEST(Outlook, RelativesGoTogether) {
  RecordsBuilder builder = two_founders({{"+/+", 0.5}, {"+/e", 0.5}}, {{"+/+", 1.0}});
  builder.clutch("C", "F", {"M"});
  builder.hatchling("D", "C", Sex::female).hatchling("S", "C", Sex::male);
  const Outlook out = outlook_of(colony_of(support::recessive_model(), builder), "D", "S");
  double dam_het = 0, sire_het = 0;
  for (std::size_t g = 0; g < 3; ++g) {
    dam_het += out.loci[0].parents[3 + g];
    sire_het += out.loci[0].parents[3 * g + 1];
  }
  EXPECT_NEAR(dam_het, 0.25, 1e-15);
  EXPECT_NEAR(out.loci[0].parents[4], 0.125, 1e-15);
  EXPECT_GT(out.loci[0].parents[4], 1.9 * dam_het * sire_het);
  const double truth = out.loci[0].genotypes[2].chance();
  EXPECT_NEAR(truth, 1. / 32, 1e-15);
  EXPECT_NEAR(dam_het * sire_het / 4, 1. / 64, 1e-15);
  // And a clutch of eight: (1 - (3/4)^8) / 8 = 0.1125, not 1 - (31/32)^8 = 0.2243.
  EXPECT_NEAR(out.loci[0].genotypes[2].at_least_one(8), (1 - std::pow(0.75, 8)) / 8, 1e-15);
  EXPECT_GT(1 - std::pow(1 - truth, 8), 1.9 * out.loci[0].genotypes[2].at_least_one(8));
}

// e/e lethal, het x het: of those alive 1/3 and 2/3, no visual, a quarter of the eggs lost.
TEST(Outlook, OddsAmongOffspringThatLive) {
  auto model = support::recessive_model();
  model.loci[0].viability = {{"e/e", 0.0}};
  const auto colony = colony_of(model, two_founders({{"+/e", 1.0}}, {{"+/e", 1.0}}));
  const Outlook out = outlook_of(colony, "F", "M");
  EXPECT_NEAR(out.loci[0].genotypes[0].chance(), 1. / 3, 1e-15);
  EXPECT_NEAR(out.loci[0].genotypes[1].chance(), 2. / 3, 1e-15);
  EXPECT_EQ(out.loci[0].genotypes[2].chance(), 0.0);
  EXPECT_NEAR(out.loci[0].laid[2], 0.25, 1e-15);
  EXPECT_NEAR(out.loci[0].lost, 0.25, 1e-15);
}

// +/e lethal: +/+ by e/e gives nothing else, so none can live; +/+ by +/+ all live.
TEST(Outlook, PairsWithoutLivingOffspring) {
  auto model = support::recessive_model();
  model.loci[0].viability = {{"+/e", 0.0}};
  const auto colony =
      colony_of(model, two_founders({{"+/+", 1.0}}, {{"+/+", 0.25}, {"e/e", 0.75}}));
  const Outlook out = outlook_of(colony, "F", "M");
  EXPECT_NEAR(out.none_can_live, 0.75, 1e-15);
  EXPECT_NEAR(out.loci[0].genotypes[0].chance(), 1.0, 1e-15);
  const auto never = colony_of(model, two_founders({{"+/+", 1.0}}, {{"e/e", 1.0}}));
  const Outlook none = outlook_of(never, "F", "M");
  EXPECT_EQ(none.none_can_live, 1.0);
  EXPECT_EQ(none.loci[0].genotypes[0].chance(), 0.0);
  EXPECT_TRUE(none.combined.empty());
}

// Z: dam e/W by sire +/e. Females e/W and +/W, males +/e and e/e, a quarter each.
TEST(Outlook, SexLinked) {
  const auto colony = colony_of(support::sex_linked_model(Chromosome::z),
                                two_founders({{"e/W", 1.0}}, {{"+/e", 1.0}}));
  const Outlook out = outlook_of(colony, "F", "M");
  const auto& locus = colony.model().loci()[0];
  for (const char* key : {"+/W", "e/W", "+/e", "e/e"}) {
    EXPECT_NEAR(out.loci[0].genotypes[*locus.find(key)].chance(), 0.25, 1e-15) << key;
  }
  const std::size_t tarnbrook = *locus.find_appearance("tarnbrook");
  EXPECT_NEAR(out.loci[0].by_sex[0][tarnbrook], 0.25, 1e-15);
  EXPECT_NEAR(out.loci[0].by_sex[1][tarnbrook], 0.25, 1e-15);
}

// Two loci on Z share the offspring's sex: every female shows both, no male either.
TEST(Outlook, LociOnOneSexChromosomeShareTheSex) {
  auto model = support::sex_linked_model(Chromosome::z);
  model.loci.push_back(support::recessive_locus("hollowmere", Chromosome::z));
  RecordsBuilder builder;
  builder.founder("F", Sex::female).bought_as("tarnbrook", {{"+/W", 1.0}});
  builder.bought_as("hollowmere", {{"+/W", 1.0}});
  builder.founder("M", Sex::male).bought_as("tarnbrook", {{"e/e", 1.0}});
  builder.bought_as("hollowmere", {{"e/e", 1.0}});
  const Outlook out = outlook_of(colony_of(model, builder), "F", "M");
  ASSERT_EQ(out.combined.size(), 2u);
  for (const auto& one : out.combined) {
    EXPECT_EQ(one.appearances[0], one.appearances[1]);
    EXPECT_NEAR(one.chance.chance(), 0.5, 1e-15);
  }
}

// Averages over sets of tables are averages of their outlooks.
TEST(Outlook, AveragesOverTables) {
  RecordsBuilder builder = two_founders({{"+/+", 0.5}, {"+/e", 0.5}}, {{"+/e", 1.0}});
  builder.score("F", "crown-fleck", "strong").score("M", "crown-fleck", "absent");
  const auto colony = colony_of(support::recessive_model(), builder);
  inference::RandomBits random(7);
  const std::vector<odds::Tables> tables = {odds::drawn(colony.model(), random),
                                            odds::drawn(colony.model(), random),
                                            odds::drawn(colony.model(), random)};
  const auto all = odds::thinned(tables, 3);
  const Outlook averaged = outlook_of(colony, "F", "M", all);
  EXPECT_EQ(averaged.tables, 3u);
  double visual = 0, once = 0;
  for (const odds::Tables* one : all) {
    const Outlook alone = outlook_of(colony, "F", "M", std::span(&one, 1));
    visual += alone.loci[0].genotypes[2].chance() / 3;
    once += alone.combined[1].chance.at_least_one(5) / 3;
  }
  EXPECT_NEAR(averaged.loci[0].genotypes[2].chance(), visual, 1e-14);
  EXPECT_NEAR(averaged.combined[1].chance.at_least_one(5), once, 1e-14);
  EXPECT_EQ(odds::thinned(tables, 2).size(), 2u);
  EXPECT_EQ(odds::thinned(tables, 2)[1], &tables[1]);
  EXPECT_TRUE(odds::thinned({}, 2).empty());
}

TEST(Outlook, TooManyCombinationsAreLeftOut) {
  auto model = support::recessive_model();
  model.loci.clear();
  for (int l = 0; l < 13; ++l) {
    model.loci.push_back(support::recessive_locus("locus" + std::to_string(l)));
  }
  model.markers.clear();
  model.assays.clear();
  model.origins.clear();
  RecordsBuilder builder;
  builder.founder("F", Sex::female).founder("M", Sex::male);
  const Outlook out = outlook_of(colony_of(model, builder), "F", "M");
  EXPECT_TRUE(out.combined_left_out);
  EXPECT_TRUE(out.combined.empty());
  EXPECT_NEAR(out.loci[12].genotypes[0].chance(), 1.0, 1e-15);
}

TEST(Outlook, WhoCannotBePaired) {
  RecordsBuilder builder;
  builder.founder("F", Sex::female).founder("G", Sex::female).founder("M", Sex::male);
  builder.founder("U").founder("V");
  const auto colony = colony_of(support::recessive_model(), builder);
  const auto fault = [&](const char* dam, const char* sire) {
    return pairing_fault(colony, {*colony.find_animal(dam), *colony.find_animal(sire)});
  };
  EXPECT_FALSE(fault("F", "M"));
  EXPECT_FALSE(fault("U", "V"));
  EXPECT_EQ(fault("F", "F")->what, "it cannot be paired with itself");
  EXPECT_EQ(fault("M", "F")->mend, "name the dam first: F M");
  EXPECT_EQ(fault("F", "G")->mend, "name a male second");
  EXPECT_EQ(fault("M", "M")->what, "it cannot be paired with itself");
}

// Of unknown sex, each is taken as of the sex that its part needs.
TEST(Outlook, UnknownSexes) {
  RecordsBuilder builder;
  builder.founder("U", std::nullopt, "bought").founder("V", std::nullopt, "bought");
  const auto colony = colony_of(support::sex_linked_model(Chromosome::z), builder);
  const Outlook out = outlook_of(colony, "U", "V");
  // A dam e/W (2 %) or not by a sire with e twice, once or not: sons e/e with 0.02 x 0.02 / 2.
  EXPECT_NEAR(out.loci[0].genotypes[2].chance(), 0.0002, 1e-15);
  EXPECT_NEAR(out.loci[0].genotypes[4].chance(), 0.01, 1e-15);
}

}  // namespace
}  // namespace likelihet::planning::outlook_test
