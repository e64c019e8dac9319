// Books with little or nothing in them: the audit says so and makes up no number.
#include <algorithm>
#include <cmath>

#include "audit/simulated_season.hpp"
#include <gtest/gtest.h>

#include <likelihet/audit/audit.hpp>

namespace likelihet::audit::extremes_test {
namespace {

SeasonSettings season_of(std::function<double(const Hatchling&)> tested) {
  SeasonSettings settings;
  settings.clutches = 4;
  settings.markers = {
      {"crown-fleck", 3,
       [](const Hatchling& h) {
         return h.carrier ? std::vector<double>{0.3, 0.3, 0.4} : std::vector<double>{0.7, 0.2, 0.1};
       },
       false}};
  settings.tested = std::move(tested);
  return settings;
}

Audit audited(const colony::Colony& colony) {
  Settings settings;
  settings.scores.resamples = 50;
  auto found = audit(colony, settings);
  return std::get<Audit>(std::move(found));
}

bool warns(const Audit& audit, const std::string& code) {
  return std::any_of(audit.warnings.begin(), audit.warnings.end(),
                     [&](const Warning& warning) { return warning.code == code; });
}

void expect_finite(const Audit& audit) {
  for (const ScoreEntry& entry : audit.scores) {
    EXPECT_TRUE(entry.value.has_value() || !entry.note.empty()) << entry.score;
    EXPECT_TRUE(std::isfinite(entry.value.value_or(0))) << entry.score;
    if (!entry.interval) continue;
    EXPECT_TRUE(std::isfinite(entry.interval->low) && std::isfinite(entry.interval->high))
        << entry.score;
  }
  for (const MarkerAudit& marker : audit.markers) {
    for (const CutAudit& cut : marker.cuts) {
      for (const Estimate& ratio : {cut.positive_ratio.naive, cut.positive_ratio.corrected,
                                    cut.negative_ratio.corrected, cut.odds_ratio_pooled}) {
        EXPECT_GT(ratio.value, 0);
        EXPECT_TRUE(std::isfinite(ratio.value));
        EXPECT_TRUE(std::isfinite(ratio.interval.high));
      }
    }
  }
}

TEST(AuditExtremes, NoOutcome) {
  const auto audit =
      audited(simulated_season(season_of([](const Hatchling&) { return 0.0; }), 1).colony());
  EXPECT_TRUE(warns(audit, "no-outcomes"));
  EXPECT_TRUE(audit.scores.empty());
  EXPECT_TRUE(audit.reliability.empty());
  ASSERT_EQ(audit.markers.size(), 1U);
  EXPECT_EQ(audit.markers[0].verdict, Verdict::no_evidence_yet);
  expect_finite(audit);
}

TEST(AuditExtremes, OneOutcome) {
  Season season = simulated_season(season_of([](const Hatchling&) { return 1.0; }), 2);
  bool kept = false;
  std::erase_if(season.records.observations, [&](const auto& o) {
    if (!std::holds_alternative<colony::ResultRecord>(o.what)) return false;
    return std::exchange(kept, true);
  });
  const auto audit = audited(season.colony());
  EXPECT_TRUE(warns(audit, "one-kind-of-outcome"));
  EXPECT_TRUE(warns(audit, "few-outcomes"));
  EXPECT_TRUE(warns(audit, "few-clutches"));
  expect_finite(audit);
}

TEST(AuditExtremes, OnlyCarriers) {
  const auto audit = audited(
      simulated_season(season_of([](const Hatchling& h) { return h.carrier ? 1.0 : 0.0; }), 3)
          .colony());
  EXPECT_TRUE(warns(audit, "one-kind-of-outcome"));
  expect_finite(audit);
  for (const ScoreEntry& entry : audit.scores) {
    const bool needs_both = entry.score == "auc" || entry.score == "slope";
    EXPECT_FALSE(needs_both && entry.value);
  }
}

TEST(AuditExtremes, NoMarkers) {
  auto settings = season_of([](const Hatchling&) { return 0.6; });
  settings.markers.clear();
  const auto audit = audited(simulated_season(settings, 4).colony());
  EXPECT_TRUE(audit.markers.empty());
  EXPECT_FALSE(audit.scores.empty());
  expect_finite(audit);
}

TEST(AuditExtremes, AllMarkersAbsent) {
  auto settings = season_of([](const Hatchling&) { return 0.6; });
  settings.markers[0].shows = [](const Hatchling&) { return std::vector<double>{1, 0, 0}; };
  const auto audit = audited(simulated_season(settings, 5).colony());
  expect_finite(audit);
  EXPECT_EQ(audit.markers[0].verdict, Verdict::no_evidence_yet);
  EXPECT_NEAR(audit.markers[0].bits, 0, 1e-9);
}

TEST(AuditExtremes, AnEmptyColony) {
  const auto audit =
      audited(support::colony_of(support::made(season_model({})), colony::Records{}));
  EXPECT_TRUE(warns(audit, "no-outcomes"));
  EXPECT_TRUE(audit.markers.empty());
}

}  // namespace
}  // namespace likelihet::audit::extremes_test
