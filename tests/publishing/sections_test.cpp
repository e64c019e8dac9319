// The parts of the page, each by itself.
#include <gmock/gmock.h>
#include <publishing/samples.hpp>

#include <likelihet/publishing/score_kinds.hpp>
#include <likelihet/publishing/sections.hpp>

namespace likelihet::publishing::sections_test {
namespace {

using testing::HasSubstr;
using testing::Not;

/// The cells of the row of a table that opens with these words.
std::vector<std::string> row(const std::string& html, const std::string& first) {
  for (const auto& each : between(html, "<tr>", "</tr>")) {
    auto cells = between(each, "<bdi>", "</bdi>");
    if (!cells.empty() && cells[0] == first) return cells;
  }
  return {};
}

TEST(FlowSection, FollowsTheAnimalsOfEachLocus) {
  const auto html = flow_section(sample("full")).str();
  EXPECT_THAT(html, HasSubstr("<h3><bdi>fennglass</bdi>: one copy of <bdi>fg</bdi></h3>"));
  EXPECT_THAT(html, HasSubstr("<bdi>orrelwood</bdi>"));
  EXPECT_THAT(html, HasSubstr("Hatched here</span> <span class=\"number\">91</span>"));
  EXPECT_THAT(html, HasSubstr("<li>by test: 34</li>"));
  EXPECT_THAT(html, HasSubstr("Not known to this day: 24 animals."));
  EXPECT_THAT(html,
              HasSubstr("<li>7 animals: known from the start: an ancestor shows the trait</li>"));
}

TEST(FlowSection, KnownAnimalsAreAddedUpOverWhatMadeThemKnown) {
  auto audit = sample("one");
  audit["flow"][0]["known"] = {{"test", 3}, {"breeding", 4}, {"visual", 5}, {"relatives", 6}};
  EXPECT_THAT(flow_section(audit).str(),
              HasSubstr("Became known</span> <span class=\"number\">18</span>"));
}

TEST(FlowSection, SaysThatNobodyWasLeftOut) {
  EXPECT_THAT(flow_section(sample("empty")).str(), HasSubstr("Nobody was left out"));
}

TEST(ScoresSection, PedigreeAndMarkersStandSideBySide) {
  auto audit = sample("one");
  for (auto& score : audit["scores"]) {
    if (score["score"] != "brier") continue;
    score["value"] = score["basis"] == "pedigree" ? 0.181 : 0.036;
    score["interval"] = {0.01, 0.3};
  }
  const auto cells = row(scores_section(audit, false).str(), "Brier score");
  ASSERT_EQ(cells.size(), 6U);
  EXPECT_THAT(cells[1], HasSubstr("0.181 (0.010"));
  EXPECT_THAT(cells[2], HasSubstr("0.036 (0.010"));
  EXPECT_EQ(cells[3], "1");
}

TEST(ScoresSection, NetBenefitHasARowForEachThreshold) {
  const auto html = scores_section(sample("full"), false).str();
  for (const auto* row_name :
       {"net benefit at 25.0\u00A0%", "net benefit at 50.0\u00A0%", "net benefit at 75.0\u00A0%"}) {
    EXPECT_EQ(row(html, row_name).size(), 6U) << row_name;
  }
}

TEST(ScoresSection, WhatCantBeGivenHasItsReason) {
  EXPECT_EQ(row(scores_section(sample("one"), false).str(), "AUC, all animals together")[2],
            "needs both hets and others");
}

TEST(ScoresSection, EveryScoreOfTheDocumentHasARow) {
  const auto html = scores_section(sample("full"), false).str();
  for (const ScoreKind& kind : score_kinds()) {
    EXPECT_THAT(html, HasSubstr("<bdi>" + escaped(kind.words).str())) << kind.code;
  }
}

TEST(ScoresSection, ForecastsOfBothBasesShareARow) {
  const auto html = scores_section(sample("one"), false).str();
  const auto cells = row(html.substr(html.find("Every forecast")), "25-C8-01");
  ASSERT_EQ(cells.size(), 10U);
  EXPECT_EQ(cells[6], "57.4\u00A0%");
  EXPECT_EQ(cells[7], "81.0\u00A0%");
  EXPECT_EQ(cells[8], "het");
}

TEST(MarkersSection, EachMarkerHasItsVerdictAndWhy) {
  const auto audit = sample("full");
  const auto html = markers_section(audit, false).str();
  EXPECT_EQ(times(html, "<article class=\"marker\">"), audit["markers"].size());
  EXPECT_THAT(html, HasSubstr("<bdi>bar-break</bdi>: <span class=\"verdict\">predicts</span>"));
  EXPECT_THAT(html, HasSubstr("It works in the line Hythe and not in Tarrow."));
  EXPECT_THAT(
      html,
      HasSubstr("It goes with another trait: <bdi>orrelwood</bdi> (<bdi>ow</bdi>), p &lt;0.001."));
  EXPECT_THAT(html, HasSubstr("<bdi>iris-ring, context 0</bdi>"));
  EXPECT_THAT(html, HasSubstr("6 markers were tried"));
}

TEST(MarkersSection, LevelsStandWithTheirCounts) {
  const auto cells = row(markers_section(sample("full"), false).str(), "one-or-two");
  EXPECT_EQ(cells,
            (std::vector<std::string>{"one-or-two", "14", "5", "44.0\u00A0%", "17.0\u00A0%"}));
}

TEST(ScorersSection, CountsReadings) {
  const auto html = scorers_section(sample("full"), false).str();
  EXPECT_EQ(row(html, "MO"), (std::vector<std::string>{"MO", "318", "17", "190", "128", "0"}));
  EXPECT_THAT(scorers_section(sample("one"), false).str(), HasSubstr("No animal was scored twice"));
}

TEST(TestedSection, SaysWhoWasTested) {
  const auto html = tested_section(sample("full")).str();
  const auto cells = row(html, "fennglass");
  ASSERT_EQ(cells.size(), 6U);
  EXPECT_EQ(cells[1], "looks selected");
  EXPECT_THAT(cells[5], HasSubstr("71.0"));
  EXPECT_EQ(row(tested_section(sample("one")).str(), "fennglass")[5], "–");
}

TEST(SummarySection, ListsMarkersByTheirVerdict) {
  const auto html = summary_section(sample("full")).str();
  EXPECT_THAT(html, HasSubstr("<strong>only in some lines:</strong> <bdi>ventral-comma</bdi>"));
  auto audit = sample("full");
  for (auto& marker : audit["markers"]) marker["words"] = "predicts";
  EXPECT_THAT(summary_section(audit).str(),
              HasSubstr("<bdi>bar-break</bdi> (<bdi>fennglass</bdi>), <bdi>chin-freckle</bdi>"));
}

TEST(FixedSections, SayWhatComesBeforeAnyFigure) {
  const auto limits = limits_section().str();
  for (const auto* words :
       {"estimate, not a guarantee", "consumer law", "Local law", "reptile veterinarian"}) {
    EXPECT_THAT(limits, HasSubstr(words));
  }
  EXPECT_THAT(reading_guide().str(), HasSubstr("Okabe and Ito"));
}

TEST(ReportingSection, AnswersOutOfTheDocument) {
  const auto html = reporting_section(sample("full")).str();
  EXPECT_THAT(html,
              HasSubstr("330 of 458 scores are recorded as blind"));  // 190 + 140 of 318 + 140
  EXPECT_THAT(html, HasSubstr("12 animals left out"));                // 7 + 2 + 3
  EXPECT_THAT(html, HasSubstr("1000 resamples of whole clutches, seed 1"));
  EXPECT_THAT(html, HasSubstr("from memory and not checked"));
  EXPECT_THAT(reporting_section(json()).str(), HasSubstr("not recorded by the program"));
}

}  // namespace
}  // namespace likelihet::publishing::sections_test
