// Each warning where it is due, and only there.
#include <algorithm>

#include "support/small_model.hpp"
#include <gtest/gtest.h>

#include <likelihet/audit/audit.hpp>

namespace likelihet::audit::warnings_test {
namespace {

// An audit with so many outcomes, every second a carrier, from so many clutches.
Audit audit_of(std::size_t outcomes, std::size_t clutches) {
  Audit out;
  for (std::size_t t = 0; t < outcomes; ++t) {
    out.forecasts.truths.push_back(
        {{t, 0, 1}, t % 2 == 0 ? 1.0 : 0.0, support::day("2026-08-01"), Kind::test});
    out.forecasts.forecasts.push_back({t, Basis::scored, Scheme::as_it_stood, 0.5});
  }
  ScoreEntry entry;
  entry.clutches = clutches;
  if (outcomes > 0) out.scores.push_back(entry);
  ScorerAudit scorer;
  scorer.readings = 20;
  scorer.blind = 20;
  out.scorers.push_back(scorer);
  return out;
}

bool warns(const Audit& audit, const std::string& code) {
  const auto all = warnings_of(audit);
  return std::any_of(all.begin(), all.end(),
                     [&](const Warning& warning) { return warning.code == code; });
}

TEST(Warnings, ALargeBlindAuditOfOneKindHasNone) {
  EXPECT_TRUE(warnings_of(audit_of(60, 12)).empty());
}

TEST(Warnings, NoOutcomeIsAllThereIsToSayOfOutcomes) {
  const auto found = warnings_of(audit_of(0, 0));
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].code, "no-outcomes");
}

TEST(Warnings, FewOutcomesAndFewClutchesAreToldAtTheirBounds) {
  EXPECT_TRUE(warns(audit_of(49, 12), "few-outcomes"));
  EXPECT_FALSE(warns(audit_of(50, 12), "few-outcomes"));
  EXPECT_TRUE(warns(audit_of(60, 9), "few-clutches"));
  EXPECT_FALSE(warns(audit_of(60, 10), "few-clutches"));
}

TEST(Warnings, OutcomesOfOneKindAreTold) {
  auto audit = audit_of(60, 12);
  for (Truth& truth : audit.forecasts.truths) truth.probability = 0.999;
  EXPECT_TRUE(warns(audit, "one-kind-of-outcome"));
  audit.forecasts.truths[0].probability = 0.001;
  EXPECT_FALSE(warns(audit, "one-kind-of-outcome"));
}

TEST(Warnings, SeveralKindsOfReferenceAreTold) {
  auto audit = audit_of(60, 12);
  EXPECT_FALSE(warns(audit, "several-kinds-of-outcome"));
  audit.forecasts.truths[5].kind = Kind::breeding;
  EXPECT_TRUE(warns(audit, "several-kinds-of-outcome"));
}

TEST(Warnings, ResultsThatLeaveTheTruthOpenAreCounted) {
  auto audit = audit_of(60, 12);
  Flow flow;
  flow.open_after_result = 7;
  flow.open_carriers = 0.4;
  audit.flows.push_back(flow);
  const auto found = warnings_of(audit);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].code, "results-left-open");
  EXPECT_NE(found[0].text.find("7 tested animals are"), std::string::npos);
  EXPECT_NE(found[0].text.find("0.4"), std::string::npos);
}

TEST(Warnings, SelectionIsToldWhileFewLowScoresWereTested) {
  auto audit = audit_of(60, 12);
  Selection selection;
  selection.verdict = Selected::looks_selected;
  selection.low_score_tested = 9;
  audit.selections.push_back(selection);
  EXPECT_TRUE(warns(audit, "tested-by-their-markers"));
  audit.selections[0].low_score_tested = 10;
  EXPECT_FALSE(warns(audit, "tested-by-their-markers"));
  audit.selections[0] = {};
  audit.selections[0].verdict = Selected::looks_random;
  EXPECT_FALSE(warns(audit, "tested-by-their-markers"));
}

TEST(Warnings, ReadingsThatWereNotBlindAreTold) {
  auto audit = audit_of(60, 12);
  audit.scorers[0].blind = 0;
  EXPECT_TRUE(warns(audit, "not-blind"));
  audit.scorers[0].readings = 0;
  EXPECT_FALSE(warns(audit, "not-blind"));
  audit.unblinded.push_back({"2023", 30, 20});
  const auto found = warnings_of(audit);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].code, "season-not-blind");
  EXPECT_NE(found[0].text.find("2023"), std::string::npos);
}

}  // namespace
}  // namespace likelihet::audit::warnings_test
