// When a truth became known, and by what.
#include <cmath>

#include "audit/simulated_season.hpp"
#include <gtest/gtest.h>

#include <likelihet/audit/truths.hpp>

namespace likelihet::audit::truths_test {
namespace {

using support::RecordsBuilder;

RecordsBuilder clutch_of_a_carrier() {
  RecordsBuilder records;
  records.founder("F", genetics::Sex::female, "bought").bought_as("tarnbrook", {{"+/e", 1.0}}, 1.0);
  records.founder("M", genetics::Sex::male).clutch("C", "F", {"M"});
  records.clutch_record().hatched = support::day("2026-06-01");
  for (const char* id : {"H1", "H2"}) records.hatchling(id, "C");
  return records;
}

std::vector<Truth> of_tarnbrook(const RecordsBuilder& records, const TruthSettings& settings = {}) {
  const auto colony = support::colony_of(support::made(season_model({})), records.records);
  auto found = std::get<std::vector<Truth>>(truths(colony, settings));
  std::erase_if(found, [&](const Truth& truth) {
    return truth.event.locus != 0 || !colony.animals()[truth.event.animal].clutch;
  });
  return found;
}

TEST(Truths, AreKnownFromTheDayOfTheirResult) {
  auto records = clutch_of_a_carrier();
  records.result("H1", "tarnbrook-test", "clear").on("2026-08-01");
  const auto found = of_tarnbrook(records);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].known_on->text(), "2026-08-01");
  EXPECT_EQ(found[0].kind, Kind::test);
  EXPECT_FALSE(found[0].so());
  // 0.0005 / (0.0005 + 0.999), by Bayes' rule at even odds.
  EXPECT_NEAR(found[0].probability, 0.0005 / 0.9995, 1e-12);
}

TEST(Truths, LooserThresholdsMakeMoreKnown) {
  auto records = clutch_of_a_carrier();
  records.brood("H1", "tarnbrook", "+/e", {{"plain", 14}}).on("2027-08-01");
  // Fourteen plain offspring by a carrier: even odds times 0.75^14, that is 1.75 %.
  EXPECT_TRUE(of_tarnbrook(records).empty());
  TruthSettings loose;
  loose.no = 0.02;
  const auto found = of_tarnbrook(records, loose);
  ASSERT_EQ(found.size(), 1U);
  const double odds = std::pow(0.75, 14);
  EXPECT_NEAR(found[0].probability, odds / (1 + odds), 1e-12);
  EXPECT_EQ(found[0].kind, Kind::breeding);
}

TEST(Truths, SeveralRecordsTogetherMakeKnownOnTheLastOfTheirDays) {
  auto records = clutch_of_a_carrier();
  records.brood("H1", "tarnbrook", "+/e", {{"plain", 10}}).on("2027-08-01");
  records.brood("H1", "tarnbrook", "+/e", {{"plain", 10}}).on("2028-08-01");
  const auto found = of_tarnbrook(records);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].known_on->text(), "2028-08-01");
}

// The first report was taken back, the second says the contrary: the day is that of the first, when
// the book first claimed to know; the truth is that of the end.
TEST(Truths, AreDatedByTheFirstClaimAndJudgedByTheLast) {
  auto records = clutch_of_a_carrier();
  records.result("H1", "tarnbrook-test", "carrier").on("2026-08-01");
  records.withdraw("o1").on("2026-08-10");
  records.result("H1", "tarnbrook-test", "clear").on("2026-08-12");
  const auto found = of_tarnbrook(records);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].known_on->text(), "2026-08-01");
  EXPECT_FALSE(found[0].so());
}

TEST(Truths, WhatWasTakenBackIsNotKnown) {
  auto records = clutch_of_a_carrier();
  records.result("H1", "tarnbrook-test", "carrier").on("2026-08-01");
  records.withdraw("o1").on("2026-08-10");
  EXPECT_TRUE(of_tarnbrook(records).empty());
}

TEST(Truths, OfAnEarlierDayKnowNothingLater) {
  auto records = clutch_of_a_carrier();
  records.result("H1", "tarnbrook-test", "carrier").on("2026-08-01");
  records.result("H2", "tarnbrook-test", "carrier").on("2026-09-01");
  TruthSettings then;
  then.as_of = support::day("2026-08-15");
  EXPECT_EQ(of_tarnbrook(records, then).size(), 1U);
  EXPECT_EQ(of_tarnbrook(records).size(), 2U);
}

// A sibling's proof of the dam makes nothing of the other sibling; the sire's own result does.
TEST(Truths, ThroughRelativesAreToldAsSuch) {
  RecordsBuilder records;
  records.founder("F", genetics::Sex::female, "bought");
  records.shows("F", "tarnbrook", "tarnbrook").on("2026-09-01");
  records.founder("M", genetics::Sex::male).clutch("C", "F", {"M"});
  records.clutch_record().hatched = support::day("2026-06-01");
  records.hatchling("H1", "C");
  const auto found = of_tarnbrook(records);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].kind, Kind::relatives);
  EXPECT_TRUE(found[0].so());
}

TEST(Truths, ScoresTellNothing) {
  auto records = clutch_of_a_carrier();
  const auto model = support::made(season_model(
      {{"crown-fleck", 2, [](const Hatchling&) { return std::vector<double>{}; }, false}}));
  for (int i = 0; i < 30; ++i) {
    records.score("H1", "crown-fleck", "level-1").on("2026-07-01");
  }
  const auto colony = support::colony_of(model, records.records);
  const auto found = truths(colony, {});
  for (const Truth& truth : std::get<std::vector<Truth>>(found)) {
    EXPECT_FALSE(truth.event.locus == 0 && colony.animals()[truth.event.animal].clutch);
  }
}

TEST(Truths, ADayOnWhichRecordsClashMakesNothingKnown) {
  auto records = clutch_of_a_carrier();
  // H1 shows the trait, which its clear sire cannot give; taken back a day later.
  records.shows("H1", "tarnbrook", "tarnbrook").on("2026-07-01");
  records.withdraw("o1").on("2026-07-02");
  records.result("H2", "tarnbrook-test", "carrier").on("2026-08-01");
  const auto found = of_tarnbrook(records);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].known_on->text(), "2026-08-01");
}

}  // namespace
}  // namespace likelihet::audit::truths_test
