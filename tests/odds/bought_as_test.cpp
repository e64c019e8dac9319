// What a seller said: claims, how far they are trusted, and what speaks against them.
#include <cmath>
#include <string>

#include <gtest/gtest.h>
#include <support/solved_colony.hpp>

namespace likelihet::odds::bought_as_test {
namespace {

using genetics::Chromosome;
using genetics::Sex;
using support::RecordsBuilder;
using support::SolvedColony;

RecordsBuilder claimed(colony::Named<double> odds, std::optional<double> trust,
                       std::optional<std::string> origin = "bought") {
  RecordsBuilder records;
  records.founder("F", std::nullopt, std::move(origin));
  records.bought_as("tarnbrook", std::move(odds), trust);
  return records;
}

// trust x odds + (1 - trust) x Hardy-Weinberg of 2 %: 0.9604, 0.0392, 0.0004.
TEST(BoughtAs, IsMixedWithThePriorByItsTrust) {
  const SolvedColony solved(support::recessive_model(),
                            claimed({{"+/+", 0.34}, {"+/e", 0.66}}, 0.9));
  EXPECT_NEAR(solved.pedigree("F", "+/+"), 0.306 + 0.09604, 1e-15);
  EXPECT_NEAR(solved.pedigree("F", "+/e"), 0.594 + 0.00392, 1e-15);
  EXPECT_NEAR(solved.pedigree("F", "e/e"), 0.00004, 1e-15);
}

TEST(BoughtAs, WithoutATrustIsTakenAtItsWord) {
  const SolvedColony solved(support::recessive_model(), claimed({{"+/e", 1.0}}, std::nullopt));
  EXPECT_EQ(solved.pedigree("F", "+/e"), 1.0);
}

TEST(BoughtAs, OfNoTrustSaysNothing) {
  const SolvedColony solved(support::recessive_model(), claimed({{"+/e", 1.0}}, 0.0));
  EXPECT_NEAR(solved.pedigree("F", "+/e"), 0.0392, 1e-15);
}

// Without an origin the rest is all first allele: 95 % trusted "carrier" leaves 5 % clear.
TEST(BoughtAs, WithoutAnOriginFallsBackToTheFirstAllele) {
  const SolvedColony solved(support::recessive_model(),
                            claimed({{"+/e", 1.0}}, 0.95, std::nullopt));
  EXPECT_NEAR(solved.pedigree("F", "+/+"), 0.05, 1e-15);
  EXPECT_NEAR(solved.pedigree("F", "+/e"), 0.95, 1e-15);
}

// Plain offspring of a visual partner push the 95 % claim below one in twenty at the ninth:
// 19 / 2^n against 1 falls below 1/19 where 2^n > 361.
TEST(BoughtAs, FallsWithPlainOffspring) {
  for (const int offspring : {8, 9}) {
    auto records = claimed({{"+/e", 1.0}}, 0.95, std::nullopt);
    records.brood("F", "tarnbrook", "e/e", {{"plain", offspring}});
    const double odds = 19 / std::pow(2.0, offspring);
    EXPECT_NEAR(SolvedColony(support::recessive_model(), records).posterior("F", "+/e"),
                odds / (1 + odds), 1e-14);
    EXPECT_EQ(odds / (1 + odds) < 0.05, offspring == 9);
  }
}

// A claim at one locus says nothing of another.
TEST(BoughtAs, IsOfOneLocus) {
  auto model = support::masked_model();
  model.origins[0].frequencies.push_back({"brackmoor", {{"s", 0.5}}});
  const SolvedColony solved(model, claimed({{"+/e", 1.0}}, 1.0));
  EXPECT_NEAR(solved.pedigree("F", "+/s", "brackmoor"), 0.5, 1e-15);
}

// On Z the keys of each sex are renormalised on their own; each sex is still 1/2.
TEST(BoughtAs, OnZKeepsTheSexesEven) {
  RecordsBuilder records;
  records.founder("F", std::nullopt, "bought");
  records.bought_as("tarnbrook", {{"+/e", 0.2}, {"e/e", 0.2}, {"e/W", 0.6}}, 0.5);
  const SolvedColony solved(support::sex_linked_model(Chromosome::z), records);
  // Male: 1/2 of (0.5 x (0, 1/2, 1/2) + 0.5 x (0.9604, 0.0392, 0.0004)).
  EXPECT_NEAR(solved.pedigree("F", "+/+"), 0.25 * 0.9604, 1e-15);
  EXPECT_NEAR(solved.pedigree("F", "+/e"), 0.25 * (0.5 + 0.0392), 1e-15);
  EXPECT_NEAR(solved.pedigree("F", "e/e"), 0.25 * (0.5 + 0.0004), 1e-15);
  EXPECT_NEAR(solved.pedigree("F", "+/W"), 0.25 * 0.98, 1e-15);
  EXPECT_NEAR(solved.pedigree("F", "e/W"), 0.25 * (1 + 0.02), 1e-15);
}

// A claim that names the keys of one sex alone says nothing of the other.
TEST(BoughtAs, OnZOfOneSexLeavesTheOther) {
  RecordsBuilder records;
  records.founder("F", std::nullopt, "bought").bought_as("tarnbrook", {{"+/e", 1.0}});
  const SolvedColony solved(support::sex_linked_model(Chromosome::z), records);
  EXPECT_NEAR(solved.pedigree("F", "+/e"), 0.5, 1e-15);
  EXPECT_NEAR(solved.pedigree("F", "e/W"), 0.01, 1e-15);
}

// With the sex recorded only its keys count.
TEST(BoughtAs, OnZOfAKnownSex) {
  RecordsBuilder records;
  records.founder("F", Sex::male, "bought")
      .bought_as("tarnbrook", {{"+/+", 0.5}, {"+/e", 0.5}}, 0.8);
  const SolvedColony solved(support::sex_linked_model(Chromosome::z), records);
  EXPECT_NEAR(solved.pedigree("F", "+/e"), 0.8 * 0.5 + 0.2 * 0.0392, 1e-15);
}

// Believed without doubt and shown to be wrong: the claim is no observation, so the record stands
// alone in what contradicts it.
TEST(BoughtAs, OfFullTrustCanBeContradicted) {
  auto records = claimed({{"+/+", 1.0}}, 1.0);
  records.shows("F", "tarnbrook", "tarnbrook");
  const auto colony = support::colony_of(support::recessive_model(), records);
  const auto clash = support::clash_of(colony);
  EXPECT_EQ(support::ids_of(colony, clash.observations), (std::vector<std::string>{"o1"}));
}

// The least doubt leaves room: 1e-9 of 0.0004, and it is certain all the same once seen.
TEST(BoughtAs, OfNearlyFullTrustGivesWay) {
  auto records = claimed({{"+/+", 1.0}}, 1 - 1e-9);
  records.shows("F", "tarnbrook", "tarnbrook");
  const SolvedColony solved(support::recessive_model(), records);
  EXPECT_EQ(solved.posterior("F", "e/e"), 1.0);
  EXPECT_NEAR(solved.odds().log_evidence, std::log(0.0004e-9), 1e-6);
}

}  // namespace
}  // namespace likelihet::odds::bought_as_test
