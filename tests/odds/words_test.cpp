// Records and probabilities as they are told to a keeper.
#include <cmath>
#include <string>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>
#include <support/solved_colony.hpp>

#include <likelihet/odds/percent.hpp>
#include <likelihet/odds/words.hpp>

namespace likelihet::odds::words_test {
namespace {

using support::RecordsBuilder;

std::string told(const RecordsBuilder& records) {
  const auto colony = support::colony_of(support::masked_model(), records);
  return describe(colony, colony.observations().back());
}

RecordsBuilder one() {
  RecordsBuilder records;
  records.founder("F01");
  return records;
}

TEST(Describe, TellsWhatAnAnimalShows) {
  EXPECT_EQ(told(one().shows("F01", "brackmoor", "thornwick")), "F01: looks thornwick (brackmoor)");
  EXPECT_EQ(told(one().shows("F01", "tarnbrook", "plain").on("2024-06-11")),
            "F01: looks plain (tarnbrook) (2024-06-11)");
}

TEST(Describe, TellsWhoReadAMark) {
  EXPECT_EQ(told(one().score("F01", "crown-fleck", "strong", "ana").on("2024-06-11")),
            "F01: ana scored crown-fleck: strong (95 % sure) (2024-06-11)");
  EXPECT_EQ(told(one().score("F01", "crown-fleck", "faint")), "F01: crown-fleck: faint");
  EXPECT_EQ(told(one().score("F01", "crown-fleck", std::nullopt, "ana")),
            "F01: ana scored crown-fleck: could not be scored");
}

TEST(Describe, TellsAReportAndItsSample) {
  RecordsBuilder records = one().result("F01", "shed-pcr", "carrier");
  EXPECT_EQ(told(records), "F01: shed-pcr: carrier");
  std::get<colony::ResultRecord>(records.observation().what).sample = "S-0091";
  EXPECT_EQ(told(records), "F01: shed-pcr: carrier (sample S-0091)");
}

TEST(Describe, TellsABrood) {
  EXPECT_EQ(told(one().brood("F01", "tarnbrook", "e/e", {{"plain", 7}, {"tarnbrook", 2}})),
            "F01: brood with e/e: 7 plain, 2 tarnbrook");
  EXPECT_EQ(told(one().brood("F01", "tarnbrook", "+/e", {})), "F01: brood with +/e: none alive");
}

TEST(Describe, TellsAWithdrawal) {
  EXPECT_EQ(told(one().shows("F01", "tarnbrook", "plain").withdraw("o1").on("2024-07-03")),
            "o1 withdrawn (2024-07-03)");
}

// Where the day it was seen is not known, the day it was written down stands in.
TEST(Describe, TellsWhenItWasRecordedWhereNoDayIsGiven) {
  RecordsBuilder records = one().shows("F01", "tarnbrook", "plain");
  records.observation().recorded = colony::Timestamp::parse("2024-07-03T18:30:00Z");
  EXPECT_EQ(told(records), "F01: looks plain (tarnbrook) (recorded 2024-07-03)");
}

TEST(NameOf, TellsWhoseGenotypeOrFatherItIs) {
  RecordsBuilder records;
  records.clutch("C03", std::nullopt, {}).hatchling("H0301", "C03");
  const auto colony = support::colony_of(support::masked_model(), records);
  EXPECT_EQ(name_of(colony, {Owner::Kind::animal, 0, 1}), "H0301 at brackmoor");
  EXPECT_EQ(name_of(colony, {Owner::Kind::anonymous_dam, 0, 0}),
            "the unnamed dam of clutch C03 at tarnbrook");
  EXPECT_EQ(name_of(colony, {Owner::Kind::anonymous_sire, 0, 1}),
            "the unnamed sire of clutch C03 at brackmoor");
  EXPECT_EQ(name_of(colony, {Owner::Kind::clutch_sire, 0, 0}), "who fathered clutch C03");
  EXPECT_EQ(name_of(colony, {Owner::Kind::own_sire, 0, 0}), "who fathered H0301");
}

TEST(OddsPercent, HasOneDecimalRoundedToTheNearest) {
  EXPECT_EQ(percent(0.5), "50.0 %");
  EXPECT_EQ(percent(0.032), "3.2 %");
  EXPECT_EQ(percent(2.0 / 3), "66.7 %");
  EXPECT_EQ(percent(0.001), "0.1 %");
  EXPECT_EQ(percent(0.999), "99.9 %");
}

TEST(OddsPercent, TellsTheEndsFromWhatIsNearThem) {
  EXPECT_EQ(percent(-0.0), "0 %");
  EXPECT_EQ(percent(1e-300), "<0.1 %");
  EXPECT_EQ(percent(1 - 1e-15), ">99.9 %");
  EXPECT_EQ(percent(Chance{1.0, 1e-30}), ">99.9 %");
  EXPECT_EQ(percent(Chance{1.0, 0.0}), "100 %");
}

TEST(OddsPercent, OfARangeIsOneFigureWhereBothEndsReadTheSame) {
  EXPECT_EQ(percent_range(0.12, 0.345), "12.0 – 34.5 %");
  EXPECT_EQ(percent_range(0.12, 0.12004), "12.0 %");
  EXPECT_EQ(percent_range(0, 1), "0 – 100 %");
  EXPECT_EQ(percent_range(1e-9, 1 - 1e-9), "<0.1 – >99.9 %");
}

RC_GTEST_PROP(OddsPercentProperty, IsWithinHalfOfItsLastDigit, ()) {
  const double p = *rc::gen::inRange(1'000, 999'001) / 1e6;
  RC_ASSERT(std::abs(std::stod(percent(p)) / 100 - p) <= 0.0005 + 1e-9);
}

}  // namespace
}  // namespace likelihet::odds::words_test
