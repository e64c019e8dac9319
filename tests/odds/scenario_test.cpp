// What counts: as of a day, without what was withdrawn, and varied by "what if".
#include <cmath>
#include <limits>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <support/solved_colony.hpp>

#include <likelihet/odds/layers.hpp>
#include <likelihet/odds/scenario.hpp>

namespace likelihet::odds::scenario_test {
namespace {

using genetics::Sex;
using support::day;
using support::RecordsBuilder;
using support::SolvedColony;

std::vector<std::string> counting_ids(const Scenario& scenario) {
  std::vector<std::string> ids;
  for (const auto* observation : scenario.observations) ids.push_back(observation->id);
  return ids;
}

using Ids = std::vector<std::string>;

// o1 in May, o2 in June, o3 withdraws o1 in July, o4 withdraws o3 in August; o5 without a day.
colony::Colony withdrawn_twice() {
  RecordsBuilder records;
  records.founder("F", Sex::female, "bought");
  records.score("F", "crown-fleck", "strong").on("2024-05-01");
  records.result("F", "shed-pcr", "carrier").on("2024-06-01");
  records.withdraw("o1").on("2024-07-01").withdraw("o3").on("2024-08-01");
  records.shows("F", "tarnbrook", "plain");
  return support::colony_of(support::recessive_model(), records);
}

TEST(Scenario, IsWhatCountsNow) {
  const auto colony = withdrawn_twice();
  const Scenario now = scenario(colony, std::nullopt);
  EXPECT_EQ(now.colony, &colony);
  EXPECT_EQ(counting_ids(now), (Ids{"o1", "o2", "o5"}));
  EXPECT_EQ(now.sexes, (std::vector<std::optional<Sex>>{Sex::female}));
  EXPECT_EQ(now.clutches, (std::vector<std::optional<std::size_t>>{std::nullopt}));
  EXPECT_EQ(now.unplaced, (std::vector<bool>{false}));
}

TEST(Scenario, IsWhatCountedOnADay) {
  const auto colony = withdrawn_twice();
  EXPECT_EQ(counting_ids(scenario(colony, day("2024-04-30"))), (Ids{"o5"}));
  EXPECT_EQ(counting_ids(scenario(colony, day("2024-05-01"))), (Ids{"o1", "o5"}));
  EXPECT_EQ(counting_ids(scenario(colony, day("2024-06-30"))), (Ids{"o1", "o2", "o5"}));
  EXPECT_EQ(counting_ids(scenario(colony, day("2024-07-01"))), (Ids{"o2", "o5"}));
  EXPECT_EQ(counting_ids(scenario(colony, day("2024-08-01"))), (Ids{"o1", "o2", "o5"}));
}

// The day it was written down is the day it was known, whatever day it was seen.
TEST(Scenario, ComparesTheDayOfRecording) {
  RecordsBuilder records;
  records.founder("F").shows("F", "tarnbrook", "plain").on("2024-05-01");
  records.observation().recorded = colony::Timestamp::parse("2024-09-01T12:00:00Z");
  const auto colony = support::colony_of(support::recessive_model(), records);
  EXPECT_TRUE(counting_ids(scenario(colony, day("2024-08-31"))).empty());
  EXPECT_EQ(counting_ids(scenario(colony, day("2024-09-01"))), (Ids{"o1"}));
}

TEST(Scenario, LeavesOneOut) {
  const auto colony = withdrawn_twice();
  const Scenario now = scenario(colony, std::nullopt);
  const Scenario less = without(now, &colony.observations()[1]);
  EXPECT_EQ(counting_ids(less), (Ids{"o1", "o5"}));
  EXPECT_EQ(counting_ids(without(less, &colony.observations()[1])), (Ids{"o1", "o5"}));
  EXPECT_EQ(counting_ids(now).size(), 3U) << "the whole is not changed";
}

RecordsBuilder family() {
  RecordsBuilder records;
  records.founder("D").founder("S").bought_as("tarnbrook", {{"+/e", 1.0}});
  records.founder("T").clutch("C", "D", {"S"}).hatchling("H", "C").clutch("E", "D", {"T"});
  return records;
}

double het_of_h(const colony::Colony& colony, const Scenario& scenario) {
  const auto odds = odds_of(scenario, *colony.find_animal("H"), std::size_t{1} << 24U);
  return std::get<AnimalOdds>(odds).loci[0].posterior[1];
}

TEST(Scenario, MayNameAnotherSire) {
  const auto colony = support::colony_of(support::recessive_model(), family());
  Scenario other = scenario(colony, std::nullopt);
  EXPECT_NEAR(het_of_h(colony, other), 0.5, 1e-15);
  EXPECT_EQ(other.sires_of(0).front().animal, *colony.find_animal("S"));
  other.sires[0] = {{*colony.find_animal("T"), 1.0}};
  EXPECT_EQ(other.sires_of(0).front().animal, *colony.find_animal("T"));
  EXPECT_EQ(other.sires_of(1).front().animal, *colony.find_animal("T"));
  EXPECT_EQ(het_of_h(colony, other), 0.0);
  // Both as likely: 1/2 x 1/2.
  other.sires[0] = {{*colony.find_animal("S"), 0.5}, {*colony.find_animal("T"), 0.5}};
  EXPECT_NEAR(het_of_h(colony, other), 0.25, 1e-15);
}

// An animal taken out of its clutch: a founder of no origin, or of wholly unknown descent, when
// every genotype is as likely.
TEST(Scenario, MayTakeAnAnimalOutOfItsClutch) {
  const auto colony = support::colony_of(support::recessive_model(), family());
  Scenario other = scenario(colony, std::nullopt);
  other.clutches[*colony.find_animal("H")] = std::nullopt;
  EXPECT_EQ(het_of_h(colony, other), 0.0);
  other.unplaced[*colony.find_animal("H")] = true;
  EXPECT_NEAR(het_of_h(colony, other), 1.0 / 3, 1e-15);
}

// On Z the sexes weigh 1/2 each: three genotypes of a male share one half, two of a female the
// other.
TEST(Scenario, UnplacedKeepsTheSexesEven) {
  RecordsBuilder records;
  records.founder("H");
  const auto colony =
      support::colony_of(support::sex_linked_model(genetics::Chromosome::z), records);
  Scenario other = scenario(colony, std::nullopt);
  other.unplaced[0] = true;
  const auto odds = odds_of(other, 0, std::size_t{1} << 24U);
  const auto& prior = std::get<AnimalOdds>(odds).loci[0].pedigree;
  for (std::size_t g = 0; g < 3; ++g) EXPECT_NEAR(prior[g], 1.0 / 6, 1e-15);
  for (std::size_t g = 3; g < 5; ++g) EXPECT_NEAR(prior[g], 1.0 / 4, 1e-15);
}

// A record that excludes what else is certain, softened: its zeros count 1e-40, so that the rest
// decides, and what it speaks against stays possible.
TEST(Scenario, SoftensWhatARecordExcludes) {
  RecordsBuilder records = family();
  records.shows("H", "tarnbrook", "tarnbrook");
  const auto colony = support::colony_of(support::recessive_model(), records);
  Scenario soft = scenario(colony, std::nullopt);
  const Tables tables = believed(colony.model());
  const auto hard = log_evidence(soft, tables, Layer::posterior, std::size_t{1} << 24U);
  EXPECT_EQ(std::get<double>(hard), -std::numeric_limits<double>::infinity());
  soft.softened.insert(&colony.observations()[0]);
  const auto softened = log_evidence(soft, tables, Layer::posterior, std::size_t{1} << 24U);
  EXPECT_NEAR(std::get<double>(softened), -40 * std::log(10.0), 1e-9);
  EXPECT_NEAR(het_of_h(colony, soft), 0.5, 1e-15);
}

}  // namespace
}  // namespace likelihet::odds::scenario_test
