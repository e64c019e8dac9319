// Odds as they stood on a day: dates, withdrawals, and readings whose context came later.
#include <cmath>
#include <string>

#include <gtest/gtest.h>
#include <support/solved_colony.hpp>

namespace likelihet::odds::as_of_test {
namespace {

using support::day;
using support::RecordsBuilder;
using support::SolvedColony;

Options as_of(const std::string& date) {
  Options options = support::only_odds();
  options.as_of = day(date);
  return options;
}

// A reading of ratio 8 in May, a report of ratio 0.003/0.985 (mix-ups left out) in June, which is
// withdrawn in July.
RecordsBuilder season() {
  RecordsBuilder records;
  records.founder("F").bought_as("tarnbrook", {{"+/+", 0.5}, {"+/e", 0.5}});
  records.score("F", "crown-fleck", "strong").on("2024-05-02");
  records.result("F", "shed-pcr", "clear").on("2024-06-02");
  records.withdraw("o2").on("2024-07-02");
  return records;
}

colony::ModelDescription no_mix_ups() {
  auto model = support::masked_model();
  model.assays[0].mix_up = 0;
  return model;
}

double carrier(const RecordsBuilder& records, const std::string& date) {
  return SolvedColony(no_mix_ups(), records, as_of(date)).posterior("F", "+/e");
}

TEST(AsOf, CountsWhatWasKnownByTheEndOfTheDay) {
  EXPECT_NEAR(carrier(season(), "2024-05-01"), 0.5, 1e-15);
  EXPECT_NEAR(carrier(season(), "2024-05-02"), 8.0 / 9, 1e-14);
  EXPECT_NEAR(carrier(season(), "2024-06-01"), 8.0 / 9, 1e-14);
  const double odds = 8 * 0.003 / 0.985;
  EXPECT_NEAR(carrier(season(), "2024-06-02"), odds / (1 + odds), 1e-14);
  EXPECT_NEAR(carrier(season(), "2024-07-01"), odds / (1 + odds), 1e-14);
}

TEST(AsOf, LeavesOutWhatWasWithdrawnByThen) {
  EXPECT_NEAR(carrier(season(), "2024-07-02"), 8.0 / 9, 1e-14);
  EXPECT_NEAR(SolvedColony(no_mix_ups(), season()).posterior("F", "+/e"), 8.0 / 9, 1e-14);
}

// Withdrawn and the withdrawal withdrawn: it counts again, from that day.
TEST(AsOf, FollowsAWithdrawalOfAWithdrawal) {
  RecordsBuilder records = season();
  records.withdraw("o3").on("2024-08-02");
  const double odds = 8 * 0.003 / 0.985;
  EXPECT_NEAR(carrier(records, "2024-08-01"), 8.0 / 9, 1e-14);
  EXPECT_NEAR(carrier(records, "2024-08-02"), odds / (1 + odds), 1e-14);
}

// Nothing is erased: a withdrawn record is as good as never made, for odds and for ln P alike.
TEST(Withdrawal, LeavesTheOddsAsIfItHadNeverBeen) {
  RecordsBuilder never;
  never.founder("F").bought_as("tarnbrook", {{"+/+", 0.5}, {"+/e", 0.5}});
  never.score("F", "crown-fleck", "strong");
  const SolvedColony without(no_mix_ups(), never);
  const SolvedColony withdrawn(no_mix_ups(), season());
  EXPECT_EQ(without.at("F").posterior, withdrawn.at("F").posterior);
  EXPECT_EQ(without.odds().log_evidence, withdrawn.odds().log_evidence);
}

TEST(Withdrawal, OfAllLeavesNothingToWeigh) {
  RecordsBuilder records = season();
  records.withdraw("o1").on("2024-07-03");
  const SolvedColony solved(no_mix_ups(), records);
  EXPECT_EQ(solved.odds().log_evidence, 0.0);
  EXPECT_NEAR(solved.posterior("F", "+/e"), 0.5, 1e-15);
}

// A clash is gone once one of its records is withdrawn, and there again as of the day before.
TEST(Withdrawal, EndsAContradiction) {
  RecordsBuilder records;
  records.founder("F").shows("F", "tarnbrook", "tarnbrook").on("2024-05-01");
  records.withdraw("o1").on("2024-05-09");
  const auto colony = support::colony_of(no_mix_ups(), records);
  EXPECT_TRUE(std::holds_alternative<ColonyOdds>(compute(colony, support::only_odds())));
  EXPECT_TRUE(std::holds_alternative<Contradiction>(compute(colony, as_of("2024-05-08"))));
  EXPECT_TRUE(std::holds_alternative<ColonyOdds>(compute(colony, as_of("2024-04-30"))));
}

// The context is what was recorded by that day: a reading counted until the look that masks it was
// written down.
TEST(AsOf, TakesContextsAsTheyWereRecorded) {
  RecordsBuilder records;
  records.founder("F").bought_as("tarnbrook", {{"+/+", 0.5}, {"+/e", 0.5}});
  records.bought_as("brackmoor", {{"s/s", 0.5}, {"+/s", 0.5}});
  records.score("F", "crown-fleck", "strong").on("2024-05-02");
  records.shows("F", "brackmoor", "thornwick").on("2024-09-02");
  EXPECT_NEAR(carrier(records, "2024-05-02"), 8.0 / 9, 1e-14);
  EXPECT_NEAR(carrier(records, "2024-09-02"), 0.5, 1e-14);
}

// Pedigree and sexes have no day: they are as they stand now.
TEST(AsOf, KeepsThePedigree) {
  RecordsBuilder records;
  records.founder("D").bought_as("tarnbrook", {{"+/e", 1.0}}).founder("S");
  records.clutch("C", "D", {"S"}).hatchling("F", "C");
  records.clutch_record().hatched = day("2024-06-01");
  records.shows("F", "tarnbrook", "plain").on("2024-06-10");
  EXPECT_NEAR(carrier(records, "2020-01-01"), 0.5, 1e-15);
}

// Records without a day are always known.
TEST(AsOf, CountsUndatedRecordsAlways) {
  RecordsBuilder records;
  records.founder("F").bought_as("tarnbrook", {{"+/+", 0.5}, {"+/e", 0.5}});
  records.score("F", "crown-fleck", "strong");
  EXPECT_NEAR(carrier(records, "0001-01-01"), 8.0 / 9, 1e-14);
}

}  // namespace
}  // namespace likelihet::odds::as_of_test
