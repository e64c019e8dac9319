// Accounts of an animal's odds: steps, proofs, relatives, and what stays out of them.
#include <algorithm>
#include <cmath>
#include <limits>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <support/solved_colony.hpp>

#include <likelihet/odds/why.hpp>

namespace likelihet::odds::why_test {
namespace {

using support::RecordsBuilder;
using support::SolvedColony;

using Ids = std::vector<std::string>;

Account account_of(const colony::Colony& colony, const std::string& animal,
                   std::uint16_t allele = 1) {
  auto outcome = why(colony, {*colony.find_animal(animal), 0, allele}, support::only_odds());
  return std::get<Account>(std::move(outcome));
}

colony::Colony colony_with(const RecordsBuilder& records) {
  auto model = support::recessive_model();
  model.assays[0].mix_up = 0;
  return support::colony_of(model, records);
}

// D carries with 1/2; H and I are hers and a clear sire's.
RecordsBuilder family() {
  RecordsBuilder records;
  records.founder("D").bought_as("tarnbrook", {{"+/+", 0.5}, {"+/e", 0.5}});
  records.founder("S").founder("X", std::nullopt, "bought");
  records.clutch("C", "D", {"S"}).hatchling("H", "C").hatchling("I", "C");
  return records;
}

TEST(Account, OfNothingIsItsStart) {
  const Account account = account_of(colony_with(family()), "H");
  EXPECT_NEAR(account.start, 0.25, 1e-15);
  EXPECT_EQ(account.end, account.start);
  EXPECT_TRUE(account.steps.empty());
  EXPECT_EQ(account.own_decibans, 0.0);
  EXPECT_EQ(account.relatives_decibans, 0.0);
}

// Own readings one by one; the marker "clear" has 0.4/0.05 = 8, the report "clear" 0.003/0.985.
TEST(Account, WeighsEachOwnRecordByItself) {
  RecordsBuilder records = family();
  records.score("D", "crown-fleck", "strong").on("2024-05-01");
  records.result("D", "shed-pcr", "clear").on("2024-05-01");
  const auto colony = colony_with(records);
  const Account account = account_of(colony, "D");
  ASSERT_EQ(account.steps.size(), 2U);
  EXPECT_NEAR(account.steps[0].factor, 8, 1e-12);
  EXPECT_NEAR(account.steps[0].decibans, 10 * std::log10(8.0), 1e-12);
  EXPECT_NEAR(account.steps[1].factor, 0.003 / 0.985, 1e-14);
  EXPECT_NEAR(account.own_decibans, 10 * std::log10(8 * 0.003 / 0.985), 1e-11);
  EXPECT_EQ(account.steps[1].before, account.steps[0].after);
  EXPECT_EQ(account.end, account.steps[1].after);
}

// Relatives' records of one day are one step: two hets' markers on H and I, of 0.225/0.05 each
// for D.
TEST(Account, WeighsRelativesOfOneDayTogether) {
  RecordsBuilder records = family();
  records.score("H", "crown-fleck", "strong").on("2024-05-01");
  records.score("I", "crown-fleck", "strong").on("2024-05-01");
  const auto colony = colony_with(records);
  const Account account = account_of(colony, "D");
  ASSERT_EQ(account.steps.size(), 1U);
  EXPECT_FALSE(account.steps[0].own);
  EXPECT_EQ(support::ids_of(colony, account.steps[0].observations), (Ids{"o1", "o2"}));
  EXPECT_NEAR(account.steps[0].factor, 4.5 * 4.5, 1e-12);
  EXPECT_NEAR(account.relatives_decibans, 20 * std::log10(4.5), 1e-11);
}

TEST(Account, GoesByDaysWithRelativesFirst) {
  RecordsBuilder records = family();
  records.score("D", "crown-fleck", "strong").on("2024-05-02");
  records.score("H", "crown-fleck", "strong").on("2024-05-02");
  records.score("I", "crown-fleck", "absent").on("2024-05-01");
  records.shows("D", "tarnbrook", "plain");
  const auto colony = colony_with(records);
  Ids order;
  for (const Step& step : account_of(colony, "D").steps) {
    for (const auto& id : support::ids_of(colony, step.observations)) order.push_back(id);
  }
  EXPECT_EQ(order, (Ids{"o4", "o3", "o2", "o1"})) << "undated first, relatives before own";
}

// Animals that no descent joins, and records that were withdrawn, are no part of it; a relative who
// changes nothing is left out, an own record that changes nothing stays.
TEST(Account, LeavesOutWhatDoesNotBear) {
  RecordsBuilder records = family();
  records.score("X", "crown-fleck", "strong").score("D", "crown-fleck", "strong").withdraw("o2");
  records.shows("S", "tarnbrook", "plain").shows("H", "tarnbrook", "plain");
  const auto colony = colony_with(records);
  const Account account = account_of(colony, "H");
  ASSERT_EQ(account.steps.size(), 1U);
  EXPECT_EQ(support::ids_of(colony, account.steps[0].observations), (Ids{"o5"}));
  EXPECT_EQ(account.steps[0].factor, 1.0);
  EXPECT_EQ(account.steps[0].decibans, 0.0);
}

// A visual offspring proves its dam: an infinite factor, and nothing moves her after.
TEST(Account, KnowsAProof) {
  RecordsBuilder records = family();
  records.records.animals[1].origin = "bought";
  records.shows("D", "tarnbrook", "plain").on("2024-05-01");
  records.shows("H", "tarnbrook", "tarnbrook").on("2024-05-02");
  records.result("D", "shed-pcr", "clear").on("2024-05-03");
  const Account account = account_of(colony_with(records), "D");
  ASSERT_EQ(account.steps.size(), 3U);
  EXPECT_EQ(account.steps[1].factor, std::numeric_limits<double>::infinity());
  EXPECT_EQ(account.steps[1].decibans, std::numeric_limits<double>::infinity());
  EXPECT_EQ(account.steps[2].factor, 1.0);
  EXPECT_EQ(account.end, 1.0);
}

// Twenty reports of 0.985/0.003 each: the contrary is about 1e-50, which a double takes for nothing
// beside 1. It is no proof: the factors stay finite and say so.
TEST(Account, DoesNotCallOverwhelmingEvidenceAProof) {
  RecordsBuilder records = family();
  for (int i = 0; i < 20; ++i) records.result("D", "shed-pcr", "carrier");
  const Account account = account_of(colony_with(records), "D");
  ASSERT_EQ(account.steps.size(), 20U);
  for (const Step& step : account.steps) {
    EXPECT_NEAR(step.factor, 0.985 / 0.003, 1e-9);
    EXPECT_LT(step.after, 1);
  }
  EXPECT_NEAR(account.own_decibans, 200 * std::log10(0.985 / 0.003), 1e-8);
  EXPECT_LT(account.end, 1);
}

TEST(Account, KnowsAnExclusion) {
  RecordsBuilder records;
  records.founder("F", std::nullopt, "bought")
      .shows("F", "tarnbrook", "tarnbrook")
      .on("2024-05-01");
  const Account account = account_of(colony_with(records), "F");
  ASSERT_EQ(account.steps.size(), 1U);
  EXPECT_EQ(account.steps[0].factor, 0.0);
  EXPECT_EQ(account.steps[0].decibans, -std::numeric_limits<double>::infinity());
  EXPECT_EQ(account.end, 0.0);
}

// The factors multiply to the posterior, whatever the order in which the records came.
TEST(Account, EndsAtThePosteriorInAnyOrder) {
  RecordsBuilder records = family();
  records.score("D", "crown-fleck", "faint").sure(0.8).on("2024-05-04");
  records.score("H", "crown-fleck", "strong", "ana").on("2024-05-03");
  records.result("I", "shed-pcr", "carrier").on("2024-05-02");
  records.shows("H", "tarnbrook", "plain").on("2024-05-01");
  for (int turn = 0; turn < 4; ++turn) {
    const auto colony = colony_with(records);
    const Account account = account_of(colony, "H");
    double odds = account.start / (1 - account.start);
    for (const Step& step : account.steps) odds *= step.factor;
    EXPECT_NEAR(odds / (1 + odds), account.end, 1e-13);
    const auto all = compute(colony, support::only_odds());
    EXPECT_NEAR(account.end,
                std::get<ColonyOdds>(all).animals[*colony.find_animal("H")].loci[0].het[0].mean,
                1e-14);
    EXPECT_NEAR(account.own_decibans + account.relatives_decibans,
                10 * std::log10(odds / (account.start / (1 - account.start))), 1e-10);
    auto& observations = records.records.observations;
    std::vector<std::optional<colony::Date>> days;
    for (const auto& observation : observations) days.push_back(observation.on);
    std::rotate(days.begin(), days.begin() + 1, days.end());
    for (std::size_t i = 0; i < days.size(); ++i) observations[i].on = days[i];
  }
}

// Clutch-mates of an unnamed dam meet in her: her other offspring's markers tell.
TEST(Account, ReachesRelativesThroughAnUnnamedParent) {
  RecordsBuilder records;
  records.founder("S").clutch("C", std::nullopt, {"S"});
  records.clutch_record().dam_origin = "bought";
  records.hatchling("H", "C").hatchling("I", "C").hatchling("J", "C");
  records.result("J", "shed-pcr", "carrier").on("2024-05-01");
  const Account account = account_of(colony_with(records), "I");
  ASSERT_EQ(account.steps.size(), 1U);
  EXPECT_FALSE(account.steps[0].own);
  EXPECT_GT(account.steps[0].factor, 1);
}

TEST(Account, OfADayHasWhatWasKnownThen) {
  RecordsBuilder records = family();
  records.score("D", "crown-fleck", "strong").on("2024-05-01");
  records.score("D", "crown-fleck", "absent").on("2024-06-01");
  const auto colony = colony_with(records);
  Options options = support::only_odds();
  options.as_of = support::day("2024-05-31");
  const auto outcome = why(colony, {0, 0, 1}, options);
  EXPECT_EQ(std::get<Account>(outcome).steps.size(), 1U);
  EXPECT_NEAR(std::get<Account>(outcome).end, 8.0 / 9, 1e-14);
}

TEST(Account, OfAClashIsTheClash) {
  RecordsBuilder records = family();
  records.shows("S", "tarnbrook", "tarnbrook");
  const auto outcome = why(colony_with(records), {0, 0, 1}, support::only_odds());
  EXPECT_TRUE(std::holds_alternative<Contradiction>(outcome));
}

TEST(Account, SaysWhenItWouldNotFit) {
  Options options = support::only_odds();
  options.memory_bytes = 16;
  RecordsBuilder records = family();
  records.score("H", "crown-fleck", "strong");
  const auto outcome = why(colony_with(records), {0, 0, 1}, options);
  EXPECT_TRUE(std::holds_alternative<TooLarge>(outcome));
}

}  // namespace
}  // namespace likelihet::odds::why_test
