// Forecasts are made before the truth, from what was there then, and never by what told it.
#include "audit/simulated_season.hpp"
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <likelihet/audit/forecasts.hpp>
#include <likelihet/audit/learned_draws.hpp>
#include <likelihet/audit/markerless.hpp>

namespace likelihet::audit::forecasts_test {
namespace {

using support::RecordsBuilder;

SeasonSettings one_marker() {
  SeasonSettings settings;
  settings.clutches = 3;
  settings.hatchlings = 5;
  settings.markers = {
      {"crown-fleck", 2,
       [](const Hatchling& h) {
         return h.carrier ? std::vector<double>{0.3, 0.7} : std::vector<double>{0.8, 0.2};
       },
       false}};
  return settings;
}

Forecasts forecast(const colony::Colony& colony) {
  auto found = forecasts(colony, {});
  return std::get<Forecasts>(std::move(found));
}

const Forecast* find(const Forecasts& all, const colony::Colony& colony, const std::string& animal,
                     Basis basis, Scheme scheme) {
  for (const Forecast& one : all.forecasts) {
    const Truth& truth = all.truths[one.truth];
    if (colony.animals()[truth.event.animal].id == animal && truth.event.locus == 0 &&
        one.basis == basis && one.scheme == scheme) {
      return &one;
    }
  }
  return nullptr;
}

const Refused* refused(const Forecasts& all, const colony::Colony& colony,
                       const std::string& animal, Scheme scheme) {
  for (const Refused& one : all.refused) {
    const Truth& truth = all.truths[one.truth];
    if (colony.animals()[truth.event.animal].id == animal && truth.event.locus == 0 &&
        one.scheme == scheme) {
      return &one;
    }
  }
  return nullptr;
}

// A clutch of a carrier and a clear male; H1 is tested on the day given.
RecordsBuilder small_book() {
  RecordsBuilder records;
  records.founder("F", genetics::Sex::female, "bought").bought_as("tarnbrook", {{"+/e", 1.0}}, 1.0);
  records.founder("M", genetics::Sex::male);
  records.clutch("C", "F", {"M"});
  records.clutch_record().hatched = support::day("2026-06-01");
  for (const char* id : {"H1", "H2", "H3"}) records.hatchling(id, "C");
  records.score("H1", "crown-fleck", "level-1").on("2026-06-11");
  records.score("H2", "crown-fleck", "level-0").on("2026-06-11");
  return records;
}

colony::Colony made(const RecordsBuilder& records) {
  return support::colony_of(support::made(season_model(one_marker().markers)), records.records);
}

TEST(Forecasts, AreOfTheDayBeforeTheTruthWasRecorded) {
  auto records = small_book();
  records.result("H1", "tarnbrook-test", "carrier").on("2026-08-01");
  const auto colony = made(records);
  const auto all = forecast(colony);
  // H1 at tarnbrook, its parents there, and all five animals at brackmoor, by descent alone.
  ASSERT_EQ(all.truths.size(), 1U + 2U + 5U);
  const auto* pedigree = find(all, colony, "H1", Basis::pedigree, Scheme::as_it_stood);
  ASSERT_NE(pedigree, nullptr);
  EXPECT_NEAR(pedigree->probability, 0.5, 1e-12);
  EXPECT_EQ(all.truths[pedigree->truth].known_on->text(), "2026-08-01");
  EXPECT_EQ(all.truths[pedigree->truth].kind, Kind::test);
  EXPECT_TRUE(all.truths[pedigree->truth].so());
  EXPECT_GT(all.truths[pedigree->truth].probability, 0.99);
}

// The forecast is exactly what the book of the day before gives, tables learned from it alone.
TEST(Forecasts, EqualTheOddsOfTheBookCutOffTheDayBefore) {
  const Season season = simulated_season(one_marker(), 3);
  const auto colony = season.colony();
  const auto all = forecast(colony);
  std::size_t checked = 0;
  for (const Forecast& one : all.forecasts) {
    if (one.scheme != Scheme::as_it_stood) continue;
    const Truth& truth = all.truths[one.truth];
    const long eve = truth.known_on->days() - 1;
    colony::Records cut = season.records;
    std::erase_if(cut.observations, [&](const auto& o) { return o.on && o.on->days() > eve; });
    const auto then = support::colony_of(season.model, cut);
    const auto scenario = odds::scenario(then, std::nullopt);
    if (one.basis == Basis::pedigree) {
      const auto odds = event_odds(without_scores(scenario), odds::believed(*season.model),
                                   {truth.event}, 1U << 30U);
      EXPECT_NEAR(one.probability, std::get<std::vector<double>>(odds)[0], 1e-12);
    } else {
      DrawSettings longer;
      longer.draws = 2000;
      longer.seed = 99;
      LearnedDraws anew(*season.model, longer);
      const auto odds = anew.odds(scenario, scenario, {truth.event});
      EXPECT_NEAR(one.probability, std::get<std::vector<double>>(odds)[0], 0.04);
    }
    ++checked;
  }
  EXPECT_GT(checked, 6U);
}

// What is recorded on the day itself or later changes no forecast.
TEST(Forecasts, DoNotSeeTheFuture) {
  const Season season = simulated_season(one_marker(), 4);
  const auto colony = season.colony();
  const auto all = forecast(colony);
  Season more = season;
  RecordsBuilder later;
  later.records = season.records;
  for (std::size_t h = 0; h < 5; ++h) {
    later.score("C0-" + std::to_string(h), "crown-fleck", h % 2 == 0 ? "level-1" : "level-0")
        .on("2027-05-01");
  }
  more.records = later.records;
  const auto after = more.colony();
  const auto again = forecast(after);
  for (const Forecast& one : all.forecasts) {
    if (one.scheme != Scheme::as_it_stood) continue;
    const std::string& id = colony.animals()[all.truths[one.truth].event.animal].id;
    const auto* same = find(again, after, id, one.basis, Scheme::as_it_stood);
    if (all.truths[one.truth].event.locus != 0) continue;
    ASSERT_NE(same, nullptr) << id;
    EXPECT_NEAR(same->probability, one.probability, 1e-12) << id;
  }
}

// Planted: the truth was in the book before any day. To forecast it would be to score an answer.
TEST(Forecasts, AnAnimalThatTaughtItsOwnForecastIsRefused) {
  auto records = small_book();
  records.result("H1", "tarnbrook-test", "carrier");  // no day: it always counts
  const auto colony = made(records);
  const auto all = forecast(colony);
  EXPECT_EQ(find(all, colony, "H1", Basis::scored, Scheme::as_it_stood), nullptr);
  EXPECT_EQ(find(all, colony, "H1", Basis::scored, Scheme::clutch_left_out), nullptr);
  const auto* why = refused(all, colony, "H1", Scheme::as_it_stood);
  ASSERT_NE(why, nullptr);
  EXPECT_EQ(why->why, Refusal::known_from_the_start);
}

TEST(Forecasts, ATruthRecordedBeforeItsDayIsForecastBeforeThatRecord) {
  auto records = small_book();
  records.result("H1", "tarnbrook-test", "carrier").on("2026-08-01");
  records.observation().recorded = *colony::Timestamp::parse("2026-07-10T08:00:00Z");
  const auto colony = made(records);
  const auto all = forecast(colony);
  const auto* found = find(all, colony, "H1", Basis::scored, Scheme::as_it_stood);
  ASSERT_NE(found, nullptr);
  EXPECT_EQ(all.truths[found->truth].known_on->text(), "2026-07-10");
}

TEST(Forecasts, AHatchlingCertainFromItsParentsIsRefused) {
  auto records = small_book();
  records.founder("V", genetics::Sex::female, "bought").bought_as("tarnbrook", {{"e/e", 1.0}}, 1.0);
  records.clutch("K", "V", {"M"}).hatchling("K1", "K");
  const auto colony = made(records);
  const auto all = forecast(colony);
  const auto* why = refused(all, colony, "K1", Scheme::as_it_stood);
  ASSERT_NE(why, nullptr);
  EXPECT_EQ(why->why, Refusal::known_from_the_start);
}

TEST(Forecasts, AHatchlingWhoseParentWasProvenBeforeItHatchedIsRefused) {
  RecordsBuilder records;
  records.founder("V", genetics::Sex::female, "bought");
  records.result("V", "tarnbrook-test", "affected").on("2026-01-05");
  records.shows("V", "tarnbrook", "tarnbrook").on("2026-01-05");
  records.founder("M", genetics::Sex::male).clutch("K", "V", {"M"});
  records.clutch_record().hatched = support::day("2026-06-01");
  records.hatchling("K1", "K");
  const auto colony = made(records);
  const auto all = forecast(colony);
  const auto* why = refused(all, colony, "K1", Scheme::as_it_stood);
  ASSERT_NE(why, nullptr);
  EXPECT_EQ(why->why, Refusal::known_before_hatching);
}

// With its clutch and all its offspring left out the rest of the book still proves the dam through
// her own test: nothing is left to forecast of a hatchling that follows from her.
TEST(Forecasts, LeavingTheClutchOutRefusesWhatTheRestMakesKnown) {
  RecordsBuilder records;
  records.founder("V", genetics::Sex::female, "bought");
  records.founder("M", genetics::Sex::male).clutch("K", "V", {"M"});
  records.clutch_record().hatched = support::day("2026-06-01");
  records.hatchling("K1", "K");
  records.result("K1", "tarnbrook-test", "carrier").on("2026-08-01");
  records.shows("V", "tarnbrook", "tarnbrook").on("2026-09-01");
  const auto colony = made(records);
  const auto all = forecast(colony);
  EXPECT_NE(find(all, colony, "K1", Basis::pedigree, Scheme::as_it_stood), nullptr);
  const auto* why = refused(all, colony, "K1", Scheme::clutch_left_out);
  ASSERT_NE(why, nullptr);
  EXPECT_EQ(why->why, Refusal::others_tell);
}

// A clutch's own results change no forecast made without the clutch, but for the draws of tables,
// which begin at those of the whole book.
TEST(Forecasts, WithoutTheClutchDoNotHangOnItsOutcomes) {
  auto one = small_book();
  one.result("H1", "tarnbrook-test", "carrier").on("2026-08-01");
  one.result("H2", "tarnbrook-test", "clear").on("2026-08-02");
  auto other = small_book();
  other.result("H1", "tarnbrook-test", "clear").on("2026-08-01");
  other.result("H2", "tarnbrook-test", "carrier").on("2026-08-02");
  const auto first = made(one);
  const auto second = made(other);
  const auto a = forecast(first);
  const auto b = forecast(second);
  for (const char* id : {"H1", "H2"}) {
    const auto* x = find(a, first, id, Basis::scored, Scheme::clutch_left_out);
    const auto* y = find(b, second, id, Basis::scored, Scheme::clutch_left_out);
    ASSERT_NE(x, nullptr);
    ASSERT_NE(y, nullptr);
    EXPECT_NEAR(x->probability, y->probability, 0.02);
  }
}

TEST(Forecasts, KindsOfOutcomeAreTold) {
  RecordsBuilder records = small_book();
  records.result("H1", "tarnbrook-test", "carrier").on("2026-08-01");
  records.brood("H2", "tarnbrook", "e/e", {{"tarnbrook", 3}, {"plain", 4}}).on("2027-08-01");
  records.shows("H3", "tarnbrook", "tarnbrook").on("2026-09-01");
  records.founder("W", genetics::Sex::male, "bought")
      .bought_as("tarnbrook", {{"+/e", 0.5}, {"+/+", 0.5}}, 1);
  records.clutch("K", "F", {"W"}).hatchling("K1", "K");
  records.clutch_record().hatched = support::day("2027-06-01");
  records.shows("K1", "tarnbrook", "tarnbrook").on("2027-06-02");
  // H3 shows what a clear sire cannot give: take the sire as unknown.
  records.records.clutches[0].sires.clear();
  records.records.clutches[0].sire_origin = "bought";
  const auto colony = made(records);
  const auto all = forecast(colony);
  std::map<std::string, Kind> kinds;
  for (const Truth& truth : all.truths) {
    if (truth.event.locus == 0) kinds[colony.animals()[truth.event.animal].id] = truth.kind;
  }
  EXPECT_EQ(kinds.at("H1"), Kind::test);
  EXPECT_EQ(kinds.at("H2"), Kind::breeding);
  EXPECT_EQ(kinds.at("H3"), Kind::visual);
  EXPECT_EQ(kinds.at("W"), Kind::breeding);
}

TEST(Forecasts, DoNotHangOnTheOrderOfRecords) {
  const Season season = simulated_season(one_marker(), 6);
  Season turned = season;
  std::reverse(turned.records.animals.begin(), turned.records.animals.end());
  std::reverse(turned.records.clutches.begin(), turned.records.clutches.end());
  std::reverse(turned.records.observations.begin(), turned.records.observations.end());
  const auto one = season.colony();
  const auto two = turned.colony();
  const auto a = forecast(one);
  const auto b = forecast(two);
  ASSERT_EQ(a.forecasts.size(), b.forecasts.size());
  for (const Forecast& f : a.forecasts) {
    if (a.truths[f.truth].event.locus != 0) continue;
    const auto* same =
        find(b, two, one.animals()[a.truths[f.truth].event.animal].id, f.basis, f.scheme);
    ASSERT_NE(same, nullptr);
    EXPECT_DOUBLE_EQ(same->probability, f.probability);
  }
}

TEST(Forecasts, OfABookThatContradictsItselfAreTheContradiction) {
  RecordsBuilder records = small_book();
  records.shows("H1", "tarnbrook", "tarnbrook").on("2026-07-01");
  const auto found = forecasts(made(records), {});
  EXPECT_TRUE(std::holds_alternative<odds::Contradiction>(found));
}

TEST(Forecasts, OfAnEmptyColonyAreNone) {
  const auto all = forecast(made(RecordsBuilder()));
  EXPECT_TRUE(all.forecasts.empty());
  EXPECT_TRUE(all.truths.empty());
}

}  // namespace
}  // namespace likelihet::audit::forecasts_test
