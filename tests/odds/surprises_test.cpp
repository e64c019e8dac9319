// Records that nothing else led one to expect: their exact leave-one-out probability, and which
// are none.
#include <cmath>
#include <string>

#include <gtest/gtest.h>
#include <support/solved_colony.hpp>

#include <likelihet/odds/surprises.hpp>

namespace likelihet::odds::surprises_test {
namespace {

using support::RecordsBuilder;
using support::SolvedColony;

Options looking() {
  Options options = support::only_odds();
  options.surprises = true;
  return options;
}

colony::ModelDescription no_mix_ups() {
  auto model = support::recessive_model();
  model.assays[0].mix_up = 0;
  return model;
}

std::vector<Surprise> surprises_of(const RecordsBuilder& records,
                                   const colony::ModelDescription& model = no_mix_ups()) {
  return SolvedColony(model, records, looking()).odds().surprises;
}

// H of a clear pair: reported "carrier" with 0.003 alone.
TEST(Surprise, HasTheChanceThatAllElseGaveIt) {
  RecordsBuilder records;
  records.founder("D").founder("S").clutch("C", "D", {"S"}).hatchling("H", "C");
  records.result("H", "shed-pcr", "carrier");
  const auto found = surprises_of(records);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].observation, 0U);
  EXPECT_NEAR(found[0].probability, 0.003, 1e-15);
  EXPECT_NE(found[0].why.find("H: shed-pcr: carrier"), std::string::npos);
}

// Without the report F is a carrier with 2 %: 0.0196 x 0.985 + 0.9804 x 0.003 > 1 %; with 0.1 %
// below it.
TEST(Surprise, IsBelowOneInAHundred) {
  for (const double carrier : {0.02, 0.001}) {
    RecordsBuilder records;
    records.founder("F").bought_as("tarnbrook", {{"+/+", 1 - carrier}, {"+/e", carrier}});
    records.result("F", "shed-pcr", "carrier");
    const double chance = carrier * 0.985 + (1 - carrier) * 0.003;
    const auto found = surprises_of(records);
    ASSERT_EQ(found.size(), chance < surprise_limit ? 1U : 0U) << carrier;
    if (!found.empty()) {
      EXPECT_NEAR(found[0].probability, chance, 1e-14);
    }
  }
}

// What is left out is the one record: the other report is among "all the rest".
TEST(Surprise, CountsTheOtherRecords) {
  RecordsBuilder records;
  records.founder("F").bought_as("tarnbrook", {{"+/+", 0.5}, {"+/e", 0.5}});
  records.result("F", "shed-pcr", "carrier").result("F", "shed-pcr", "clear");
  records.result("F", "shed-pcr", "carrier");
  // After two "carrier" reports P(carrier) = 0.985^2/(0.985^2 + 0.003^2).
  const double carrier = 0.985 * 0.985 / (0.985 * 0.985 + 0.003 * 0.003);
  const auto found = surprises_of(records);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].observation, 1U);
  EXPECT_NEAR(found[0].probability, carrier * 0.003 + (1 - carrier) * 0.985, 1e-13);
}

// A visual of two founders of the trade: 0.0004 of them carry... the chance is q^2 of each gamete.
TEST(Surprise, CanBeALook) {
  RecordsBuilder records;
  records.founder("D", std::nullopt, "bought").founder("S", std::nullopt, "bought");
  records.clutch("C", "D", {"S"}).hatchling("H", "C").shows("H", "tarnbrook", "tarnbrook");
  const auto found = surprises_of(records);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_NEAR(found[0].probability, 0.0004, 1e-15);
}

// The same of an animal that has offspring itself, and so no leaf.
TEST(Surprise, CanBeALookOfABreeder) {
  RecordsBuilder records;
  records.founder("D", std::nullopt, "bought").founder("S", std::nullopt, "bought");
  records.clutch("C", "D", {"S"}).hatchling("H", "C").shows("H", "tarnbrook", "tarnbrook");
  records.founder("T").clutch("E", "H", {"T"}).hatchling("N", "E").shows("N", "tarnbrook", "plain");
  const auto found = surprises_of(records);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_NEAR(found[0].probability, 0.0004, 1e-15);
}

// Two visual offspring: each is expected once the other is known to be.
TEST(Surprise, IsNoneWhereAnotherRecordExpectsIt) {
  RecordsBuilder records;
  records.founder("D", std::nullopt, "bought").founder("S", std::nullopt, "bought");
  records.clutch("C", "D", {"S"}).hatchling("H", "C").hatchling("I", "C");
  records.shows("H", "tarnbrook", "tarnbrook").shows("I", "tarnbrook", "tarnbrook");
  EXPECT_TRUE(surprises_of(records).empty());
}

TEST(Surprise, IsNeverAReadingOrABrood) {
  RecordsBuilder records;
  records.founder("F").score("F", "crown-fleck", "strong");
  auto model = no_mix_ups();
  model.markers[0].rows[2].expect = {0.999, 0.0005, 0.0005};
  EXPECT_TRUE(surprises_of(records, model).empty());
  RecordsBuilder brood;
  brood.founder("F", std::nullopt, "bought").brood("F", "tarnbrook", "+/e", {{"tarnbrook", 9}});
  EXPECT_TRUE(surprises_of(brood).empty());
}

TEST(Surprise, IsNotLookedForUnlessAsked) {
  RecordsBuilder records;
  records.founder("F").result("F", "shed-pcr", "carrier");
  EXPECT_TRUE(SolvedColony(no_mix_ups(), records).odds().surprises.empty());
}

TEST(Surprise, IsNoneOnceItIsWithdrawn) {
  RecordsBuilder records;
  records.founder("F").result("F", "shed-pcr", "carrier").withdraw("o1");
  EXPECT_TRUE(surprises_of(records).empty());
}

// A report with a zero in its row: softened, so that what it excludes can be asked for. The rest
// gives a carrier 1/200, and the report is never wrong.
TEST(Surprise, OfAnInfallibleTestIsStillFound) {
  auto model = no_mix_ups();
  model.assays[0].reports = {"clear", "carrier"};
  model.assays[0].rows = {{"+/+", {1, 0}}, {"+/e", {0, 1}}, {"e/e", {0, 1}}};
  RecordsBuilder records;
  records.founder("F").bought_as("tarnbrook", {{"+/+", 0.995}, {"+/e", 0.005}});
  records.result("F", "shed-pcr", "carrier");
  const auto found = surprises_of(records, model);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_NEAR(found[0].probability, 0.005, 1e-14);
}

// In the order of the records, and each by itself.
TEST(Surprise, OfSeveralAreToldInOrder) {
  RecordsBuilder records;
  for (int i = 0; i < 12; ++i) {
    std::string id = "F";
    id += std::to_string(i);
    records.founder(id).result(id, "shed-pcr", i % 2 == 0 ? "affected" : "clear");
  }
  const auto found = surprises_of(records);
  ASSERT_EQ(found.size(), 6U);
  for (std::size_t i = 0; i < found.size(); ++i) {
    EXPECT_EQ(found[i].observation, 2 * i);
    EXPECT_NEAR(found[i].probability, 0.002, 1e-15);
  }
}

// Leave-one-out by definition: P(all)/P(all but o), on a family with records of every kind.
TEST(Surprise, IsTheRatioOfEvidences) {
  RecordsBuilder records;
  records.founder("D", std::nullopt, "bought").founder("S", std::nullopt, "bought");
  records.clutch("C", "D", {"S"}).hatchling("H", "C").hatchling("I", "C");
  records.score("H", "crown-fleck", "absent", "ana").brood("D", "tarnbrook", "e/e", {{"plain", 6}});
  records.result("I", "shed-pcr", "affected").result("S", "shed-pcr", "clear");
  records.shows("H", "tarnbrook", "plain");
  const auto model = support::recessive_model();
  const auto found = surprises_of(records, model);
  ASSERT_EQ(found.size(), 1U);
  const double with = SolvedColony(model, records).odds().log_evidence;
  records.withdraw("o3");
  const double without = SolvedColony(model, records).odds().log_evidence;
  EXPECT_NEAR(found[0].probability, std::exp(with - without), 1e-13);
}

}  // namespace
}  // namespace likelihet::odds::surprises_test
