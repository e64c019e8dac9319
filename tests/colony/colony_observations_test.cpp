// Observations: what resolves, and every fault of each kind with its place.
#include <functional>
#include <limits>
#include <ostream>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <support/faults.hpp>
#include <support/small_model.hpp>

namespace likelihet::colony::colony_observations_test {
namespace {

using namespace likelihet::colony;
using namespace likelihet::support;
using likelihet::genetics::Chromosome;
using likelihet::genetics::Sex;
using testing::ElementsAre;

// One animal of each kind and one observation of each kind, o1 to o5.
RecordsBuilder seen() {
  RecordsBuilder builder;
  builder.founder("F01", Sex::female).founder("M02", Sex::male).clutch("C03", "F01", {"M02"});
  builder.clutch_record().hatched = day("2024-06-01");
  builder.hatchling("H1", "C03");
  builder.shows("F01", "tarnbrook", "plain").on("2024-01-10");
  builder.score("H1", "crown-fleck", "strong", "ana").on("2024-06-11");
  builder.result("H1", "shed-pcr", "carrier").on("2024-07-02");
  builder.brood("M02", "tarnbrook", "e/e", {{"plain", 7}, {"tarnbrook", 0}}).on("2025-06-20");
  builder.withdraw("o2").on("2025-07-01");
  return builder;
}

std::shared_ptr<const Model> tarnbrook() {
  return made(masked_model());
}

template <class Kind>
Kind only(const RecordsBuilder& builder, std::size_t position) {
  return std::get<Kind>(colony_of(tarnbrook(), builder.records).observations()[position].what);
}

TEST(Observations, ResolveEveryKind) {
  const Colony colony = colony_of(tarnbrook(), seen().records);
  const auto& all = colony.observations();
  ASSERT_EQ(all.size(), 5U);
  EXPECT_EQ(colony.find_observation("o3"), 2U);
  EXPECT_EQ(std::get<AppearanceSeen>(all[0].what).appearance, 0U);
  const auto& score = std::get<Score>(all[1].what);
  EXPECT_EQ(score.animal, 2U);
  EXPECT_EQ(score.level, 2U);
  EXPECT_EQ(score.scorer, 0U);
  EXPECT_EQ(score.sure, 0.95);
  EXPECT_EQ(score.blind, std::nullopt);
  EXPECT_EQ(std::get<Result>(all[2].what).report, 1U);
  const auto& brood = std::get<Brood>(all[3].what);
  EXPECT_EQ(brood.partner, 2U);
  EXPECT_EQ(brood.offspring, (std::vector<std::pair<std::size_t, std::int64_t>>{{0, 7}}));
  EXPECT_EQ(std::get<Withdrawal>(all[4].what).of, 1U);
  EXPECT_EQ(animal_of(all[3]), 1U);
  EXPECT_EQ(animal_of(all[4]), std::nullopt);
}

TEST(Observations, TakeSureFromTheReadingThenItsScorer) {
  RecordsBuilder builder = seen();
  builder.score("H1", "crown-fleck", "faint", "ana");
  std::get<ScoreRecord>(builder.observation().what).sure = 0.7;
  EXPECT_EQ(only<Score>(builder, 5).sure, 0.7);
  builder.score("H1", "crown-fleck", "faint");
  EXPECT_EQ(only<Score>(builder, 6).sure, 1.0);
}

TEST(Observations, AllowAScoreWithoutALevel) {
  RecordsBuilder builder = seen();
  builder.score("H1", "crown-fleck", std::nullopt);
  EXPECT_EQ(only<Score>(builder, 5).level, std::nullopt);
  std::get<ScoreRecord>(builder.observation().what).reason = "in shed";
  EXPECT_EQ(only<Score>(builder, 5).level, std::nullopt);
}

TEST(Observations, AreKnownFromWhenTheyWereWrittenDown) {
  RecordsBuilder builder = seen();
  auto& observations = builder.records.observations;
  observations[0].recorded = Timestamp::parse("2024-01-12T23:30:00-08:00");
  observations[2].entered = Timestamp::parse("2024-09-01T00:00:00Z");
  observations[3].on.reset();
  observations[3].entered = Timestamp::parse("2025-08-01T00:00:00Z");
  observations[4].on.reset();
  const Colony colony = colony_of(tarnbrook(), builder.records);
  EXPECT_EQ(colony.observations()[0].known, day("2024-01-12"));
  EXPECT_EQ(colony.observations()[0].on, day("2024-01-10"));
  EXPECT_EQ(colony.observations()[2].known, day("2024-07-02"));
  EXPECT_EQ(colony.observations()[3].known, day("2025-08-01"));
  EXPECT_EQ(colony.observations()[4].known, std::nullopt);
}

struct Spoilt {
  const char* name;
  std::function<void(RecordsBuilder&)> spoil;
  std::string place, what, mend;
  friend void PrintTo(const Spoilt& spoilt, std::ostream* out) { *out << spoilt.name; }
};

class ObservationFault : public testing::TestWithParam<Spoilt> {};

TEST_P(ObservationFault, IsToldOnceWithItsPlace) {
  RecordsBuilder builder = seen();
  GetParam().spoil(builder);
  const Faults faults = faults_of(tarnbrook(), builder.records);
  EXPECT_THAT(faults, one_fault(GetParam().place, GetParam().what, GetParam().mend))
      << told(faults);
}

using B = RecordsBuilder;

ScoreRecord& score(B& builder) {
  return std::get<ScoreRecord>(builder.records.observations[1].what);
}

const std::vector<Spoilt> spoilt_observations = {
    {"ObservationTwice", [](B& b) { b.records.observations[4].id = "o1"; }, "/observations/4/id",
     "'o1' is that of another record too: /observations/0", "an id of its own"},
    {"UnknownAnimal", [](B& b) { b.shows("F1", "tarnbrook", "plain"); }, "/observations/5/animal",
     "'F1'", "did you mean 'F01'?"},
    {"UnknownLocus", [](B& b) { b.shows("F01", "tarnbrooks", "plain"); }, "/observations/5/locus",
     "'tarnbrooks'", "did you mean 'tarnbrook'?"},
    {"UnknownAppearance", [](B& b) { b.shows("F01", "tarnbrook", "Plane"); },
     "/observations/5/shows", "'Plane'", "did you mean 'plain'?"},
    {"SeenBeforeItHatched", [](B& b) { b.shows("H1", "tarnbrook", "plain").on("2024-05-31"); },
     "/observations/5/on", "2024-05-31, before it hatched on 2024-06-01", "correct"},
    {"UnknownMarker", [](B& b) { score(b).marker = "crown-flek"; }, "/observations/1/marker",
     "'crown-flek'", "did you mean 'crown-fleck'?"},
    {"UnknownLevel", [](B& b) { score(b).level = "stron"; }, "/observations/1/level", "'stron'",
     "did you mean 'strong'?"},
    {"UnknownScorer", [](B& b) { score(b).scorer = "anna"; }, "/observations/1/scorer", "'anna'",
     "did you mean 'ana'?"},
    {"Sure", [](B& b) { score(b).sure = 90; }, "/observations/1/sure", "90", "from 0 to 1"},
    {"SureNotANumber", [](B& b) { score(b).sure = std::numeric_limits<double>::quiet_NaN(); },
     "/observations/1/sure", "nan", "from 0 to 1"},
    {"LevelAndReason", [](B& b) { score(b).reason = "in shed"; }, "/observations/1/reason",
     "'in shed', but the level is 'strong'", "leave one"},
    {"ScoredBeforeItHatched", [](B& b) { b.records.observations[1].on = day("2024-05-31"); },
     "/observations/1/on", "before it hatched", "correct"},
    {"ScoredBeforeItsOwnDate", [](B& b) { b.animal().hatched = day("2024-06-12"); },
     "/observations/1/on", "2024-06-11, before it hatched on 2024-06-12", "correct"},
    {"UnknownAssay", [](B& b) { b.result("H1", "shed-pcrr", "carrier"); }, "/observations/5/assay",
     "'shed-pcrr'", "did you mean 'shed-pcr'?"},
    {"UnknownReport", [](B& b) { b.result("H1", "shed-pcr", "carier"); }, "/observations/5/report",
     "'carier'", "did you mean 'carrier'?"},
    {"TestedBeforeItHatched", [](B& b) { b.result("H1", "shed-pcr", "clear").on("2024-01-01"); },
     "/observations/5/on", "before it hatched", "correct"},
    {"PartnerKey", [](B& b) { b.brood("M02", "tarnbrook", "e/+", {}); }, "/observations/5/partner",
     "'e/+'", "write '+/e'"},
    {"NegativeCount",
     [](B& b) {
       b.brood("M02", "tarnbrook", "e/e", {{"plain", -1}});
     },
     "/observations/5/offspring/plain", "-1", "from 0 to 1000000"},
    {"CountBeyondAnyBrood",
     [](B& b) {
       b.brood("M02", "tarnbrook", "e/e", {{"plain", 9007199254740992}});
     },
     "/observations/5/offspring/plain", "9007199254740992", "from 0 to 1000000"},
    {"UnknownOffspring",
     [](B& b) {
       b.brood("M02", "tarnbrook", "e/e", {{"a/b", 1}});
     },
     "/observations/5/offspring/a~1b", "'a/b'", "'plain'"},
    {"OffspringTwice",
     [](B& b) {
       b.brood("M02", "tarnbrook", "e/e", {{"plain", 1}, {"plain", 2}});
     },
     "/observations/5/offspring/plain", "twice", "once"},
    {"BroodOfUnknownLocus",
     [](B& b) {
       b.brood("M02", "tarnbrok", "e/e", {{"plain", 1}});
     },
     "/observations/5/locus", "'tarnbrok'", "did you mean 'tarnbrook'?"},
    {"WithdrawalOfNothing", [](B& b) { b.withdraw("o99"); }, "/observations/5/of", "'o99'",
     "known are 'o1'"},
    {"WithdrawalOfItself", [](B& b) { b.withdraw("o6"); }, "/observations/5/of",
     "'o6' withdraws itself", "before"},
    {"WithdrawalsInACircle", [](B& b) { b.withdraw("o8").withdraw("o6").withdraw("o7"); },
     "/observations/5/of", "'o6' of 'o8' of 'o7' of 'o6'", "before"},
    {"TailIntoACircle", [](B& b) { b.withdraw("o7").withdraw("o8").withdraw("o7"); },
     "/observations/6/of", "'o7' of 'o8' of 'o7'", "before"},
};

std::string name_of(const testing::TestParamInfo<Spoilt>& info) {
  return info.param.name;
}
INSTANTIATE_TEST_SUITE_P(Each, ObservationFault, testing::ValuesIn(spoilt_observations), name_of);

// On Z a partner with one copy is a female: no match for a female, nor two copies for a male.
TEST(ObservationFaults, TellAPartnerOfTheSameSex) {
  const auto model = made(sex_linked_model(Chromosome::z));
  RecordsBuilder builder;
  builder.founder("F", Sex::female).founder("M", Sex::male).founder("U");
  builder.brood("F", "tarnbrook", "e/e", {}).brood("F", "tarnbrook", "e/W", {});
  builder.brood("M", "tarnbrook", "e/W", {}).brood("M", "tarnbrook", "+/e", {});
  builder.brood("U", "tarnbrook", "+/e", {}).brood("U", "tarnbrook", "+/W", {});
  const Faults faults = faults_of(model, builder.records);
  EXPECT_THAT(places(faults), ElementsAre("/observations/1/partner", "/observations/3/partner"));
  EXPECT_THAT(faults[0].what, testing::HasSubstr("'e/W' is a female's, and so is 'F'"));
}

TEST(ObservationFaults, AreAllTold) {
  RecordsBuilder builder = seen();
  builder.score("H9", "crown-flek", "x", "anna");
  std::get<ScoreRecord>(builder.observation().what).sure = 2;
  builder.brood("M9", "tarnbrook", "x", {{"y", -1}});
  EXPECT_THAT(
      places(faults_of(tarnbrook(), builder.records)),
      ElementsAre("/observations/5/animal", "/observations/5/scorer", "/observations/5/sure",
                  "/observations/5/marker", "/observations/6/animal", "/observations/6/partner",
                  "/observations/6/offspring/y", "/observations/6/offspring/y"));
}

}  // namespace
}  // namespace likelihet::colony::colony_observations_test
