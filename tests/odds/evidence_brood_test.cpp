// Counted offspring as likelihoods: test matings on autosomes, X and Z, and very large broods.
#include <cmath>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>
#include <support/random_locus.hpp>
#include <support/solved_colony.hpp>

#include <likelihet/odds/evidence_brood.hpp>

namespace likelihet::odds::evidence_brood_test {
namespace {

using genetics::Chromosome;
using genetics::Locus;
using support::RecordsBuilder;
using support::SolvedColony;

constexpr std::size_t plain = 0;
constexpr std::size_t tarnbrook = 1;

Locus recessive(Chromosome on = Chromosome::autosome, double viability_of_visuals = 1) {
  auto model = support::recessive_model();
  model.sex_chromosomes = on == Chromosome::x ? genetics::SexSystem::xy : genetics::SexSystem::zw;
  model.loci = {support::recessive_locus("tarnbrook", on)};
  model.loci[0].viability = {{"e/e", viability_of_visuals}};
  model.markers.clear();
  model.assays.clear();
  return support::made(model)->loci()[0];
}

void expect_chances(const Locus& locus, const std::string& partner, std::size_t appearance,
                    const std::vector<double>& expected) {
  const auto chances = offspring_chance(locus, *locus.find(partner), appearance);
  ASSERT_EQ(chances.size(), expected.size());
  for (std::size_t g = 0; g < chances.size(); ++g) {
    EXPECT_NEAR(chances[g], expected[g], 1e-15) << locus.key(g) << " x " << partner;
  }
}

// Mendel (1866): a test mating of +/+, +/e and e/e gives 0, 1/2 and all visuals; with a carrier 0,
// 1/4 and 1/2.
TEST(OffspringChance, FollowsMendel) {
  const Locus locus = recessive();
  expect_chances(locus, "e/e", tarnbrook, {0, 0.5, 1});
  expect_chances(locus, "e/e", plain, {1, 0.5, 0});
  expect_chances(locus, "+/e", tarnbrook, {0, 0.25, 0.5});
  expect_chances(locus, "+/+", tarnbrook, {0, 0, 0});
}

// A Z-linked recessive, states +/+ +/e e/e +/W e/W. A male with an e/W female: of his offspring
// (sons and daughters) 0, 1/2 and all show it. An e/W female is no partner of a female.
TEST(OffspringChance, IsZeroWithAPartnerOfTheSameSex) {
  const Locus z = recessive(Chromosome::z);
  expect_chances(z, "e/W", tarnbrook, {0, 0.5, 1, 0, 0});
  // A female with an e/e male: her daughters all show it, her sons where she gives them e.
  expect_chances(z, "e/e", tarnbrook, {0, 0, 0, 0.5, 1});
  expect_chances(z, "+/e", plain, {0, 0, 0, 0.75, 0.5});
}

// X-linked, states +/+ +/e e/e +/Y e/Y: a carrier dam and a clear sire have 1/4 visuals, all sons.
TEST(OffspringChance, MirrorsItOnX) {
  const Locus x = recessive(Chromosome::x);
  expect_chances(x, "+/Y", tarnbrook, {0, 0.25, 0.5, 0, 0});
  expect_chances(x, "+/e", tarnbrook, {0, 0, 0, 0.25, 0.5});
}

// Where half of the visuals die before they are counted, +/e x +/e has 1/8 against 6/8: one in
// seven; with a lethal none, and e/e x e/e has no living offspring at all.
TEST(OffspringChance, CountsTheLivingAlone) {
  expect_chances(recessive(Chromosome::autosome, 0.5), "+/e", tarnbrook, {0, 1.0 / 7, 1.0 / 3});
  const Locus lethal = recessive(Chromosome::autosome, 0);
  expect_chances(lethal, "+/e", tarnbrook, {0, 0, 0});
  expect_chances(lethal, "+/e", plain, {1, 1, 1});
  expect_chances(lethal, "e/e", plain, {1, 1, 0});
}

RC_GTEST_PROP(OffspringChanceProperty, SumsToOneForThoseWhoCanHaveOffspring, ()) {
  const Locus locus =
      recessive(*rc::gen::element(Chromosome::autosome, Chromosome::x, Chromosome::z),
                *rc::gen::inRange(1, 9) / 4.0);
  const auto partner = *rc::gen::inRange<std::size_t>(0, locus.size());
  const auto of_plain = offspring_chance(locus, partner, plain);
  const auto of_tarnbrook = offspring_chance(locus, partner, tarnbrook);
  for (std::size_t g = 0; g < locus.size(); ++g) {
    const bool pair =
        !locus.sex_linked() || locus.genotypes()[g].sex != locus.genotypes()[partner].sex;
    RC_ASSERT(std::abs(of_plain[g] + of_tarnbrook[g] - (pair ? 1.0 : 0.0)) < 1e-12);
  }
}

TEST(BroodLikelihood, IsAProductOverOffspring) {
  const Locus locus = recessive();
  const auto tables = brood_likelihood(locus, *locus.find("+/e"), {{plain, 3}, {tarnbrook, 2}});
  ASSERT_EQ(tables.size(), 1U);
  EXPECT_EQ(tables[0][0], 0.0);
  EXPECT_NEAR(tables[0][1], 27.0 / 1024, 1e-16);  // (3/4)^3 (1/4)^2
  EXPECT_NEAR(tables[0][2], 1.0 / 32, 1e-16);
}

TEST(BroodLikelihood, OfNoOffspringSaysNothing) {
  const Locus locus = recessive();
  const auto tables = brood_likelihood(locus, *locus.find("e/e"), {});
  ASSERT_EQ(tables.size(), 1U);
  for (const double p : tables[0]) EXPECT_EQ(p, 1.0);
}

// 10,000 plain offspring of a test mating: 2^-10000 in no double, yet in the product of the tables.
TEST(BroodLikelihood, SharesAVeryLargeBroodOut) {
  const Locus locus = recessive();
  const auto tables = brood_likelihood(locus, *locus.find("e/e"), {{plain, 10'000}});
  double logarithm = 0;
  for (const auto& table : tables) {
    EXPECT_EQ(table[0], 1.0);
    EXPECT_GT(table[1], 1e-151);
    EXPECT_EQ(table[2], 0.0);
    logarithm += std::log(table[1]);
  }
  EXPECT_NEAR(logarithm, -10'000 * std::log(2.0), 1e-8);
}

double carrier_after(int plain_offspring, const std::string& partner, double chance) {
  RecordsBuilder records;
  records.founder("M").bought_as("tarnbrook", {{"+/+", 1 - chance}, {"+/e", chance}});
  records.brood("M", "tarnbrook", partner, {{"plain", plain_offspring}});
  return SolvedColony(support::recessive_model(), records).posterior("M", "+/e");
}

// p / (p + (1 - p) 2^n) with a visual partner, (3/4)^n with a carrier; the counts at which a claim
// falls below one in twenty: 5 and 11 for a half, 6 and 13 for two thirds.
TEST(Brood, PushesAClaimBelowOneInTwentyWithEnoughOffspring) {
  EXPECT_NEAR(carrier_after(4, "e/e", 0.5), 1.0 / 17, 1e-14);
  EXPECT_NEAR(carrier_after(5, "e/e", 0.5), 1.0 / 33, 1e-14);
  EXPECT_GT(carrier_after(10, "+/e", 0.5), 0.05);
  EXPECT_LT(carrier_after(11, "+/e", 0.5), 0.05);
  EXPECT_GT(carrier_after(5, "e/e", 2.0 / 3), 0.05);
  EXPECT_LT(carrier_after(6, "e/e", 2.0 / 3), 0.05);
  EXPECT_GT(carrier_after(12, "+/e", 2.0 / 3), 0.05);
  EXPECT_LT(carrier_after(13, "+/e", 2.0 / 3), 0.05);
}

// One visual proves the carrier, and belongs to the first layer.
TEST(Brood, OfOneVisualProves) {
  RecordsBuilder records;
  records.founder("M", std::nullopt, "bought").shows("M", "tarnbrook", "plain");
  records.brood("M", "tarnbrook", "e/e", {{"plain", 9}, {"tarnbrook", 1}});
  const SolvedColony solved(support::recessive_model(), records);
  EXPECT_EQ(solved.posterior("M", "+/e"), 1.0);
  EXPECT_EQ(solved.pedigree("M", "+/e"), 1.0);
}

// Two broods and one with all the offspring say the same.
TEST(Brood, MayBeToldInParts) {
  RecordsBuilder parts;
  parts.founder("M", std::nullopt, "bought");
  parts.brood("M", "tarnbrook", "+/e", {{"plain", 4}})
      .brood("M", "tarnbrook", "+/e", {{"plain", 7}});
  RecordsBuilder whole;
  whole.founder("M", std::nullopt, "bought").brood("M", "tarnbrook", "+/e", {{"plain", 11}});
  const SolvedColony in_parts(support::recessive_model(), parts);
  const SolvedColony at_once(support::recessive_model(), whole);
  for (const char* key : {"+/+", "+/e", "e/e"}) {
    EXPECT_NEAR(in_parts.posterior("M", key), at_once.posterior("M", key), 1e-14);
  }
  EXPECT_NEAR(in_parts.odds().log_evidence, at_once.odds().log_evidence, 1e-12);
}

// An animal of unknown sex that bred with an e/W female is a male.
TEST(Brood, TellsTheSexOfItsParent) {
  auto model = support::sex_linked_model(Chromosome::z);
  RecordsBuilder records;
  records.founder("M", std::nullopt, "bought").brood("M", "tarnbrook", "e/W", {{"plain", 1}});
  const SolvedColony solved(model, records);
  EXPECT_EQ(solved.posterior("M", "+/W"), 0.0);
  EXPECT_EQ(solved.posterior("M", "e/W"), 0.0);
  // 0.98^2 x 1 against 2 x 0.98 x 0.02 x 1/2.
  EXPECT_NEAR(solved.posterior("M", "+/e"), 0.0196 / (0.9604 + 0.0196), 1e-14);
}

}  // namespace
}  // namespace likelihet::odds::evidence_brood_test
