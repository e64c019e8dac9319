// Parents and offspring as clutches say.
#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <support/small_model.hpp>

#include <likelihet/colony/family.hpp>

namespace likelihet::colony::family_test {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

// D by S or T: H; H by S: G; K of nobody who is named.
Colony three_generations() {
  support::RecordsBuilder records;
  records.founder("D", genetics::Sex::female).founder("S").founder("T");
  records.clutch("C1", "D", {"S", "T"}).hatchling("H", "C1", genetics::Sex::female);
  records.clutch("C2", "H", {"S"}).hatchling("G", "C2");
  records.clutch("C3", {}, {}).hatchling("K", "C3");
  return support::colony_of(support::made(support::recessive_model()), records.records);
}

std::size_t at(const Colony& colony, const char* id) {
  return colony.find_animal(id).value();
}

TEST(Family, ParentsAreTheDamAndEveryCandidate) {
  const Colony colony = three_generations();
  const std::size_t d = at(colony, "D"), s = at(colony, "S"), t = at(colony, "T");
  EXPECT_THAT(possible_parents(colony, at(colony, "H")), ElementsAre(d, s, t));
  EXPECT_THAT(possible_parents(colony, at(colony, "G")), ElementsAre(at(colony, "H"), s));
  EXPECT_THAT(possible_parents(colony, d), IsEmpty());
  EXPECT_THAT(possible_parents(colony, at(colony, "K")), IsEmpty());
}

TEST(Family, OffspringSayWhetherTheyAreSurelyTheParents) {
  const Colony colony = three_generations();
  const auto offspring = offspring_by_parent(colony);
  const auto& of_d = offspring[at(colony, "D")];
  ASSERT_EQ(of_d.size(), 1U);
  EXPECT_EQ(of_d[0].animal, at(colony, "H"));
  EXPECT_TRUE(of_d[0].surely);
  EXPECT_FALSE(of_d[0].partner) << "two candidates";
  const auto& of_s = offspring[at(colony, "S")];
  ASSERT_EQ(of_s.size(), 2U);
  EXPECT_FALSE(of_s[0].surely);
  EXPECT_TRUE(of_s[1].surely);
  EXPECT_EQ(of_s[1].partner, at(colony, "H"));
}

TEST(Family, AncestorsComeFirstAndOnce) {
  const Colony colony = three_generations();
  const std::size_t g = at(colony, "G"), h = at(colony, "H");
  const auto line = with_ancestors(colony, std::vector<std::size_t>{g, h});
  ASSERT_EQ(line.size(), 5U);
  const auto place = [&](std::size_t animal) {
    return std::find(line.begin(), line.end(), animal) - line.begin();
  };
  for (const std::size_t animal : line) {
    for (const std::size_t parent : possible_parents(colony, animal)) {
      EXPECT_LT(place(parent), place(animal));
    }
  }
  EXPECT_THAT(with_ancestors(colony, std::vector<std::size_t>{}), IsEmpty());
}

TEST(Family, EachIsDescendedFromItsAncestorsAlone) {
  const Colony colony = three_generations();
  for (std::size_t root = 0; root < colony.animals().size(); ++root) {
    const auto descended = with_descendants(colony, {root});
    for (std::size_t animal = 0; animal < colony.animals().size(); ++animal) {
      const auto line = with_ancestors(colony, std::vector<std::size_t>{animal});
      EXPECT_EQ(descended[animal], std::find(line.begin(), line.end(), root) != line.end());
    }
  }
}

}  // namespace
}  // namespace likelihet::colony::family_test
