// Large colonies: no quadratic checks, no deep recursion, few faults kept.
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <support/faults.hpp>
#include <support/small_model.hpp>

#include <likelihet/colony/counting.hpp>

namespace likelihet::colony::scale_test {
namespace {

using namespace likelihet::colony;
using namespace likelihet::support;
using likelihet::genetics::Sex;

// Clutches of ten, each out of two animals of the clutch before: `clutches` generations deep.
RecordsBuilder long_line(int clutches) {
  RecordsBuilder builder;
  builder.founder("D0", Sex::female, "bought").founder("S0", Sex::male, "bought");
  for (int c = 1; c <= clutches; ++c) {
    const std::string id = std::to_string(c);
    const std::string parents = std::to_string(c - 1);
    builder.clutch("C" + id, "D" + parents, {"S" + parents});
    builder.hatchling("D" + id, "C" + id).hatchling("S" + id, "C" + id);
    for (int h = 0; h < 8; ++h) builder.hatchling("H" + id + "-" + std::to_string(h), "C" + id);
  }
  return builder;
}

// The time limit of every test is the check here: comparing each of 300,000 observations with each
// of 100,000 animals would go far beyond it.
TEST(Scale, HoldsAHundredThousandAnimals) {
  RecordsBuilder builder = long_line(10'000);
  const std::size_t animals = builder.records.animals.size();
  for (std::size_t a = 0; a < animals; ++a) {
    const std::string id = builder.records.animals[a].id;
    builder.shows(id, "tarnbrook", "plain").on("2024-06-01");
    builder.score(id, "crown-fleck", "faint", "ana").on("2024-06-11");
    builder.result(id, "shed-pcr", "clear").on("2024-07-02");
  }
  const Colony colony = colony_of(made(recessive_model()), builder.records);
  EXPECT_EQ(colony.animals().size(), 100'002U);
  EXPECT_EQ(counting(colony, std::nullopt).size(), 300'006U);
  EXPECT_EQ(colony.find_animal("H10000-7"), animals - 1);
}

TEST(Scale, FindsTheCircleInALongLineAndListsItsBeginning) {
  RecordsBuilder builder = long_line(10'000);
  builder.records.animals[0].origin.reset();
  builder.records.animals[0].clutch = "C10000";
  const Faults faults = faults_of(made(recessive_model()), builder.records);
  ASSERT_FALSE(faults.empty());
  EXPECT_EQ(faults[0].place, "/animals/0/clutch");
  EXPECT_THAT(faults[0].what, testing::HasSubstr("more) out of 'D0'"));
  EXPECT_LT(faults[0].what.size(), 2000U);
}

// A table read with the wrong ids: every record has a fault, and each wants a suggestion.
TEST(Scale, KeepsAThousandFaultsOfFortyThousand) {
  RecordsBuilder builder = long_line(1'000);
  for (int i = 0; i < 40'000; ++i) builder.shows("X" + std::to_string(i), "tarnbrook", "plain");
  const Faults faults = faults_of(made(recessive_model()), builder.records);
  ASSERT_EQ(faults.size(), 1001U);
  EXPECT_THAT(faults[0].mend, testing::HasSubstr("D0"));
  EXPECT_EQ(faults[999].mend, "name one of the 10002 that are known");
  EXPECT_EQ(faults[1000].what, "39000 more faults were found");
}

}  // namespace
}  // namespace likelihet::colony::scale_test
