// Expected counts, worked by hand on a few animals.
#include <cmath>

#include "learning/learning_colony.hpp"

namespace likelihet::learning::expectation_test {
namespace {

using support::recessive_model;
using support::RecordsBuilder;

// A founder of "bought" whose marker reads "strong", once, for sure. Hardy-Weinberg at 0.02:
// 0.9604, 0.0392, 0.0004; P(clear) is 0.05, 0.4, 0.5.
TEST(Expectation, AnUnverifiedAnimalCountsByItsOdds) {
  const Ready ready(recessive_model(), RecordsBuilder()
                                           .founder("F", std::nullopt, "bought")
                                           .score("F", "crown-fleck", "strong")
                                           .records);
  Expecting expecting(ready.prepared(), ready.model());
  const auto found = expecting.at(ready.believed());
  ASSERT_TRUE(found);
  const double whole = 0.9604 * 0.05 + 0.0392 * 0.4 + 0.0004 * 0.5;
  EXPECT_NEAR(found->log_evidence, std::log(whole), 1e-12);
  const auto& rows = found->counts.rows[0][0];  // e/e, +/e, all others
  EXPECT_NEAR(rows[0][2], 0.0004 * 0.5 / whole, 1e-12);
  EXPECT_NEAR(rows[1][2], 0.0392 * 0.4 / whole, 1e-12);
  EXPECT_NEAR(rows[2][2], 0.9604 * 0.05 / whole, 1e-12);
  EXPECT_EQ(rows[1][0], 0);
  // Two copies of e at e/e, one at +/e.
  EXPECT_NEAR(found->counts.origins[0][0][1], (2 * 0.0004 * 0.5 + 0.0392 * 0.4) / whole, 1e-12);
  EXPECT_NEAR(found->counts.origins[0][0][0] + found->counts.origins[0][0][1], 2, 1e-12);
}

// A reading by ana (0.95): P(level | row, read) = expect x r / sum, with r = 0.95 at "strong" and
// 0.025 elsewhere.
TEST(Expectation, AnUnsureReadingSpreadsOverLevelsAndItsScorer) {
  const Ready ready(recessive_model(), RecordsBuilder()
                                           .founder("F", std::nullopt, "bought")
                                           .shows("F", "tarnbrook", "tarnbrook")
                                           .score("F", "crown-fleck", "strong", "ana")
                                           .records);
  Expecting expecting(ready.prepared(), ready.model());
  const auto found = expecting.at(ready.believed());
  const double whole = 0.2 * 0.025 + 0.3 * 0.025 + 0.5 * 0.95;
  const auto& row = found->counts.rows[0][0][0];
  EXPECT_NEAR(row[0], 0.2 * 0.025 / whole, 1e-12);
  EXPECT_NEAR(row[2], 0.5 * 0.95 / whole, 1e-12);
  EXPECT_NEAR(found->counts.scorers[0].right, row[2], 1e-12);
  EXPECT_NEAR(found->counts.scorers[0].wrong, 1 - row[2], 1e-12);
}

// A reading with a chance of its own teaches nothing of its scorer.
TEST(Expectation, AReadingsOwnSureLeavesItsScorerAlone) {
  const Ready ready(recessive_model(), RecordsBuilder()
                                           .founder("F", std::nullopt, "bought")
                                           .score("F", "crown-fleck", "strong", "ana")
                                           .sure(0.8)
                                           .records);
  Expecting expecting(ready.prepared(), ready.model());
  const auto found = expecting.at(ready.believed());
  EXPECT_EQ(found->counts.scorers[0].right + found->counts.scorers[0].wrong, 0);
}

// A weight of a half counts each animal by half.
TEST(Expectation, AWeightedMarkerCountsItsWeight) {
  auto description = recessive_model();
  description.markers[0].weight = 0.5;
  const Ready ready(description, RecordsBuilder()
                                     .founder("F", std::nullopt, "bought")
                                     .score("F", "crown-fleck", "faint")
                                     .records);
  Expecting expecting(ready.prepared(), ready.model());
  double sum = 0;
  const auto found = expecting.at(ready.believed());
  for (const auto& row : found->counts.rows[0][0]) {
    for (double count : row) sum += count;
  }
  EXPECT_NEAR(sum, 0.5, 1e-12);
}

// Sold as a sure carrier with trust 1/2, in a population at q = 0.02: the claim and the population
// say +/e with 1/2 and 1/2 x 0.0392; given +/e the population stands behind it with 0.0392/1.0392.
TEST(Expectation, AClaimSharesWhatItExplains) {
  const Ready ready(recessive_model(), RecordsBuilder()
                                           .founder("F", std::nullopt, "bought")
                                           .bought_as("tarnbrook", {{"+/e", 1.0}}, 0.5)
                                           .result("F", "shed-pcr", "no-call")
                                           .records);
  Expecting expecting(ready.prepared(), ready.model());
  const auto found = expecting.at(ready.believed());
  // The report says nothing. Alleles of e: from +/e by the population, and two of e/e.
  EXPECT_NEAR(found->counts.origins[0][0][1], 0.5 * 0.0392 + 2 * 0.5 * 0.0004, 1e-12);
}

// e/e dies before it is recorded: at q = 1/2 a quarter of the offspring were, so that one alive
// stands for a third of one dead, with two e.
TEST(Expectation, FoundersStandForThoseWhoDidNotLive) {
  auto description = recessive_model();
  description.loci[0].viability = {{"e/e", 0.0}};
  description.origins[0].frequencies = {{"tarnbrook", {{"e", 0.5}}}};
  const Ready ready(description, RecordsBuilder().founder("F", std::nullopt, "bought").records);
  Expecting expecting(ready.prepared(), ready.model());
  const auto found = expecting.at(ready.believed());
  // Alive: +/+ 1/3, +/e 2/3.
  EXPECT_NEAR(found->counts.origins[0][0][1], 2.0 / 3 + 2.0 / 3, 1e-12);
  EXPECT_NEAR(found->counts.origins[0][0][0], 2.0 / 3 + 2.0 / 3, 1e-12);
}

// An X locus: a founder of unknown sex brings two alleles or one.
TEST(Expectation, SexLinkedFoundersCountTheirChromosomes) {
  const Ready ready(support::sex_linked_model(genetics::Chromosome::x),
                    RecordsBuilder()
                        .founder("D", genetics::Sex::female, "bought")
                        .founder("S", genetics::Sex::male, "bought")
                        .records);
  Expecting expecting(ready.prepared(), ready.model());
  const auto found = expecting.at(ready.believed());
  const auto& alleles = found->counts.origins[0][0];
  EXPECT_NEAR(alleles[0] + alleles[1], 3, 1e-12);
  EXPECT_NEAR(alleles[1], 3 * 0.02, 1e-12);
}

// A marker that reads two loci joins them; its rows share one animal among their joint genotypes.
TEST(Expectation, AMarkOfTwoLociCountsJointGenotypes) {
  auto description = support::masked_model();
  description.markers[0].contexts.clear();
  description.markers[0].rows = {
      {{{"tarnbrook", "+/e"}, {"brackmoor", "+/s"}}, {0.1, 0.2, 0.7}, 4.0},
      {{{"tarnbrook", "+/e"}}, {0.3, 0.3, 0.4}, 8.0},
      {{}, {0.8, 0.15, 0.05}, 8.0}};
  description.origins[0].frequencies = {{"tarnbrook", {{"e", 0.5}}}, {"brackmoor", {{"s", 0.5}}}};
  const Ready ready(description, RecordsBuilder()
                                     .founder("F", std::nullopt, "bought")
                                     .score("F", "crown-fleck", "strong")
                                     .records);
  Expecting expecting(ready.prepared(), ready.model());
  const auto found = expecting.at(ready.believed());
  // Joint genotypes at one half each: +/e and +/s 1/4; +/e otherwise 1/4; all others 1/2.
  const double whole = 0.25 * 0.7 + 0.25 * 0.4 + 0.5 * 0.05;
  const auto& rows = found->counts.rows[0][0];
  EXPECT_NEAR(rows[0][2], 0.25 * 0.7 / whole, 1e-12);
  EXPECT_NEAR(rows[1][2], 0.25 * 0.4 / whole, 1e-12);
  EXPECT_NEAR(rows[2][2], 0.5 * 0.05 / whole, 1e-12);
}

}  // namespace
}  // namespace likelihet::learning::expectation_test
