// Clashes of records: which are named, that none of them can be left out, and that the rest can be.
#include <algorithm>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <support/solved_colony.hpp>

#include <likelihet/odds/contradiction.hpp>
#include <likelihet/odds/layers.hpp>

namespace likelihet::odds::contradiction_test {
namespace {

using genetics::Sex;
using support::RecordsBuilder;

using Ids = std::vector<std::string>;

bool possible(const Scenario& scenario) {
  const auto log = log_evidence(scenario, believed(scenario.colony->model()), Layer::posterior,
                                std::size_t{1} << 26U);
  return std::get<double>(log) > -1e300;
}

// The rest of the set, without one of it, can be true; the whole cannot.
void expect_smallest(const colony::Colony& colony, const Contradiction& clash) {
  Scenario all = scenario(colony, std::nullopt);
  Scenario named = all;
  named.observations.clear();
  named.sexes.assign(named.sexes.size(), std::nullopt);
  for (const std::size_t o : clash.observations) {
    named.observations.push_back(&colony.observations()[o]);
  }
  for (const std::size_t a : clash.sexes) named.sexes[a] = all.sexes[a];
  EXPECT_FALSE(possible(named));
  for (const std::size_t o : clash.observations) {
    EXPECT_TRUE(possible(without(named, &colony.observations()[o])))
        << colony.observations()[o].id << " is not needed";
  }
  for (const std::size_t a : clash.sexes) {
    Scenario less = named;
    less.sexes[a] = std::nullopt;
    EXPECT_TRUE(possible(less)) << "the sex of " << colony.animals()[a].id << " is not needed";
  }
}

// Hets with a visual offspring, and around them records that play no part.
RecordsBuilder family() {
  RecordsBuilder records;
  records.founder("D", Sex::female, "bought").founder("S", Sex::male, "bought").founder("T");
  records.clutch("C", "D", {"S"}).hatchling("H", "C").hatchling("I", "C");
  records.shows("D", "tarnbrook", "plain")
      .shows("S", "tarnbrook", "plain")
      .shows("T", "tarnbrook", "plain");
  records.score("D", "crown-fleck", "strong", "ana").result("S", "shed-pcr", "clear");
  return records;
}

TEST(ContradictionSet, IsASingleRecordAgainstThePedigree) {
  RecordsBuilder records = family();
  records.shows("T", "tarnbrook", "tarnbrook");  // T is all first allele
  const auto colony = support::colony_of(support::recessive_model(), records);
  const auto clash = support::clash_of(colony);
  EXPECT_EQ(support::ids_of(colony, clash.observations), (Ids{"o6"}));
  EXPECT_TRUE(clash.sexes.empty());
  expect_smallest(colony, clash);
}

TEST(ContradictionSet, IsAPairOfLooks) {
  RecordsBuilder records = family();
  records.shows("H", "tarnbrook", "tarnbrook").shows("H", "tarnbrook", "plain");
  const auto colony = support::colony_of(support::recessive_model(), records);
  const auto clash = support::clash_of(colony);
  EXPECT_EQ(support::ids_of(colony, clash.observations), (Ids{"o6", "o7"}));
  expect_smallest(colony, clash);
}

// Two visual parents have visual offspring alone: three records, any two of which can be.
TEST(ContradictionSet, RunsThroughThePedigree) {
  RecordsBuilder records;
  records.founder("D", std::nullopt, "bought").founder("S", std::nullopt, "bought");
  records.clutch("C", "D", {"S"}).hatchling("H", "C").hatchling("I", "C");
  records.shows("I", "tarnbrook", "tarnbrook").shows("H", "tarnbrook", "plain");
  records.shows("D", "tarnbrook", "tarnbrook").score("H", "crown-fleck", "strong");
  records.shows("S", "tarnbrook", "tarnbrook");
  const auto colony = support::colony_of(support::recessive_model(), records);
  const auto clash = support::clash_of(colony);
  auto ids = support::ids_of(colony, clash.observations);
  std::sort(ids.begin(), ids.end());
  EXPECT_EQ(ids, (Ids{"o2", "o3", "o5"}));
  expect_smallest(colony, clash);
  EXPECT_NE(clash.what.find("H: looks plain (tarnbrook)"), std::string::npos);
  EXPECT_NE(clash.what.find("Leave out any one of them"), std::string::npos);
}

// A brood of a clear animal with a visual in it.
TEST(ContradictionSet, CanBeABrood) {
  RecordsBuilder records = family();
  records.brood("T", "tarnbrook", "e/e", {{"plain", 3}, {"tarnbrook", 1}});
  const auto colony = support::colony_of(support::recessive_model(), records);
  const auto clash = support::clash_of(colony);
  EXPECT_EQ(support::ids_of(colony, clash.observations), (Ids{"o6"}));
  expect_smallest(colony, clash);
}

// On Z a visual daughter's sire gave her his e: one who is clear by an infallible test cannot.
TEST(ContradictionSet, NamesTheSexesItNeeds) {
  auto model = support::sex_linked_model(genetics::Chromosome::z);
  RecordsBuilder records;
  records.founder("D", Sex::female, "bought").founder("S", Sex::male);
  records.clutch("C", "D", {"S"}).hatchling("H", "C", Sex::male).hatchling("I", "C", Sex::female);
  records.shows("I", "tarnbrook", "tarnbrook");
  const auto colony = support::colony_of(model, records);
  const auto clash = support::clash_of(colony);
  EXPECT_EQ(support::ids_of(colony, clash.observations), (Ids{"o1"}));
  EXPECT_TRUE(clash.sexes.empty()) << "with a clear sire no offspring of either sex is visual";

  RecordsBuilder sons;
  sons.founder("D", Sex::female).founder("S", Sex::male, "bought");
  sons.clutch("C", "D", {"S"}).hatchling("H", "C", Sex::male).shows("H", "tarnbrook", "tarnbrook");
  const auto brothers = support::colony_of(model, sons);
  const auto needs_sex = support::clash_of(brothers);
  EXPECT_EQ(needs_sex.sexes, (std::vector<std::size_t>{*brothers.find_animal("H")}));
  expect_smallest(brothers, needs_sex);
}

// An animal of unknown sex that had offspring by a female and others by a male.
TEST(ContradictionSet, FindsOneWhoIsBothDamAndSire) {
  RecordsBuilder records;
  records.founder("F", std::nullopt, "bought").brood("F", "tarnbrook", "e/W", {{"plain", 2}});
  records.shows("F", "tarnbrook", "plain").brood("F", "tarnbrook", "+/+", {{"plain", 4}});
  const auto colony =
      support::colony_of(support::sex_linked_model(genetics::Chromosome::z), records);
  const auto clash = support::clash_of(colony);
  EXPECT_EQ(support::ids_of(colony, clash.observations), (Ids{"o1", "o3"}));
  EXPECT_TRUE(clash.sexes.empty());
  expect_smallest(colony, clash);
}

// Withdrawn records are no part of a clash.
TEST(ContradictionSet, LooksAtWhatCountsAlone) {
  RecordsBuilder records = family();
  records.shows("H", "tarnbrook", "tarnbrook")
      .shows("H", "tarnbrook", "plain")
      .shows("H", "tarnbrook", "tarnbrook");
  records.withdraw("o6");
  const auto colony = support::colony_of(support::recessive_model(), records);
  EXPECT_EQ(support::ids_of(colony, support::clash_of(colony).observations), (Ids{"o7", "o8"}));
}

// Of two clashes at once one is told; mend it and the other is told.
TEST(ContradictionSet, IsOneOfSeveral) {
  RecordsBuilder records = family();
  records.shows("T", "tarnbrook", "tarnbrook")
      .shows("H", "tarnbrook", "tarnbrook")
      .shows("H", "tarnbrook", "plain");
  const auto colony = support::colony_of(support::recessive_model(), records);
  const auto first = support::clash_of(colony);
  expect_smallest(colony, first);
  const std::string known = support::ids_of(colony, first.observations).front();
  records.withdraw(known);
  const auto mended = support::colony_of(support::recessive_model(), records);
  const auto second = support::clash_of(mended);
  expect_smallest(mended, second);
  EXPECT_NE(support::ids_of(mended, second.observations).front(), known);
}

// Worst case: one impossible record among 300 that can be.
TEST(ContradictionSet, IsFoundAmongHundreds) {
  RecordsBuilder records;
  records.founder("D").founder("S").clutch("C", "D", {"S"});
  for (int i = 0; i < 100; ++i) {
    std::string id = "H";
    id += std::to_string(i);
    records.hatchling(id, "C").score(id, "crown-fleck", "strong", "ana");
    records.shows(id, "tarnbrook", i == 61 ? "tarnbrook" : "plain").result(id, "shed-pcr", "clear");
  }
  const auto colony = support::colony_of(support::recessive_model(), records);
  const auto clash = support::clash_of(colony);
  ASSERT_EQ(clash.observations.size(), 1U);
  EXPECT_EQ(colony::animal_of(colony.observations()[clash.observations[0]]),
            colony.find_animal("H61"));
}

}  // namespace
}  // namespace likelihet::odds::contradiction_test
