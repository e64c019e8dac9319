// Slices of the forecasts, and their scores.
#include <algorithm>
#include <cmath>

#include "support/small_model.hpp"
#include <gtest/gtest.h>

#include <likelihet/audit/curves.hpp>
#include <likelihet/audit/score_table.hpp>

namespace likelihet::audit::score_table_test {
namespace {

// Forty hatchlings in ten clutches, by hand: no odds are computed here.
colony::Colony herd() {
  support::RecordsBuilder records;
  for (int c = 0; c < 10; ++c) {
    const std::string clutch = "C" + std::to_string(c);
    records.clutch(clutch, std::nullopt, {});
    for (int h = 0; h < 4; ++h) records.hatchling(clutch + "-" + std::to_string(h), clutch);
  }
  records.founder("F");
  return support::colony_of(support::made(support::masked_model()), records.records);
}

struct Given {
  std::size_t animal = 0;
  double pedigree = 0.5;
  double scored = 0.5;
  bool so = false;
  Kind kind = Kind::test;
  std::size_t locus = 0;
  std::string on = "2026-08-01";
};

Forecasts forecasts_of(const std::vector<Given>& given) {
  Forecasts out;
  for (const Given& one : given) {
    out.truths.push_back(
        {{one.animal, one.locus, 1}, one.so ? 1.0 : 0.0, support::day(one.on), one.kind});
  }
  for (Scheme scheme : {Scheme::as_it_stood, Scheme::clutch_left_out}) {
    for (std::size_t t = 0; t < given.size(); ++t) {
      out.forecasts.push_back({t, Basis::pedigree, scheme, given[t].pedigree});
      out.forecasts.push_back({t, Basis::scored, scheme, given[t].scored});
    }
  }
  out.scored.assign(41, true);
  return out;
}

ScoreSettings few_resamples() {
  ScoreSettings settings;
  settings.resamples = 100;
  return settings;
}

const ScoreEntry& find(const std::vector<ScoreEntry>& all, const std::string& score, Basis basis,
                       std::optional<Kind> kind = std::nullopt,
                       std::optional<std::size_t> locus = std::nullopt) {
  const auto found = std::find_if(all.begin(), all.end(), [&](const ScoreEntry& entry) {
    return entry.score == score && entry.slice.basis == basis && entry.slice.kind == kind &&
           entry.slice.locus == locus && entry.slice.scheme == Scheme::as_it_stood;
  });
  if (found == all.end()) throw std::logic_error("no " + score);
  return *found;
}

std::vector<Given> even_season() {
  std::vector<Given> given;
  for (std::size_t a = 0; a < 40; ++a) {
    const bool so = a % 2 == 0;
    given.push_back({a, 0.5, so ? 0.8 : 0.2, so});
  }
  return given;
}

// By hand: pedigree 0.25 and 1 bit; with markers 0.2² = 0.04 and -log2 0.8 = 0.3219; skill 0.84.
TEST(ScoreTable, IsWhatHandsCompute) {
  const auto scores = score_table(herd(), forecasts_of(even_season()), few_resamples());
  EXPECT_NEAR(*find(scores, "brier", Basis::pedigree).value, 0.25, 1e-12);
  EXPECT_NEAR(*find(scores, "brier", Basis::scored).value, 0.04, 1e-12);
  EXPECT_NEAR(*find(scores, "log-score", Basis::pedigree).value, 1, 1e-12);
  EXPECT_NEAR(*find(scores, "log-score", Basis::scored).value, -std::log2(0.8), 1e-12);
  EXPECT_NEAR(*find(scores, "skill", Basis::scored).value, 0.84, 1e-12);
  EXPECT_NEAR(*find(scores, "log-skill", Basis::scored).value, 1 + std::log2(0.8), 1e-12);
  EXPECT_NEAR(*find(scores, "observed-expected", Basis::scored).value, 1, 1e-12);
  EXPECT_NEAR(*find(scores, "auc", Basis::scored).value, 1, 1e-12);
  EXPECT_NEAR(*find(scores, "auc-within-clutch", Basis::scored).value, 1, 1e-12);
  EXPECT_NEAR(*find(scores, "auc", Basis::pedigree).value, 0.5, 1e-12);
  EXPECT_EQ(find(scores, "brier", Basis::scored).cases, 40U);
  EXPECT_EQ(find(scores, "brier", Basis::scored).clutches, 10U);
}

TEST(ScoreTable, DecompositionAddsUpToTheBrierScore) {
  auto given = even_season();
  for (std::size_t i = 0; i < given.size(); i += 3) given[i].so = !given[i].so;
  const auto scores = score_table(herd(), forecasts_of(given), few_resamples());
  for (Basis basis : {Basis::pedigree, Basis::scored}) {
    EXPECT_NEAR(*find(scores, "brier", basis).value,
                *find(scores, "miscalibration", basis).value -
                    *find(scores, "discrimination", basis).value +
                    *find(scores, "uncertainty", basis).value,
                1e-12);
  }
}

// Net benefit at 1/2 of calling twenty of forty rightly: 20/40.
TEST(ScoreTable, HasEveryThresholdAskedFor) {
  auto settings = few_resamples();
  settings.thresholds = {0.5, 0.9};
  const auto scores = score_table(herd(), forecasts_of(even_season()), settings);
  std::size_t found = 0;
  for (const ScoreEntry& entry : scores) {
    if (entry.score != "net-benefit" || entry.slice.scheme != Scheme::as_it_stood ||
        entry.slice.basis != Basis::scored || entry.slice.kind) {
      continue;
    }
    EXPECT_NEAR(*entry.value, *entry.threshold < 0.8 ? 0.5 : 0.0, 1e-12);
    ++found;
  }
  EXPECT_EQ(found, 2U);
}

TEST(ScoreTable, KeepsKindsApartBesideAllTogether) {
  auto given = even_season();
  for (std::size_t i = 0; i < 10; ++i) given[i].kind = Kind::breeding;
  const auto scores = score_table(herd(), forecasts_of(given), few_resamples());
  EXPECT_EQ(find(scores, "brier", Basis::scored).cases, 40U);
  EXPECT_EQ(find(scores, "brier", Basis::scored, Kind::breeding).cases, 10U);
  EXPECT_EQ(find(scores, "brier", Basis::scored, Kind::test).cases, 30U);
  EXPECT_THROW(find(scores, "brier", Basis::scored, Kind::visual), std::logic_error);
}

TEST(ScoreTable, KeepsLociApartWhereThereAreSeveral) {
  auto given = even_season();
  for (std::size_t i = 0; i < 12; ++i) given[i].locus = 1;
  const auto scores = score_table(herd(), forecasts_of(given), few_resamples());
  EXPECT_EQ(find(scores, "brier", Basis::scored, std::nullopt, 1).cases, 12U);
  EXPECT_EQ(find(scores, "brier", Basis::scored, std::nullopt, 0).cases, 28U);
  const auto one = score_table(herd(), forecasts_of(even_season()), few_resamples());
  EXPECT_THROW(find(one, "brier", Basis::scored, std::nullopt, 0), std::logic_error);
}

TEST(ScoreTable, SaysWhyThereIsNoValueAndThatFewClutchesAreRough) {
  std::vector<Given> given;
  for (std::size_t a = 0; a < 8; ++a) given.push_back({a, 0.5, 0.7, true});  // two clutches
  const auto scores = score_table(herd(), forecasts_of(given), few_resamples());
  for (const char* score : {"intercept", "slope", "auc", "auc-within-clutch"}) {
    EXPECT_FALSE(find(scores, score, Basis::scored).value) << score;
    EXPECT_FALSE(find(scores, score, Basis::scored).note.empty()) << score;
  }
  EXPECT_NE(find(scores, "brier", Basis::scored).note.find("2 clutches"), std::string::npos);
}

TEST(ScoreTable, OneClutchHasNoInterval) {
  const std::vector<Given> given = {{0, 0.5, 0.7, true}, {1, 0.5, 0.3, false}};
  const auto scores = score_table(herd(), forecasts_of(given), few_resamples());
  EXPECT_FALSE(find(scores, "brier", Basis::scored).interval);
  EXPECT_NE(find(scores, "brier", Basis::scored).note.find("too few clutches"), std::string::npos);
}

TEST(ScoreTable, APerfectPedigreeLeavesNoSkillToMeasure) {
  std::vector<Given> given = even_season();
  for (Given& one : given) one.pedigree = one.so ? 1 : 0;
  const auto scores = score_table(herd(), forecasts_of(given), few_resamples());
  EXPECT_FALSE(find(scores, "skill", Basis::scored).value);
  EXPECT_NE(find(scores, "skill", Basis::scored).note.find("perfect"), std::string::npos);
}

TEST(ScoreTable, TheSameSeedGivesTheSameIntervals) {
  auto given = even_season();
  for (std::size_t i = 0; i < given.size(); ++i) {
    given[i].scored = 0.3 + 0.01 * static_cast<double>(i);
  }
  const auto one = score_table(herd(), forecasts_of(given), few_resamples());
  const auto two = score_table(herd(), forecasts_of(given), few_resamples());
  EXPECT_EQ(find(one, "brier", Basis::scored).interval->low,
            find(two, "brier", Basis::scored).interval->low);
  auto other = few_resamples();
  other.seed = 2;
  const auto three = score_table(herd(), forecasts_of(given), other);
  EXPECT_NE(find(one, "brier", Basis::scored).interval->low,
            find(three, "brier", Basis::scored).interval->low);
}

TEST(ScoreTable, OfNoForecastsIsEmpty) {
  EXPECT_TRUE(score_table(herd(), forecasts_of({}), few_resamples()).empty());
}

TEST(ScoreTable, AFounderIsAClusterOfItsOwn) {
  const auto colony = herd();
  EXPECT_EQ(cluster_of(colony, 0), cluster_of(colony, 3));
  EXPECT_NE(cluster_of(colony, 3), cluster_of(colony, 4));
  EXPECT_EQ(cluster_of(colony, 40), colony.clutches().size() + 40);
}

// Curves of the same forecasts.

TEST(Curves, GroupsHoldEveryForecastOnceAndKeepTheirEdges) {
  auto given = even_season();
  for (std::size_t i = 0; i < given.size(); ++i) {
    given[i].scored = 0.01 + 0.02 * static_cast<double>(i);
  }
  const auto found = reliabilities(herd(), forecasts_of(given), 50, 1);
  ASSERT_EQ(found.size(), 4U);
  for (const Reliability& of : found) {
    std::size_t cases = 0;
    double last = -1;
    for (const auto& group : of.groups) {
      EXPECT_GE(group.low_edge, last);
      EXPECT_LE(group.low_edge, group.mean + 1e-12);
      EXPECT_GE(group.high_edge, group.mean - 1e-12);
      EXPECT_LE(group.hets, group.cases);
      last = group.high_edge;
      cases += group.cases;
    }
    EXPECT_EQ(cases, 40U);
    EXPECT_EQ(of.cases, 40U);
  }
}

TEST(Curves, BandsCountAForecastOfExactlyOneInTheLast) {
  const std::vector<Given> given = {
      {0, 0.5, 1.0, true}, {1, 0.5, 0.0, false}, {2, 0.5, 0.65, true}, {3, 0.5, 0.69, false}};
  const auto found = bands(forecasts_of(given));
  ASSERT_EQ(found.size(), 3U);
  EXPECT_NEAR(found[0].low, 0, 1e-12);
  EXPECT_NEAR(found[1].low, 0.6, 1e-12);
  EXPECT_EQ(found[1].cases, 2U);
  EXPECT_EQ(found[1].hets, 1U);
  EXPECT_NEAR(found[2].high, 1, 1e-12);
}

TEST(Curves, DriftIsByTheMonthTheTruthWasKnown) {
  auto given = even_season();
  for (std::size_t i = 0; i < 10; ++i) given[i].on = "2026-09-15";
  const auto found = drifts(forecasts_of(given));
  ASSERT_EQ(found.size(), 4U);  // two months of each scheme
  EXPECT_EQ(found[0].month, "2026-08");
  EXPECT_EQ(found[0].cases, 30U);
  EXPECT_EQ(found[1].month, "2026-09");
  // Five hets at 0.8 and five others at 0.2.
  EXPECT_NEAR(found[1].expected, 5, 1e-12);
  EXPECT_EQ(found[1].hets, 5U);
}

TEST(Curves, MissesAreTheWorstFirstAndOnlyThoseOfABitOrMore) {
  const std::vector<Given> given = {{0, 0.5, 0.125, true},    // 3 bits
                                    {1, 0.5, 0.9375, false},  // 4 bits
                                    {2, 0.5, 0.6, true},      // 0.74 bits
                                    {3, 0.5, 0.0, true}};     // 49.8 bits: no infinity
  const auto all = forecasts_of(given);
  const auto found = misses(all, 10);
  ASSERT_EQ(found.size(), 3U);
  EXPECT_NEAR(found[0].bits, -std::log2(1e-15), 1e-9);
  EXPECT_NEAR(found[1].bits, 4, 1e-12);
  EXPECT_NEAR(found[2].bits, 3, 1e-12);
  EXPECT_EQ(misses(all, 1).size(), 1U);
}

TEST(Curves, DecisionsStandBesideTestingAllAndNone) {
  const auto found = decisions(herd(), forecasts_of(even_season()), {0.5});
  ASSERT_EQ(found.size(), 2U);
  EXPECT_NEAR(found[0].scored, 0.5, 1e-12);
  EXPECT_NEAR(found[0].all, 0, 1e-12);  // half right, half wrong, at even stakes
  EXPECT_NEAR(found[0].pedigree, 0, 1e-12);
  EXPECT_TRUE(rocs(herd(), forecasts_of({{0, 0.5, 0.5, true}})).empty());
}

}  // namespace
}  // namespace likelihet::audit::score_table_test
