// Each rule of verdict.hpp on both sides of each of its thresholds, and their order.
#include "support/small_model.hpp"
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <likelihet/audit/verdict.hpp>

namespace likelihet::audit::verdict_test {
namespace {

using By = GroupAudit::By;
using testing::HasSubstr;
using testing::Not;

CutAudit cut(double low, double high) {
  CutAudit out;
  out.odds_ratio_pooled = {1, {low, high}};
  return out;
}

// No rule holds: hets show it more, but that may be chance.
MarkerAudit undecided() {
  MarkerAudit out;
  out.animals = 40;
  out.known = 30;
  out.known_carriers = {5, 10};
  out.known_others = {12, 3};
  out.estimated_carriers = {0.4, 0.6};
  out.estimated_others = {0.8, 0.2};
  out.cuts = {cut(0.4, 9)};
  out.pooled = {0.2, 0.3};
  out.within_clutch = {0.25, 0.35};
  out.within_clutch_z = 1;
  out.informative_clutches = 3;
  return out;
}

GroupAudit group(By by, const std::string& name, double log_odds_ratio, double low,
                 double variance = 1) {
  GroupAudit out;
  out.by = by;
  out.name = name;
  out.animals = 10;
  out.log_odds_ratio = log_odds_ratio;
  out.variance = variance;
  out.odds_ratio = {std::exp(log_odds_ratio), {low, 50}};
  return out;
}

MarkerAudit judged(MarkerAudit marker) {
  judge(support::colony_of(support::made(support::masked_model()), {}), marker);
  return marker;
}

MarkerAudit with_other(MarkerAudit marker, double p, double left) {
  marker.other = OtherTrait{1, 1, p, left};
  return marker;
}

TEST(Verdict, OfAMarkThatMayBeChanceIsNoEvidenceYet) {
  const auto marker = judged(undecided());
  EXPECT_EQ(marker.verdict, Verdict::no_evidence_yet);
  EXPECT_EQ(marker.why, "40 animals scored, 30 of known truth: too few to tell (adjusted p 0.3)");
}

TEST(Verdict, ExplainedByAnotherTraitNeedsBothOfItsTests) {
  const auto explained = judged(with_other(undecided(), 0.0099, 0.051));
  EXPECT_EQ(explained.verdict, Verdict::explained_by_another_trait);
  EXPECT_EQ(explained.why,
            "it follows hets of brackmoor s (p 0.0099); once those are told apart nothing is left "
            "for tarnbrook (p 0.051)");
  EXPECT_EQ(judged(with_other(undecided(), 0.01, 0.9)).verdict, Verdict::no_evidence_yet);
  EXPECT_EQ(judged(with_other(undecided(), 0.001, 0.05)).verdict, Verdict::no_evidence_yet);
}

// Two lines: the one-sided p must be below 0.025 / 2, a z of 2.2414.
MarkerAudit in_lines(double z, double south_low) {
  MarkerAudit out = undecided();
  out.lines_differ = 0.049;
  out.groups = {group(By::line, "north", z, 1.5), group(By::line, "south", 0, south_low)};
  return out;
}

TEST(Verdict, OnlyInSomeLinesNamesThemAndWhereItFails) {
  const auto marker = judged(in_lines(2.25, 0.3));
  EXPECT_EQ(marker.verdict, Verdict::only_in_some_lines);
  EXPECT_EQ(marker.why, "it works in line north and not in south (lines differ, p 0.049)");
}

TEST(Verdict, OnlyInSomeLinesAsksThatLinesDiffer) {
  auto marker = in_lines(2.25, 0.3);
  marker.lines_differ = 0.05;
  EXPECT_EQ(judged(marker).verdict, Verdict::no_evidence_yet);
  marker.lines_differ = std::nullopt;
  EXPECT_EQ(judged(marker).verdict, Verdict::no_evidence_yet);
}

TEST(Verdict, OnlyInSomeLinesCountsTheLinesThatWereTried) {
  EXPECT_EQ(judged(in_lines(2.23, 0.3)).verdict, Verdict::no_evidence_yet);
  // Of three lines the p must be below 0.025 / 3, a z of 2.394; a scorer is no line.
  auto marker = in_lines(2.3, 0.3);
  marker.groups.push_back(group(By::scorer, "ana", 0, 0.2));
  EXPECT_EQ(judged(marker).verdict, Verdict::only_in_some_lines);
  marker.groups.push_back(group(By::line, "west", 0, 0.2));
  EXPECT_EQ(judged(marker).verdict, Verdict::no_evidence_yet);
  marker.groups[0].log_odds_ratio = 2.4;
  EXPECT_EQ(judged(marker).verdict, Verdict::only_in_some_lines);
  EXPECT_THAT(judged(marker).why, HasSubstr("in line north and not in south, west"));
}

TEST(Verdict, OnlyInSomeLinesNeedsALineOfTenAnimalsWhereItMayFail) {
  EXPECT_EQ(judged(in_lines(2.25, 1.0)).verdict, Verdict::only_in_some_lines);
  EXPECT_EQ(judged(in_lines(2.25, 1.01)).verdict, Verdict::no_evidence_yet);
  auto few = in_lines(2.25, 0.3);
  few.groups[1].animals = 9;
  EXPECT_EQ(judged(few).verdict, Verdict::no_evidence_yet);
}

TEST(Verdict, ALineWhoseOddsRatioCannotBeToldDoesNotWork) {
  auto marker = in_lines(9, 0.3);  // z is 9 / sqrt(10) = 2.85, were it to count
  marker.groups[0].variance = 10;
  EXPECT_EQ(judged(marker).verdict, Verdict::no_evidence_yet);
  marker.groups[0].variance = 9.99;
  EXPECT_EQ(judged(marker).verdict, Verdict::only_in_some_lines);
}

// One-sided p below 0.025: a z of 1.96.
MarkerAudit by_blinding(double z, double blind_low) {
  MarkerAudit out = undecided();
  out.blinding_differs = 0.049;
  out.groups = {group(By::blinding, "blind", 0, blind_low),
                group(By::blinding, "not blind", z, 1.2)};
  return out;
}

TEST(Verdict, OnlyUnblindedTellsBothOddsRatios) {
  const auto marker = judged(by_blinding(1.97, 1.0));
  EXPECT_EQ(marker.verdict, Verdict::only_unblinded);
  // e^1.97 = 7.17
  EXPECT_EQ(marker.why,
            "it predicts where the scorer knew the parents (odds ratio 7.2) and not where blind "
            "(1; they differ, p 0.049)");
}

TEST(Verdict, OnlyUnblindedAsksThatBlindReadingsMayFailAndOpenOnesDoNot) {
  EXPECT_EQ(judged(by_blinding(1.95, 0.3)).verdict, Verdict::no_evidence_yet);
  EXPECT_EQ(judged(by_blinding(1.97, 1.01)).verdict, Verdict::no_evidence_yet);
  auto marker = by_blinding(1.97, 0.3);
  marker.blinding_differs = 0.05;
  EXPECT_EQ(judged(marker).verdict, Verdict::no_evidence_yet);
  marker = by_blinding(1.97, 0.3);
  marker.groups.erase(marker.groups.begin());
  EXPECT_EQ(judged(marker).verdict, Verdict::no_evidence_yet);
}

MarkerAudit predicting() {
  MarkerAudit out = undecided();
  out.pooled = {0.01, 0.049};
  out.within_clutch = {0.02, 0.049};
  return out;
}

TEST(Verdict, PredictsNeedsBothTestsAndTheDirection) {
  const auto marker = judged(predicting());
  EXPECT_EQ(marker.verdict, Verdict::predicts);
  EXPECT_EQ(marker.why,
            "hets show it more, over all (adjusted p 0.049) and within clutches (adjusted p "
            "0.049, 3 clutches tell)");
  auto pooled = predicting();
  pooled.pooled.adjusted = 0.05;
  EXPECT_EQ(judged(pooled).verdict, Verdict::no_evidence_yet);
  auto within = predicting();
  within.within_clutch.adjusted = 0.05;
  EXPECT_EQ(judged(within).verdict, Verdict::no_evidence_yet);
  auto backward = predicting();
  backward.within_clutch_z = -2.5;
  EXPECT_EQ(judged(backward).verdict, Verdict::no_evidence_yet);
}

// Mean levels 0.3 + 2 x 0.3 = 0.9 in hets and 0.8 in others, though others are "faint" more.
TEST(Verdict, TheDirectionIsThatOfTheMeanLevel) {
  auto marker = predicting();
  marker.estimated_carriers = {0.4, 0.3, 0.3};
  marker.estimated_others = {0.2, 0.8, 0.0};
  EXPECT_EQ(judged(marker).verdict, Verdict::predicts);
  marker.estimated_others = {0.0, 0.9, 0.1};  // 1.1
  EXPECT_EQ(judged(marker).verdict, Verdict::does_not_predict);
}

TEST(Verdict, DoesNotPredictWhereEveryCutIsHarmless) {
  auto marker = undecided();
  marker.cuts = {cut(0.5, 2), cut(0.9, 1.1)};
  EXPECT_EQ(judged(marker).verdict, Verdict::does_not_predict);
  EXPECT_THAT(judged(marker).why, HasSubstr("between 0.5 and 2 at every level"));
  marker.cuts[1] = cut(0.9, 2.01);
  EXPECT_EQ(judged(marker).verdict, Verdict::no_evidence_yet);
  marker.cuts[1] = cut(0.49, 1.1);
  EXPECT_EQ(judged(marker).verdict, Verdict::no_evidence_yet);
  marker.cuts.clear();  // nothing was shown to be harmless
  EXPECT_EQ(judged(marker).verdict, Verdict::no_evidence_yet);
}

TEST(Verdict, DoesNotPredictWhereOthersShowItMore) {
  auto marker = undecided();
  std::swap(marker.estimated_carriers, marker.estimated_others);
  EXPECT_EQ(judged(marker).verdict, Verdict::no_evidence_yet);
  marker.pooled.adjusted = 0.05;
  EXPECT_EQ(judged(marker).verdict, Verdict::no_evidence_yet);
  marker.pooled.adjusted = 0.049;
  EXPECT_EQ(judged(marker).verdict, Verdict::does_not_predict);
  EXPECT_EQ(judged(marker).why, "hets show it less than others (adjusted p 0.049)");
}

TEST(Verdict, NoEvidenceYetSaysWhatIsMissing) {
  auto families = undecided();
  families.pooled.adjusted = 0.002;
  EXPECT_EQ(judged(families).why,
            "it tells families apart (adjusted p 0.002), but not yet hets within a clutch (p "
            "0.25, 3 clutches tell)");
  auto marker = undecided();
  marker.known_carriers = {0, 0};
  EXPECT_EQ(judged(marker).why, "of 40 animals scored, none is known to be het");
  marker = undecided();
  marker.known_others = {0, 0};
  EXPECT_EQ(judged(marker).why, "of 40 animals scored, none is known not to be het");
}

// All rules hold at once; taking the first of them away leaves the next.
TEST(Verdict, RulesAreTriedInTheirOrder) {
  auto marker = with_other(predicting(), 0.001, 0.9);
  marker.lines_differ = marker.blinding_differs = 0.001;
  marker.groups = in_lines(3, 0.3).groups;
  for (const GroupAudit& one : by_blinding(3, 0.3).groups) marker.groups.push_back(one);
  marker.cuts = {cut(0.8, 1.2)};
  EXPECT_EQ(judged(marker).verdict, Verdict::explained_by_another_trait);
  marker.other = std::nullopt;
  EXPECT_EQ(judged(marker).verdict, Verdict::only_in_some_lines);
  marker.lines_differ = std::nullopt;
  EXPECT_EQ(judged(marker).verdict, Verdict::only_unblinded);
  marker.blinding_differs = std::nullopt;
  EXPECT_EQ(judged(marker).verdict, Verdict::predicts);
  marker.within_clutch.adjusted = 0.5;
  EXPECT_EQ(judged(marker).verdict, Verdict::does_not_predict);
  marker.cuts = {cut(0.8, 3)};
  EXPECT_EQ(judged(marker).verdict, Verdict::no_evidence_yet);
  EXPECT_THAT(judged(marker).why, Not(HasSubstr("cut")));
}

TEST(Verdict, CodesAndWordsAreThoseOfDocuments) {
  const std::vector<std::tuple<Verdict, std::string, std::string>> all = {
      {Verdict::predicts, "predicts", "predicts"},
      {Verdict::no_evidence_yet, "no-evidence-yet", "no evidence yet"},
      {Verdict::does_not_predict, "does-not-predict", "does not predict"},
      {Verdict::only_in_some_lines, "only-in-some-lines", "only in some lines"},
      {Verdict::explained_by_another_trait, "explained-by-another-trait",
       "explained by another trait"},
      {Verdict::only_unblinded, "only-unblinded", "only unblinded"}};
  for (const auto& [verdict, code, words] : all) {
    EXPECT_EQ(code_of(verdict), code);
    EXPECT_EQ(words_of(verdict), words);
  }
}

}  // namespace
}  // namespace likelihet::audit::verdict_test
