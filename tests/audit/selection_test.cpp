// Whether those whose markers spoke for them were tested rather than others.
#include "audit/simulated_season.hpp"
#include <gtest/gtest.h>

#include <likelihet/audit/selection.hpp>

namespace likelihet::audit::selection_test {
namespace {

using support::RecordsBuilder;

std::vector<Selection> selected(const colony::Colony& colony) {
  const TruthSettings settings;
  auto found = truths(colony, settings);
  auto background = marker_background(colony, std::get<std::vector<Truth>>(found), settings);
  auto out = selections(colony, std::get<MarkerBackground>(background), settings);
  return std::get<std::vector<Selection>>(std::move(out));
}

SeasonSettings season(std::function<double(const Hatchling&)> tested) {
  SeasonSettings out;
  out.clutches = 8;
  out.hatchlings = 8;
  out.markers = {{"crown-fleck", 3,
                  [](const Hatchling& h) {
                    return h.carrier ? std::vector<double>{0.25, 0.35, 0.4}
                                     : std::vector<double>{0.8, 0.15, 0.05};
                  },
                  false}};
  out.tested = std::move(tested);
  return out;
}

// In how many of so many seasons the tests at tarnbrook look selected.
std::size_t look_selected(const SeasonSettings& settings, std::size_t seasons) {
  std::size_t out = 0;
  for (std::size_t seed = 0; seed < seasons; ++seed) {
    const auto found = selected(simulated_season(settings, 300 + seed).colony());
    EXPECT_EQ(found.at(0).locus, 0U);
    EXPECT_EQ(found.at(0).tested + found.at(0).untested, 64U);
    EXPECT_NE(found.at(0).verdict, Selected::too_few);
    out += found.at(0).verdict == Selected::looks_selected ? 1 : 0;
  }
  return out;
}

TEST(Selection, OfTheLoudestLooksSelected) {
  const auto loudest = season([](const Hatchling& h) { return h.levels[0] == 0 ? 0.1 : 0.8; });
  EXPECT_EQ(look_selected(loudest, books(40, 8)), books(40, 8));
}

// By chance the interval of one season in forty lies above 1/2: of 100 seasons 2.5, with a standard
// deviation of 1.6.
TEST(Selection, AtRandomLooksRandom) {
  const auto random = season([](const Hatchling&) { return 0.5; });
  EXPECT_LE(look_selected(random, 100), 8U);
}

TEST(Selection, OfTheQuietestDoesNotLookSelected) {
  const auto quiet = season([](const Hatchling& h) { return h.levels[0] == 0 ? 0.8 : 0.1; });
  EXPECT_EQ(look_selected(quiet, books(40, 8)), 0U);
}

// Hatchlings of a het and a male without a copy, each with a level of crown-fleck: the first so
// many are tested. "faint" and "strong" speak for a het, "absent" against.
RecordsBuilder clutch(const std::vector<const char*>& levels, std::size_t tested) {
  RecordsBuilder records;
  records.founder("F", genetics::Sex::female, "bought").bought_as("tarnbrook", {{"+/e", 1.0}}, 1.0);
  records.founder("M", genetics::Sex::male);
  records.clutch("C", "F", {"M"});
  for (std::size_t h = 0; h < levels.size(); ++h) {
    const std::string id = "H" + std::to_string(h);
    records.hatchling(id, "C").score(id, "crown-fleck", levels[h]).on("2026-06-11");
    if (h >= tested) continue;
    const bool shows = std::string(levels[h]) != "absent";
    records.result(id, "shed-pcr", shows ? "carrier" : "clear").on("2026-08-01");
  }
  return records;
}

Selection of_clutch(const RecordsBuilder& records, double weight = 1) {
  auto model = support::masked_model();
  model.markers[0].weight = weight;
  const auto found = selected(support::colony_of(support::made(model), records.records));
  EXPECT_EQ(found.size(), 1U);  // no assay tests for brackmoor
  return found.at(0);
}

TEST(Selection, UnderFiveTestedOrUntestedAreTooFew) {
  const auto four = of_clutch(clutch(
      {"strong", "strong", "strong", "strong", "absent", "absent", "absent", "absent", "absent"},
      4));
  EXPECT_EQ(four.tested, 4U);
  EXPECT_EQ(four.untested, 5U);
  EXPECT_EQ(four.louder.value().value, 1);
  EXPECT_EQ(four.verdict, Selected::too_few);
  const auto left = of_clutch(clutch(
      {"strong", "strong", "strong", "strong", "strong", "absent", "absent", "absent", "absent"},
      5));
  EXPECT_EQ(left.untested, 4U);
  EXPECT_EQ(left.verdict, Selected::too_few);
  const auto enough = of_clutch(clutch({"strong", "strong", "strong", "strong", "strong", "absent",
                                        "absent", "absent", "absent", "absent"},
                                       5));
  EXPECT_EQ(enough.verdict, Selected::looks_selected);
}

TEST(Selection, WithoutTestsNothingIsLouder) {
  const auto none = of_clutch(clutch({"strong", "absent", "faint"}, 0));
  EXPECT_EQ(none.tested, 0U);
  EXPECT_EQ(none.untested, 3U);
  EXPECT_FALSE(none.louder);
  EXPECT_EQ(none.verdict, Selected::too_few);
}

// Tested: clear four times, absent once; untested: absent four times, clear once. Of 25 pairs 16
// speak louder for the tested one and 4 + 4 are alike: 20 / 25.
TEST(Selection, MarkersThatSpeakAlikeCountHalfAndLowScoresAreCounted) {
  const auto found = of_clutch(clutch({"strong", "strong", "strong", "strong", "absent", "absent",
                                       "absent", "absent", "absent", "strong"},
                                      5));
  EXPECT_EQ(found.tested, 5U);
  EXPECT_EQ(found.untested, 5U);
  EXPECT_EQ(found.low_score_tested, 1U);
  EXPECT_DOUBLE_EQ(found.louder.value().value, 0.8);
}

TEST(Selection, MarkersOfNoWeightSpeakAgainstNoOne) {
  const auto found = of_clutch(clutch({"strong", "absent", "faint", "absent", "strong", "absent",
                                       "strong", "faint", "absent", "absent"},
                                      5),
                               0);
  EXPECT_EQ(found.tested, 5U);
  EXPECT_EQ(found.low_score_tested, 0U);
  EXPECT_EQ(found.louder.value().value, 0.5);
  EXPECT_EQ(found.verdict, Selected::looks_random);
}

// What the markers say of an animal must not be read off its own result: here all results turn the
// markers round.
TEST(Selection, ResultsDoNotMakeMarkersLouder) {
  auto records = clutch({"absent", "absent", "absent", "absent", "absent", "strong", "strong",
                         "strong", "strong", "strong"},
                        0);
  for (std::size_t h = 0; h < 5; ++h) {
    records.result("H" + std::to_string(h), "shed-pcr", "carrier").on("2026-08-01");
  }
  const auto found = of_clutch(records);
  EXPECT_EQ(found.louder.value().value, 0);
  EXPECT_EQ(found.low_score_tested, 5U);
  EXPECT_EQ(found.verdict, Selected::looks_random);
}

// The clear male M and his offspring by another clear female are certain; N shows two copies.
TEST(Selection, CertainAnimalsAndThoseThatShowTheTraitAreNotCounted) {
  auto records = clutch({"strong", "absent", "faint"}, 1);
  records.founder("G", genetics::Sex::female).clutch("D", "G", {"M"}).hatchling("K", "D");
  records.founder("N", genetics::Sex::male, "bought").shows("N", "tarnbrook", "tarnbrook");
  for (const char* id : {"M", "K", "N"}) {
    records.score(id, "crown-fleck", "faint").result(id, "shed-pcr", "clear");
  }
  std::get<colony::ResultRecord>(records.observation().what).report = "affected";
  const auto found = of_clutch(records);
  EXPECT_EQ(found.tested, 1U);
  EXPECT_EQ(found.untested, 2U);
}

// An animal whose markers were read once its truth was known says nothing of who was chosen.
TEST(Selection, AnimalsReadAfterTheirTruthAreNotCounted) {
  auto records = clutch({"strong", "absent", "faint"}, 1);
  records.hatchling("L", "C").result("L", "shed-pcr", "carrier").on("2026-07-01");
  records.score("L", "crown-fleck", "strong").on("2026-07-01");
  const auto found = of_clutch(records);
  EXPECT_EQ(found.tested, 1U);
  EXPECT_EQ(found.untested, 2U);
}

}  // namespace
}  // namespace likelihet::audit::selection_test
