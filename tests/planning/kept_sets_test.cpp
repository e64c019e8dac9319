// Sums of siblings together, against enumeration.
#include <algorithm>
#include <cmath>
#include <memory>
#include <string>
#include <vector>

#include "planning/by_enumeration.hpp"
#include "properties/dice.hpp"
#include "properties/enumeration.hpp"
#include "properties/random_colony.hpp"
#include <gtest/gtest.h>
#include <support/solved_colony.hpp>

#include <likelihet/planning/kept_sets.hpp>

namespace likelihet::planning::kept_sets_test {
namespace {

using genetics::Sex;
using support::RecordsBuilder;
using Set = KeptSets::Set;

std::unique_ptr<SupposedBook> book_of(const colony::Colony& colony, std::size_t locus,
                                      const std::vector<std::size_t>& animals) {
  std::vector<odds::GenotypePlace> places;
  for (const std::size_t animal : animals) places.push_back({animal, locus});
  auto made = SupposedBook::make(colony, {}, places, {locus});
  return std::get<std::unique_ptr<SupposedBook>>(std::move(made));
}

std::vector<std::size_t> each_its_own(std::size_t count) {
  std::vector<std::size_t> out;
  for (std::size_t i = 0; i < count; ++i) out.push_back(i);
  return out;
}

// The dam carries with 1/2, the sire does not: an offspring one carries with 1/4, but none of three
// do with 1/2 + 1/2 x 1/8, not (3/4)^3.
TEST(KeptSets, AreNoProducts) {
  RecordsBuilder records;
  records.founder("D", Sex::female).bought_as("tarnbrook", {{"+/+", 0.5}, {"+/e", 0.5}});
  records.founder("S", Sex::male).clutch("C", "D", {"S"});
  for (const char* id : {"H1", "H2", "H3"}) records.hatchling(id, "C");
  const auto colony = support::colony_of(support::recessive_model(), records);
  const std::vector<std::size_t> offspring = colony.clutches()[0].hatchlings;
  const auto book = book_of(colony, 0, offspring);
  const auto goal = std::get<KeepGoal>(keep_goal_named(colony.model().loci()[0], 0, "carries"));
  KeptSets sets(*book, goal, offspring, {0, 0, 0});
  EXPECT_NEAR(sets.chance(0), 0.25, 1e-15);
  EXPECT_EQ(sets.none({}), 1);
  EXPECT_NEAR(sets.none({1}), 0.75, 1e-15);
  EXPECT_NEAR(sets.none({0, 2}), 0.5 + 0.125, 1e-15);
  EXPECT_NEAR(sets.none({0, 1, 2}), 0.5 + 1.0 / 16, 1e-15);
  const auto counts = sets.counts({0, 1, 2});
  ASSERT_EQ(counts.size(), 4U);
  EXPECT_NEAR(counts[0], 9.0 / 16, 1e-15);
  EXPECT_NEAR(counts[1], 3.0 / 16, 1e-15);
  EXPECT_NEAR(counts[2], 3.0 / 16, 1e-15);
  EXPECT_NEAR(counts[3], 1.0 / 16, 1e-15);
  EXPECT_EQ(sets.likeness({0, 1}), sets.likeness({1, 2}));
}

TEST(KeptSets, OfACertainCarrierHaveNoChanceOfNone) {
  RecordsBuilder records;
  records.founder("D", Sex::female).bought_as("tarnbrook", {{"e/e", 1.0}});
  records.founder("S", Sex::male).clutch("C", "D", {"S"}).hatchling("H", "C");
  const auto colony = support::colony_of(support::recessive_model(), records);
  const auto book = book_of(colony, 0, {2});
  const auto carrier = std::get<KeepGoal>(keep_goal_named(colony.model().loci()[0], 0, "carries"));
  KeptSets sets(*book, carrier, {2}, {0});
  EXPECT_EQ(sets.none({0}), 0);
  const auto visual = std::get<KeepGoal>(keep_goal_named(colony.model().loci()[0], 0, "visual"));
  KeptSets shown(*book, visual, {2}, {0});
  EXPECT_EQ(shown.none({0}), 1);
  EXPECT_EQ(shown.chance(0), 0);
}

// Every set of a random few animals of hundreds of random books, siblings or not: 1e-12.
TEST(KeptSets, EqualEnumerationOnRandomBooks) {
  std::size_t compared = 0;
  double largest = 0;
  for (std::uint64_t seed = 1; compared < 300; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    properties::Dice dice(seed);
    const auto drawn = properties::random_colony(dice);
    const auto& colony = *drawn.colony;
    if (properties::enumeration_size(colony) > 2000) continue;
    if (properties::enumerate(colony, std::nullopt).contradiction) continue;
    const std::size_t l = dice.roll(drawn.model->loci().size());
    const genetics::Locus& locus = drawn.model->loci()[l];
    const std::string word = dice.chance(0.4)   ? "carries"
                             : dice.chance(0.5) ? "visual"
                                                : locus.key(dice.roll(locus.size()));
    const auto goal = std::get<KeepGoal>(keep_goal_named(locus, l, word));
    // A clutch where there is one, so that siblings are asked for.
    std::vector<std::size_t> animals;
    if (!colony.clutches().empty()) {
      animals = dice.pick(colony.clutches()).hatchlings;
    }
    if (animals.size() < 2) {
      for (std::size_t a = 0; a < colony.animals().size() && a < 3; ++a) animals.push_back(a);
      std::sort(animals.begin(), animals.end());
      animals.erase(std::unique(animals.begin(), animals.end()), animals.end());
    }
    animals.resize(std::min<std::size_t>(animals.size(), 3));
    ++compared;
    const auto book = book_of(colony, l, animals);
    KeptSets sets(*book, goal, animals, each_its_own(animals.size()));
    std::vector<double> none;
    for (std::size_t bits = 0; bits < (std::size_t{1} << animals.size()); ++bits) {
      Set set;
      std::vector<std::size_t> members;
      for (std::size_t i = 0; i < animals.size(); ++i) {
        if (((bits >> i) & 1U) == 0) continue;
        set.push_back(i);
        members.push_back(animals[i]);
      }
      none.push_back(ByEnumeration::none(drawn.model, drawn.records, goal, members));
      EXPECT_NEAR(sets.none(set), none.back(), 1e-12);
      largest = std::max(largest, std::abs(sets.none(set) - none.back()));
    }
    const auto counts = sets.counts(each_its_own(animals.size()));
    double sum = 0;
    double expected = 0;
    for (std::size_t k = 0; k < counts.size(); ++k) {
      sum += counts[k];
      expected += static_cast<double>(k) * counts[k];
    }
    EXPECT_NEAR(sum, 1, 1e-12);
    EXPECT_NEAR(counts[0], none.back(), 1e-12);
    double chances = 0;
    for (std::size_t i = 0; i < animals.size(); ++i) chances += sets.chance(i);
    EXPECT_NEAR(expected, chances, 1e-12) << "expectations add up, however they hang together";
  }
  RecordProperty("largest_difference", std::to_string(largest * 1e15) + "e-15");
}

}  // namespace
}  // namespace likelihet::planning::kept_sets_test
