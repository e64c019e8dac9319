// Odds without markers, and who descends from whom.
#include "support/small_model.hpp"
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <likelihet/audit/markerless.hpp>
#include <likelihet/colony/family.hpp>

namespace likelihet::audit::markerless_test {
namespace {

using support::RecordsBuilder;
using testing::ElementsAre;

constexpr std::size_t memory = std::size_t{1} << 28U;

// Two hets and their plain offspring, one of them scored.
RecordsBuilder two_carriers() {
  RecordsBuilder records;
  records.founder("D", genetics::Sex::female, "bought").bought_as("tarnbrook", {{"+/e", 1.0}}, 1.0);
  records.founder("S", genetics::Sex::male, "bought").bought_as("tarnbrook", {{"+/e", 1.0}}, 1.0);
  records.clutch("C", "D", {"S"});
  for (const char* id : {"H1", "H2"}) records.hatchling(id, "C").shows(id, "tarnbrook", "plain");
  records.score("H1", "crown-fleck", "strong");
  return records;
}

colony::Colony made(const RecordsBuilder& records) {
  return support::colony_of(support::made(support::recessive_model()), records.records);
}

std::vector<genetics::CopyChances> copies(const colony::Colony& colony) {
  auto found = markerless_copies(odds::scenario(colony, std::nullopt), events_of(colony), memory);
  return std::get<std::vector<genetics::CopyChances>>(std::move(found));
}

TEST(Markerless, PlainOffspringOfTwoCarriersAreTwoThirdsWhateverWasScored) {
  const auto found = copies(made(two_carriers()));
  for (std::size_t hatchling : {2U, 3U}) {
    EXPECT_NEAR(found[hatchling].one, 2.0 / 3, 1e-12);
    EXPECT_NEAR(found[hatchling].none, 1.0 / 3, 1e-12);
    EXPECT_NEAR(found[hatchling].two, 0, 1e-12);
  }
  EXPECT_NEAR(found[0].one, 1, 1e-12);
}

TEST(Markerless, CopiesSumToOne) {
  auto records = two_carriers();
  records.founder("X", std::nullopt, "bought").hatchling("H3", "C");
  for (const genetics::CopyChances& one : copies(made(records))) {
    EXPECT_NEAR(one.none + one.one + one.two, 1, 1e-12);
  }
}

// Hardy and Weinberg at 2 %: 0.9604, 0.0392, 0.0004.
TEST(Markerless, AFounderHasItsOriginsShares) {
  RecordsBuilder records;
  records.founder("X", std::nullopt, "bought");
  const auto found = copies(made(records));
  EXPECT_NEAR(found[0].none, 0.9604, 1e-12);
  EXPECT_NEAR(found[0].one, 0.0392, 1e-12);
  EXPECT_NEAR(found[0].two, 0.0004, 1e-12);
}

// A female has one Z: e/W is one copy, and never two.
TEST(Markerless, TheOneCopySexHasOneCopyAtMost) {
  RecordsBuilder records;
  records.founder("D", genetics::Sex::female, "bought");
  records.shows("D", "tarnbrook", "tarnbrook");
  const auto colony = support::colony_of(
      support::made(support::sex_linked_model(genetics::Chromosome::z)), records.records);
  const auto found = copies(colony);
  EXPECT_NEAR(found[0].one, 1, 1e-12);
  EXPECT_NEAR(found[0].two, 0, 1e-12);
}

TEST(Markerless, EventsAreByAnimalLocusAndAllele) {
  auto model = support::masked_model();
  model.loci[0].alleles.emplace_back("f");
  model.assays.clear();
  model.loci[0].appearance = {{"default", {{"plain", 1.0}}}};
  RecordsBuilder records;
  records.founder("A").founder("B");
  const auto events = events_of(support::colony_of(support::made(model), records.records));
  const std::vector<Event> expected = {{0, 0, 1}, {0, 0, 2}, {0, 1, 1},
                                       {1, 0, 1}, {1, 0, 2}, {1, 1, 1}};
  EXPECT_EQ(events, expected);
}

TEST(Markerless, WithoutScoresNothingElseIsLeftOut) {
  const auto colony = made(two_carriers());
  const auto whole = odds::scenario(colony, std::nullopt);
  EXPECT_EQ(whole.observations.size(), 3U);
  EXPECT_EQ(without_scores(whole).observations.size(), 2U);
}

TEST(Markerless, ContradictoryEvidenceGivesNoOdds) {
  auto records = two_carriers();
  records.founder("P", genetics::Sex::male).clutch("K", "D", {"P"});
  records.hatchling("K1", "K").shows("K1", "tarnbrook", "tarnbrook");
  EXPECT_TRUE(copies(made(records)).empty());
}

TEST(Markerless, TooLittleMemoryIsToldBeforeAnyWork) {
  RecordsBuilder records;
  records.founder("A", genetics::Sex::female, "bought").founder("B", genetics::Sex::male, "bought");
  records.clutch("C", "A", {"B"}).hatchling("H", "C").shows("H", "tarnbrook", "plain");
  const auto colony = made(records);
  const auto found = event_odds(odds::scenario(colony, std::nullopt),
                                odds::believed(colony.model()), events_of(colony), 16);
  EXPECT_TRUE(std::holds_alternative<odds::TooLarge>(found));
}

TEST(Descent, GoesDownEveryLineAndEveryCandidateSire) {
  RecordsBuilder records;
  records.founder("A", genetics::Sex::female).founder("B", genetics::Sex::male);
  records.founder("X", genetics::Sex::male);
  records.clutch("C1", "A", {"B"}).hatchling("C", "C1", genetics::Sex::female);
  records.clutch("C2", "C", {"X", "B"}).hatchling("E", "C2");
  const auto colony = made(records);
  // Animals in order: A, B, X, C, E.
  EXPECT_THAT(colony::with_descendants(colony, {0}), ElementsAre(true, false, false, true, true));
  EXPECT_THAT(colony::with_descendants(colony, {2}), ElementsAre(false, false, true, false, true));
  EXPECT_THAT(colony::with_descendants(colony, {4}), ElementsAre(false, false, false, false, true));
  EXPECT_THAT(colony::with_descendants(colony, {}), ElementsAre(false, false, false, false, false));
  EXPECT_THAT(colony::with_descendants(colony, {1, 2}), ElementsAre(false, true, true, true, true));
}

}  // namespace
}  // namespace likelihet::audit::markerless_test
