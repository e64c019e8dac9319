// What an animal shows as a likelihood: full, partial and shared appearances.
#include <cmath>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <support/solved_colony.hpp>

#include <likelihet/odds/evidence_appearance.hpp>

namespace likelihet::odds::evidence_appearance_test {
namespace {

using support::RecordsBuilder;
using support::SolvedColony;

TEST(AppearanceLikelihood, IsOneOrZeroForAFullyShownRecessive) {
  const auto model = support::made(support::recessive_model());
  const auto& locus = model->loci()[0];
  EXPECT_EQ(appearance_likelihood(locus, *locus.find_appearance("plain")),
            (std::vector<double>{1, 1, 0}));
  EXPECT_EQ(appearance_likelihood(locus, *locus.find_appearance("tarnbrook")),
            (std::vector<double>{0, 0, 1}));
}

// One visual in a hundred is taken for plain, and every second carrier shows a little of it.
colony::ModelDescription soft() {
  auto model = support::recessive_model();
  model.loci[0].appearance = {{"default", {{"plain", 1.0}}},
                              {"+/e", {{"plain", 0.5}, {"dusted", 0.5}}},
                              {"e/e", {{"tarnbrook", 0.99}, {"plain", 0.01}}}};
  return model;
}

TEST(AppearanceLikelihood, SumsToOneForEachGenotype) {
  const auto model = support::made(soft());
  const auto& locus = model->loci()[0];
  std::vector<double> sums(locus.size(), 0.0);
  for (std::size_t s = 0; s < locus.appearances().size(); ++s) {
    const auto likelihood = appearance_likelihood(locus, s);
    ASSERT_EQ(likelihood.size(), locus.size());
    for (std::size_t g = 0; g < sums.size(); ++g) sums[g] += likelihood[g];
  }
  for (const double sum : sums) EXPECT_NEAR(sum, 1, 1e-15);
}

// A hatchling of two hets: 1/4, 1/2, 1/4 before. Plain leaves 1/4 : 1/4 : 1/400 of them.
TEST(Appearance, WeighsWhatShowsInPart) {
  RecordsBuilder records;
  records.founder("D").bought_as("tarnbrook", {{"+/e", 1.0}});
  records.founder("S").bought_as("tarnbrook", {{"+/e", 1.0}});
  records.clutch("C", "D", {"S"}).hatchling("H", "C").hatchling("I", "C");
  records.shows("H", "tarnbrook", "plain").shows("I", "tarnbrook", "dusted");
  const SolvedColony solved(soft(), records);
  const double whole = 0.25 + 0.25 + 0.0025;
  EXPECT_NEAR(solved.pedigree("H", "+/+"), 0.25 / whole, 1e-14);
  EXPECT_NEAR(solved.pedigree("H", "+/e"), 0.25 / whole, 1e-14);
  EXPECT_NEAR(solved.pedigree("H", "e/e"), 0.0025 / whole, 1e-14);
  EXPECT_EQ(solved.pedigree("I", "+/e"), 1.0);
  EXPECT_NEAR(solved.odds().log_evidence, std::log(whole) + std::log(0.25), 1e-14);
}

// A plain hatchling of two hets is a carrier with 2/3 (Mendel 1866).
TEST(Appearance, LeavesTwoThirds) {
  RecordsBuilder records;
  records.founder("D").bought_as("tarnbrook", {{"+/e", 1.0}});
  records.founder("S").bought_as("tarnbrook", {{"+/e", 1.0}});
  records.clutch("C", "D", {"S"}).hatchling("H", "C").shows("H", "tarnbrook", "plain");
  EXPECT_NEAR(SolvedColony(support::recessive_model(), records).posterior("H", "+/e"), 2.0 / 3,
              1e-15);
}

// Seen twice is seen once where the look is certain; where it is not, each look counts.
TEST(Appearance, SeenAgainCountsAsOftenAsItIsRecorded) {
  RecordsBuilder records;
  records.founder("F").bought_as("tarnbrook", {{"+/+", 0.5}, {"e/e", 0.5}});
  records.shows("F", "tarnbrook", "plain").shows("F", "tarnbrook", "plain");
  EXPECT_NEAR(SolvedColony(soft(), records).posterior("F", "e/e"), 0.0001 / 1.0001, 1e-16);
  EXPECT_EQ(SolvedColony(support::recessive_model(), records).posterior("F", "e/e"), 0.0);
}

// A visual offspring proves both plain parents.
TEST(Appearance, OfAOffspringProvesItsParents) {
  RecordsBuilder records;
  records.founder("D", std::nullopt, "bought").founder("S", std::nullopt, "bought");
  records.clutch("C", "D", {"S"}).hatchling("H", "C").shows("H", "tarnbrook", "tarnbrook");
  records.shows("D", "tarnbrook", "plain").shows("S", "tarnbrook", "plain");
  const SolvedColony solved(support::recessive_model(), records);
  EXPECT_EQ(solved.posterior("D", "+/e"), 1.0);
  EXPECT_EQ(solved.posterior("S", "+/e"), 1.0);
  EXPECT_EQ(solved.posterior("H", "e/e"), 1.0);
  // (2 x 0.98 x 0.02)^2 / 4, the chance of two hets and of the visual out of them.
  EXPECT_NEAR(solved.odds().log_evidence, 2 * std::log(0.0392) - std::log(4.0), 1e-13);
}

// A locus with no appearance given shows one thing: to see it says nothing.
TEST(Appearance, OfTheOnlyKindSaysNothing) {
  auto model = support::recessive_model();
  model.loci[0].appearance.clear();
  RecordsBuilder records;
  records.founder("F", std::nullopt, "bought").shows("F", "tarnbrook", "plain");
  const SolvedColony solved(model, records);
  EXPECT_NEAR(solved.posterior("F", "+/e"), 0.0392, 1e-15);
  EXPECT_NEAR(solved.odds().log_evidence, 0, 1e-15);
}

}  // namespace
}  // namespace likelihet::odds::evidence_appearance_test
