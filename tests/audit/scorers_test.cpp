// Agreement between and within scorers, and how each reads.
#include <algorithm>

#include "audit/hand_made.hpp"
#include <gtest/gtest.h>

#include <likelihet/audit/scorers.hpp>

namespace likelihet::audit::scorers_test {
namespace {

using support::RecordsBuilder;

constexpr const char* names[] = {"absent", "faint", "strong"};

RecordsBuilder founders(std::size_t n) {
  return hand_records(std::vector<HandAnimal>(n));
}

// As many animals as the table has, read once by ana (rows) and once by ben (columns).
RecordsBuilder read_by_both(const std::vector<std::vector<int>>& table) {
  RecordsBuilder out;
  for (std::size_t a = 0; a < 3; ++a) {
    for (std::size_t b = 0; b < 3; ++b) {
      for (int i = 0; i < table[a][b]; ++i) {
        const std::string id = "A" + std::to_string(out.records.animals.size());
        out.founder(id).score(id, "crown-fleck", names[a], "ana");
        out.score(id, "crown-fleck", names[b], "ben");
      }
    }
  }
  return out;
}

std::vector<Agreement> agreed(const RecordsBuilder& records,
                              const std::optional<colony::Date>& as_of = std::nullopt) {
  return agreements(hand_colony(records), as_of);
}

// Weights 1, 1/2, 0. Observed (8 + 2 / 2) / 10 = 0.9. Margins 5 3 2 and 4 3 3: expected
// (20 + 9 + 6) / 100 + (15 + 12 + 9 + 6) / 200 = 0.56; kappa 0.34 / 0.44. Mean margins 0.45, 0.3,
// 0.25: Gwet's chance is 5 / 6 x (0.2475 + 0.21 + 0.1875) = 0.5375; AC2 0.3625 / 0.4625. Wilson's
// interval of 8 in 10: (8 + 1.92073 -+ 1.95996 sqrt(1.6 + 0.96036)) / 13.84146.
TEST(Agreements, BetweenTwoScorersAreThoseOfTheirTable) {
  const auto found = agreed(read_by_both({{4, 1, 0}, {0, 2, 1}, {0, 0, 2}}));
  ASSERT_EQ(found.size(), 1U);
  const Agreement& one = found[0];
  EXPECT_EQ(one.first, 0U);
  EXPECT_EQ(one.second, 1U);
  EXPECT_EQ(one.pairs, 10U);
  EXPECT_EQ(one.not_scorable, 0U);
  EXPECT_DOUBLE_EQ(one.exact.value, 0.8);
  EXPECT_NEAR(one.exact.interval.low, 0.490163, 2e-6);
  EXPECT_NEAR(one.exact.interval.high, 0.943317, 2e-6);
  EXPECT_NEAR(one.weighted_kappa.value.value(), 0.34 / 0.44, 1e-12);
  EXPECT_NEAR(one.gwet_ac2.value.value(), 0.3625 / 0.4625, 1e-12);
}

TEST(Agreements, WithinAScorerAreOfTheFirstTwoLooks) {
  auto records = founders(2);
  records.score("A0", "crown-fleck", "strong", "ana").on("2026-06-09");  // the third
  records.score("A0", "crown-fleck", "faint", "ana").on("2026-06-01");
  records.score("A0", "crown-fleck", "faint", "ana").on("2026-06-02");
  records.score("A1", "crown-fleck", "absent", "ana").on("2026-06-01");
  records.score("A1", "crown-fleck", "strong", "ana").on("2026-06-02");
  const auto found = agreed(records);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].first, found[0].second);
  EXPECT_EQ(found[0].pairs, 2U);
  EXPECT_DOUBLE_EQ(found[0].exact.value, 0.5);
  EXPECT_DOUBLE_EQ(found[0].weighted_kappa.observed, 0.5);  // (1 + 0) / 2
}

TEST(Agreements, LooksOfOneDayAreInTheOrderOfTheirIds) {
  auto records = founders(1);
  for (const char* level : {"faint", "faint", "strong"}) {
    records.score("A0", "crown-fleck", level, "ana").on("2026-06-01");
  }
  EXPECT_EQ(agreed(records).at(0).exact.value, 1);
  std::reverse(records.records.observations.begin(), records.records.observations.end());
  EXPECT_EQ(agreed(records).at(0).exact.value, 1);
}

// A look without a day of its own has that of its record.
TEST(Agreements, BetweenScorersAreOfTheFirstLookOfEach) {
  auto records = founders(1);
  records.score("A0", "crown-fleck", "faint", "ana").on("2026-06-01");
  records.score("A0", "crown-fleck", "strong", "ana");
  records.observation().recorded = *colony::Timestamp::parse("2026-07-01T08:00:00Z");
  records.score("A0", "crown-fleck", "faint", "ben").on("2026-08-01");
  const auto found = agreed(records);
  ASSERT_EQ(found.size(), 2U);
  EXPECT_EQ(found[0].second, 0U);
  EXPECT_EQ(found[0].exact.value, 0);
  EXPECT_EQ(found[1].second, 1U);
  EXPECT_EQ(found[1].exact.value, 1);
}

TEST(Agreements, CouldNotBeScoredIsNeverOne) {
  auto records = founders(3);
  records.score("A0", "crown-fleck", std::nullopt, "ana");
  records.score("A0", "crown-fleck", std::nullopt, "ben");
  records.score("A1", "crown-fleck", "faint", "ana");
  records.score("A1", "crown-fleck", std::nullopt, "ben");
  const auto none = agreed(records);
  ASSERT_EQ(none.size(), 1U);
  EXPECT_EQ(none[0].pairs, 0U);
  EXPECT_EQ(none[0].not_scorable, 2U);
  EXPECT_EQ(none[0].exact.value, 0);
  EXPECT_EQ(none[0].weighted_kappa.value, std::nullopt);
  EXPECT_EQ(none[0].weighted_kappa.undefined, "nothing was scored by both");
  records.score("A2", "crown-fleck", "faint", "ana").score("A2", "crown-fleck", "strong", "ben");
  EXPECT_EQ(agreed(records).at(0).pairs, 1U);
  EXPECT_EQ(agreed(records).at(0).not_scorable, 2U);
}

TEST(Agreements, AnUndefinedKappaNamesTheOnlyLevel) {
  const auto found = agreed(read_by_both({{0, 0, 0}, {0, 6, 0}, {0, 0, 0}}));
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].weighted_kappa.value, std::nullopt);
  EXPECT_EQ(found[0].weighted_kappa.undefined, "undefined, all scored faint");
  EXPECT_EQ(found[0].gwet_ac2.value, 1);
}

TEST(Agreements, AreOfScoresThatCountByNamedScorers) {
  auto records = founders(1);
  records.score("A0", "crown-fleck", "faint", "ana").on("2026-06-01");  // o1
  records.score("A0", "crown-fleck", "faint").on("2026-06-01");
  records.score("A0", "tail-tint", "faint", "ben").on("2026-06-01");
  EXPECT_TRUE(agreed(records).empty());
  records.score("A0", "tail-tint", "strong", "cleo").on("2026-07-01");  // o4
  const auto found = agreed(records);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].marker, 1U);
  EXPECT_TRUE(agreed(records, support::day("2026-06-30")).empty());
  records.withdraw("o4");
  EXPECT_TRUE(agreed(records).empty());
}

std::vector<ScorerAudit> audited(const RecordsBuilder& records,
                                 const std::vector<HandAnimal>& animals) {
  const auto colony = hand_colony(records);
  const std::vector<std::optional<colony::Date>> before(animals.size());
  const MarkerBackground background{marker_readings(colony, std::nullopt, before),
                                    hand_table(colony, animals)};
  return audit_scorers(colony, std::nullopt, background, std::vector<MarkerAudit>(1));
}

void set_blind(RecordsBuilder& records, bool blind) {
  std::get<colony::ScoreRecord>(records.observation().what).blind = blind;
}

TEST(Scorers, ReadingsAreCountedByBlindingAndSeason) {
  const std::vector<HandAnimal> animals(3, {{0.5, 0.5, 0}});
  auto records = hand_records(animals);
  records.score("A0", "crown-fleck", "faint", "cleo").on("2026-12-31");
  set_blind(records, true);
  records.score("A1", "crown-fleck", "absent", "cleo").on("2026-06-01");
  set_blind(records, true);
  records.score("A2", "crown-fleck", "strong", "cleo").on("2027-01-01");
  set_blind(records, false);
  records.score("A2", "tail-tint", "strong", "cleo");
  records.score("A2", "crown-fleck", std::nullopt, "cleo").on("2027-01-01");
  set_blind(records, true);
  records.score("A2", "tail-tint", std::nullopt, "ana");
  const auto found = audited(records, animals);
  ASSERT_EQ(found.size(), 2U);  // ben read nothing
  EXPECT_EQ(found[0].scorer, 0U);
  EXPECT_EQ(found[0].readings, 0U);
  EXPECT_EQ(found[0].not_scorable, 1U);
  EXPECT_TRUE(found[0].seasons.empty());
  const ScorerAudit& cleo = found[1];
  EXPECT_EQ(cleo.scorer, 2U);
  EXPECT_EQ(cleo.readings, 4U);
  EXPECT_EQ(cleo.not_scorable, 1U);
  EXPECT_EQ(cleo.blind, 2U);
  EXPECT_EQ(cleo.unblinded, 1U);
  EXPECT_EQ(cleo.unknown, 1U);
  EXPECT_TRUE(cleo.markers.empty());  // no truth is known
  ASSERT_EQ(cleo.seasons.size(), 3U);
  const std::tuple<std::string, std::size_t, std::size_t, std::size_t> seasons[] = {
      {"2026", 0, 2, 1}, {"2027", 0, 1, 1}, {"", 1, 1, 1}};
  for (std::size_t s = 0; s < 3; ++s) {
    const ScorerSeason& one = cleo.seasons[s];
    EXPECT_EQ(std::tuple(one.season, one.marker, one.readings, one.positive), seasons[s]);
  }
}

// Hets A0 to A3, others A4 to A6, A7 unknown, A8 with two copies. Ana's first looks: 3 of 4
// hets and 1 of 3 others show it; second looks are another matter.
TEST(Scorers, SensitivityCountsEachAnimalAtItsFirstLook) {
  std::vector<HandAnimal> animals(4, {{0, 1, 0}});
  animals.insert(animals.end(), 3, {{1, 0, 0}});
  animals.push_back({{0.5, 0.5, 0}});
  animals.push_back({{0, 0, 1}});
  auto records = hand_records(animals);
  const char* levels[] = {"absent", "faint", "strong", "faint", "absent",
                          "absent", "faint", "strong", "strong"};
  for (std::size_t a = 0; a < 9; ++a) {
    records.score("A" + std::to_string(a), "crown-fleck", levels[a], "ana").on("2026-06-01");
  }
  for (const char* id : {"A0", "A4", "A5"}) {
    records.score(id, "crown-fleck", "strong", "ana").on("2026-06-02");
  }
  records.score("A0", "crown-fleck", "strong", "ben").on("2026-06-03");
  const auto found = audited(records, animals);
  ASSERT_EQ(found.size(), 2U);
  ASSERT_EQ(found[0].markers.size(), 1U);
  EXPECT_EQ(found[0].markers[0].known, 7U);
  EXPECT_DOUBLE_EQ(found[0].markers[0].sensitivity.value, 3.0 / 4);
  EXPECT_DOUBLE_EQ(found[0].markers[0].specificity.value, 2.0 / 3);
  ASSERT_EQ(found[1].markers.size(), 1U);
  EXPECT_EQ(found[1].markers[0].known, 1U);
  EXPECT_EQ(found[1].markers[0].sensitivity.value, 1);
  EXPECT_EQ(found[1].markers[0].specificity.value, 0.5);  // of no animal
  EXPECT_EQ(found[1].markers[0].specificity.interval.high, 1);
}

}  // namespace
}  // namespace likelihet::audit::scorers_test
