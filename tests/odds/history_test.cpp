// An animal's odds day by day: its own days, its relatives', withdrawals and days that clash.
#include <cmath>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <support/solved_colony.hpp>

#include <likelihet/odds/why.hpp>

namespace likelihet::odds::history_test {
namespace {

using support::RecordsBuilder;

using Days = std::vector<std::string>;

// D carries with 1/2; H and I are hers and a clear sire's; X is no kin.
RecordsBuilder family() {
  RecordsBuilder records;
  records.founder("D").bought_as("tarnbrook", {{"+/+", 0.5}, {"+/e", 0.5}}).founder("S");
  records.founder("X", std::nullopt, "bought");
  records.clutch("C", "D", {"S"}).hatchling("H", "C").hatchling("I", "C");
  return records;
}

std::vector<Moment> moments_of(const colony::Colony& colony, const std::string& animal,
                               const Options& options = support::only_odds()) {
  auto outcome = history(colony, *colony.find_animal(animal), options);
  return std::get<std::vector<Moment>>(std::move(outcome));
}

Days days_of(const std::vector<Moment>& moments) {
  Days days;
  for (const Moment& moment : moments) days.push_back(moment.day ? moment.day->text() : "before");
  return days;
}

double het(const Moment& moment) {
  return moment.odds.loci[0].het[0].mean;
}

colony::Colony colony_with(const RecordsBuilder& records) {
  return support::colony_of(support::recessive_model(), records);
}

TEST(Moments, OfNoRecordAreOne) {
  const auto moments = moments_of(colony_with(family()), "H");
  ASSERT_EQ(days_of(moments), (Days{"before"}));
  EXPECT_NEAR(het(moments[0]), 0.25, 1e-15);
  EXPECT_TRUE(moments[0].observations.empty());
  EXPECT_FALSE(moments[0].contradictory);
}

// Own days are there even where nothing moves; a relative's only where it moved the odds; a
// stranger's never.
TEST(Moments, AreTheDaysThatBearOnTheAnimal) {
  RecordsBuilder records = family();
  records.shows("H", "tarnbrook", "plain").on("2024-05-01");     // certain anyway
  records.shows("I", "tarnbrook", "plain").on("2024-05-02");     // a sib, certain anyway
  records.score("I", "crown-fleck", "strong").on("2024-05-03");  // a sib
  records.score("X", "crown-fleck", "strong").on("2024-05-04");  // no kin
  records.score("H", "crown-fleck", "absent").on("2024-05-05");
  const auto colony = colony_with(records);
  const auto moments = moments_of(colony, "H");
  EXPECT_EQ(days_of(moments), (Days{"before", "2024-05-01", "2024-05-03", "2024-05-05"}));
  EXPECT_EQ(support::ids_of(colony, moments[1].observations), (std::vector<std::string>{"o1"}));
  EXPECT_TRUE(moments[2].observations.empty());
  EXPECT_NEAR(het(moments[1]), 0.25, 1e-15);
  // D 9 : 2 after her offspring's marker, H half of 9/11; then 0.3/0.8 of those odds.
  EXPECT_NEAR(het(moments[2]), 4.5 / 11, 1e-14);
  const double odds = 4.5 / 6.5 * 0.3 / 0.8;
  EXPECT_NEAR(het(moments[3]), odds / (1 + odds), 1e-14);
}

// Several records of one day make one moment.
TEST(Moments, GatherTheRecordsOfADay) {
  RecordsBuilder records = family();
  records.score("H", "crown-fleck", "strong").on("2024-05-01");
  records.result("H", "shed-pcr", "carrier").on("2024-05-01");
  const auto colony = colony_with(records);
  const auto moments = moments_of(colony, "H");
  ASSERT_EQ(moments.size(), 2U);
  EXPECT_EQ(moments[1].observations.size(), 2U);
  EXPECT_LT(moments[1].odds.loci[0].scored[1], moments[1].odds.loci[0].posterior[1]);
}

// A withdrawal is a day of change: the odds go back to what they were.
TEST(Moments, GoBackWithAWithdrawal) {
  RecordsBuilder records = family();
  records.score("H", "crown-fleck", "strong").on("2024-05-01");
  records.withdraw("o1").on("2024-06-01").withdraw("o2").on("2024-07-01");
  const auto moments = moments_of(colony_with(records), "H");
  ASSERT_EQ(days_of(moments), (Days{"before", "2024-05-01", "2024-06-01", "2024-07-01"}));
  EXPECT_EQ(het(moments[2]), het(moments[0]));
  EXPECT_EQ(het(moments[3]), het(moments[1]));
}

// A day whose records clash keeps the odds before it and says so, until one of them is withdrawn.
TEST(Moments, MarkTheDaysThatClash) {
  RecordsBuilder records = family();
  records.score("H", "crown-fleck", "strong").sure(0.9).on("2024-05-01");
  records.shows("S", "tarnbrook", "tarnbrook").on("2024-05-02");
  records.score("H", "crown-fleck", "absent", "ana").on("2024-05-03");
  records.withdraw("o2").on("2024-05-04");
  const auto moments = moments_of(colony_with(records), "H");
  ASSERT_EQ(days_of(moments),
            (Days{"before", "2024-05-01", "2024-05-02", "2024-05-03", "2024-05-04"}));
  EXPECT_FALSE(moments[1].contradictory);
  EXPECT_TRUE(moments[2].contradictory);
  EXPECT_TRUE(moments[3].contradictory);
  EXPECT_FALSE(moments[4].contradictory);
  EXPECT_EQ(het(moments[2]), het(moments[1]));
  EXPECT_EQ(het(moments[3]), het(moments[1]));
  EXPECT_LT(het(moments[4]), het(moments[1]));
}

// Records without a day count from the first day that has one.
TEST(Moments, CountUndatedRecordsOnEveryDay) {
  RecordsBuilder records = family();
  records.score("H", "crown-fleck", "strong");
  records.score("X", "crown-fleck", "absent").on("2024-05-01");
  const auto moments = moments_of(colony_with(records), "H");
  ASSERT_EQ(days_of(moments), (Days{"before", "2024-05-01"}));
  EXPECT_NEAR(het(moments[0]), 0.25, 1e-15);
  EXPECT_NEAR(het(moments[1]), 8.0 / 11, 1e-14);  // 1 : 3 x 8
}

TEST(Moments, EndAtTheDayAskedFor) {
  RecordsBuilder records = family();
  records.score("H", "crown-fleck", "strong").on("2024-05-01");
  records.score("H", "crown-fleck", "strong", "ana").on("2024-05-02");
  Options options = support::only_odds();
  options.as_of = support::day("2024-05-01");
  EXPECT_EQ(days_of(moments_of(colony_with(records), "H", options)),
            (Days{"before", "2024-05-01"}));
}

// Each moment is what odds as of that day would say, in all layers.
TEST(Moments, AreTheOddsOfTheirDays) {
  RecordsBuilder records = family();
  records.score("H", "crown-fleck", "faint", "ana").on("2024-05-01");
  records.result("I", "shed-pcr", "carrier").on("2024-05-02");
  records.brood("D", "tarnbrook", "e/e", {{"plain", 2}}).on("2024-05-03");
  records.result("H", "shed-pcr", "no-call").on("2024-05-04");
  const auto colony = colony_with(records);
  const auto moments = moments_of(colony, "H");
  ASSERT_EQ(moments.size(), 5U);
  for (std::size_t i = 1; i < moments.size(); ++i) {
    Options then = support::only_odds();
    then.as_of = moments[i].day;
    const auto outcome = compute(colony, then);
    const auto& at = std::get<ColonyOdds>(outcome).animals[*colony.find_animal("H")].loci[0];
    EXPECT_EQ(moments[i].odds.loci[0].pedigree, at.pedigree);
    EXPECT_EQ(moments[i].odds.loci[0].scored, at.scored);
    EXPECT_EQ(moments[i].odds.loci[0].posterior, at.posterior);
  }
}

TEST(Moments, OfAnImpossiblePedigreeAreTheClash) {
  auto model = support::recessive_model();
  model.loci[0].viability = {{"e/e", 0.0}};
  RecordsBuilder records;
  records.founder("D").bought_as("tarnbrook", {{"e/e", 1.0}});
  records.founder("S").bought_as("tarnbrook", {{"e/e", 1.0}});
  records.clutch("C", "D", {"S"}).hatchling("H", "C");
  const auto outcome = history(support::colony_of(model, records), 2, support::only_odds());
  EXPECT_TRUE(std::holds_alternative<Contradiction>(outcome));
}

TEST(Moments, SayWhenTheyWouldNotFit) {
  Options options = support::only_odds();
  options.memory_bytes = 16;
  const auto outcome = history(colony_with(family()), 3, options);
  EXPECT_TRUE(std::holds_alternative<TooLarge>(outcome));
}

}  // namespace
}  // namespace likelihet::odds::history_test
