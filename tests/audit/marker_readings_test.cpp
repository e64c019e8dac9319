// Which readings count for which animal, and what they come to.
#include <algorithm>

#include "audit/hand_made.hpp"
#include <gtest/gtest.h>

namespace likelihet::audit::marker_readings_test {
namespace {

using support::day;
using support::RecordsBuilder;

// "thornwick" animals cannot be read for crown-fleck; line north has rows of its own.
std::shared_ptr<const colony::Model> model_with_contexts() {
  auto model = hand_model();
  model.markers[0].contexts = {
      {"brackmoor", "thornwick", std::nullopt, true, {}},
      {std::nullopt, std::nullopt, "north", false, {{{}, {0.5, 0.3, 0.2}, 8.0}}}};
  return support::made(model);
}

RecordsBuilder founders(std::size_t n) {
  return hand_records(std::vector<HandAnimal>(n));
}

std::vector<MarkerReadings> read(const RecordsBuilder& records,
                                 std::vector<std::optional<colony::Date>> before = {},
                                 const std::optional<colony::Date>& as_of = std::nullopt) {
  const auto colony = support::colony_of(model_with_contexts(), records.records);
  before.resize(colony.animals().size());
  return marker_readings(colony, as_of, before);
}

TEST(MarkerReadings, AnAppearanceMasksTheMarker) {
  auto records = founders(3);
  records.score("A0", "crown-fleck", "strong").score("A1", "crown-fleck", "absent");
  records.shows("A0", "brackmoor", "thornwick").on("2026-05-02");
  records.shows("A1", "brackmoor", "plain");
  const auto found = read(records);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].table, 0U);
  EXPECT_EQ(found[0].masked, 1U);
  ASSERT_EQ(found[0].by_animal.size(), 1U);
  EXPECT_EQ(found[0].by_animal[0].animal, 1U);
  // The day before it was seen nothing masks.
  const auto earlier = read(records, {}, day("2026-05-01"));
  EXPECT_EQ(earlier[0].masked, 0U);
  EXPECT_EQ(earlier[0].by_animal.size(), 2U);
}

TEST(MarkerReadings, ALineHasItsOwnTableAndTheFirstContextDecides) {
  auto records = hand_records({{{}, {}, "north"}, {{}, {}, "south"}, {{}, {}, "north"}});
  for (const char* id : {"A0", "A1", "A2"}) records.score(id, "crown-fleck", "faint");
  records.shows("A2", "brackmoor", "thornwick");
  records.score("A2", "tail-tint", "faint");
  const auto found = read(records);
  ASSERT_EQ(found.size(), 3U);
  EXPECT_EQ(found[0].table, 0U);
  EXPECT_EQ(found[0].by_animal.at(0).animal, 1U);
  EXPECT_EQ(found[1].table, 2U);  // 1 + the second context
  EXPECT_EQ(found[1].by_animal.size(), 1U);
  EXPECT_EQ(found[1].by_animal.at(0).animal, 0U);
  EXPECT_EQ(found[0].masked, 1U);
  // No context of tail-tint masks it.
  EXPECT_EQ(found[2].marker, 1U);
  EXPECT_EQ(found[2].masked, 0U);
  EXPECT_EQ(found[2].by_animal.at(0).animal, 2U);
}

TEST(MarkerReadings, NotScorableIsNeverALevel) {
  auto records = founders(3);
  records.score("A0", "crown-fleck", std::nullopt);
  records.score("A1", "crown-fleck", std::nullopt).score("A1", "crown-fleck", "absent");
  records.score("A2", "tail-tint", std::nullopt);
  const auto found = read(records);
  ASSERT_EQ(found.size(), 1U);  // no level of tail-tint was read at all
  EXPECT_EQ(found[0].not_scorable, 1U);
  ASSERT_EQ(found[0].all.size(), 1U);
  EXPECT_EQ(found[0].by_animal.at(0).animal, 1U);
  EXPECT_EQ(found[0].by_animal.at(0).level, 0U);
}

TEST(MarkerReadings, OnOrAfterTheDayOfTheTruthIsTooLate) {
  auto records = founders(5);
  records.score("A0", "crown-fleck", "strong").on("2026-06-10");
  records.score("A1", "crown-fleck", "strong").on("2026-06-09");
  records.score("A2", "crown-fleck", "strong").on("2026-06-09");
  records.score("A2", "crown-fleck", "absent").on("2026-06-11");
  records.score("A3", "crown-fleck", "strong");  // without a day it always counts
  records.score("A4", "crown-fleck", std::nullopt).on("2026-06-09");
  records.score("A4", "crown-fleck", "strong").on("2026-06-12");
  const auto found = read(records, std::vector(5, std::optional(day("2026-06-10"))));
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].too_late, 2U);  // A0 and A4, once each
  EXPECT_EQ(found[0].not_scorable, 0U);
  ASSERT_EQ(found[0].by_animal.size(), 3U);
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_EQ(found[0].by_animal[i].animal, i + 1);
    EXPECT_EQ(found[0].by_animal[i].level, 2U);  // the late "absent" of A2 does not count
  }
}

// What was written down after the truth was known may have been coloured by it.
TEST(MarkerReadings, TheDayThatCountsIsThatOfTheRecord) {
  auto records = founders(2);
  records.score("A0", "crown-fleck", "strong").on("2026-06-01");
  records.observation().recorded = *colony::Timestamp::parse("2026-07-01T08:00:00Z");
  records.score("A1", "crown-fleck", "strong").on("2026-06-01");
  const auto found = read(records, {day("2026-06-15"), day("2026-06-15")});
  EXPECT_EQ(found[0].too_late, 1U);
  EXPECT_EQ(found[0].by_animal.at(0).animal, 1U);
  const auto all = read(records);
  EXPECT_EQ(all[0].by_animal.at(0).on->text(), "2026-06-01");
}

std::size_t level_of(const std::vector<std::pair<const char*, double>>& readings) {
  auto records = founders(1);
  for (const auto& [level, sure] : readings) {
    records.score("A0", "crown-fleck", level).sure(sure);
  }
  return read(records).at(0).by_animal.at(0).level;
}

TEST(MarkerReadings, SeveralReadingsAreTheLevelTheyMakeLikeliest) {
  // absent 0.6 x 0.05 = 0.03, faint 0.2 x 0.05 = 0.01, clear 0.2 x 0.9 = 0.18
  EXPECT_EQ(level_of({{"absent", 0.6}, {"strong", 0.9}}), 2U);
  // absent 0.7 x 0.7 x 0.1 = 0.049, faint 0.15 x 0.15 x 0.1 = 0.002, clear 0.15^2 x 0.8 = 0.018
  EXPECT_EQ(level_of({{"absent", 0.7}, {"strong", 0.8}, {"absent", 0.7}}), 0U);
  // absent and clear 0.8 x 0.1 each, faint 0.1 x 0.1: the higher of two alike
  EXPECT_EQ(level_of({{"strong", 0.8}, {"absent", 0.8}}), 2U);
  // A reading that is mostly wrong speaks for the others: absent 0.2, faint 0.4, clear 0.4
  EXPECT_EQ(level_of({{"absent", 0.2}}), 2U);
}

// Two readings that are both called sure leave no level possible; one that nobody read is no way
// out.
TEST(MarkerReadings, SureReadingsThatDifferAreTheHigherOfThem) {
  EXPECT_EQ(level_of({{"absent", 1}, {"faint", 1}}), 1U);
  EXPECT_EQ(level_of({{"faint", 1}, {"absent", 1}}), 1U);
}

TEST(MarkerReadings, EachReadingIsKeptByAnimalDayAndId) {
  auto records = founders(2);
  records.score("A1", "crown-fleck", "faint", "ana").on("2026-06-03");
  records.score("A0", "crown-fleck", "strong", "ben").on("2026-06-05");
  std::get<colony::ScoreRecord>(records.observation().what).blind = false;
  records.score("A0", "crown-fleck", "strong", "ana").on("2026-06-02");
  std::get<colony::ScoreRecord>(records.observation().what).blind = true;
  const auto found = read(records).at(0);
  ASSERT_EQ(found.all.size(), 3U);
  EXPECT_EQ(found.all[0].scorer, 0U);
  EXPECT_EQ(found.all[0].blind, true);
  EXPECT_EQ(found.all[1].scorer, 1U);
  EXPECT_EQ(found.all[2].animal, 1U);
  EXPECT_EQ(found.all[2].blind, std::nullopt);
  // An animal goes by its last look.
  EXPECT_EQ(found.by_animal.at(0).on->text(), "2026-06-05");
  EXPECT_EQ(found.by_animal.at(0).blind, false);
}

TEST(MarkerReadings, WithdrawnAndLaterScoresDoNotCount) {
  auto records = founders(1);
  records.score("A0", "crown-fleck", "strong").on("2026-06-01");  // o1
  records.score("A0", "crown-fleck", "absent").on("2026-06-02");  // o2
  records.withdraw("o1").on("2026-06-03");
  EXPECT_TRUE(read(records, {}, day("2026-05-31")).empty());
  EXPECT_EQ(read(records, {}, day("2026-06-01")).at(0).by_animal.at(0).level, 2U);
  EXPECT_EQ(read(records, {}, day("2026-06-02")).at(0).all.size(), 2U);
  const auto now = read(records);
  ASSERT_EQ(now.at(0).all.size(), 1U);
  EXPECT_EQ(now[0].by_animal.at(0).level, 0U);
}

TEST(MarkerReadings, DoNotHangOnTheOrderOfRecords) {
  auto records = hand_records({{{}, {}, "north"}, {}, {}});
  for (int look_number = 0; look_number < 4; ++look_number) {
    for (const char* id : {"A0", "A1", "A2"}) {
      records.score(id, "crown-fleck", look_number % 2 == 0 ? "strong" : "absent").sure(0.8);
      if (look_number < 2) records.on("2026-06-0" + std::to_string(look_number + 1));
    }
  }
  auto turned = records;
  std::reverse(turned.records.observations.begin(), turned.records.observations.end());
  const auto one = read(records);
  const auto two = read(turned);
  ASSERT_EQ(one.size(), 2U);
  ASSERT_EQ(two.size(), 2U);
  for (std::size_t r = 0; r < 2; ++r) {
    ASSERT_EQ(one[r].all.size(), two[r].all.size());
    for (std::size_t i = 0; i < one[r].all.size(); ++i) {
      EXPECT_EQ(one[r].all[i].animal, two[r].all[i].animal);
      EXPECT_EQ(one[r].all[i].level, two[r].all[i].level);
      EXPECT_EQ(one[r].all[i].on, two[r].all[i].on);
    }
    for (std::size_t i = 0; i < one[r].by_animal.size(); ++i) {
      EXPECT_EQ(one[r].by_animal[i].level, two[r].by_animal[i].level);
    }
  }
}

}  // namespace
}  // namespace likelihet::audit::marker_readings_test
