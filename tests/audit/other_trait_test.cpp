// Markers that follow another trait, this one, both or none.
#include <cmath>

#include "audit/hand_made.hpp"
#include <gtest/gtest.h>

#include <likelihet/audit/marker_groups.hpp>

namespace likelihet::audit::other_trait_test {
namespace {

// Twenty animals of each combination of this trait (tarnbrook) and the other (brackmoor), all
// known.
struct Cells {
  std::vector<HandAnimal> animals;
  std::vector<Subject> subjects;

  void add(std::size_t n, bool mine, const genetics::CopyChances& brackmoor, std::size_t level) {
    for (std::size_t i = 0; i < n; ++i) {
      Subject one;
      one.read = look(animals.size(), level);
      one.carrier = mine ? 1 : 0;
      subjects.push_back(one);
      animals.push_back({{mine ? 0.0 : 1.0, one.carrier, 0}, brackmoor});
    }
  }
  // How many of twenty show the marker: without either, with brackmoor, with tarnbrook, with both.
  static Cells of(std::size_t none, std::size_t brackmoor, std::size_t tarnbrook,
                  std::size_t both) {
    Cells out;
    const std::size_t shown[2][2] = {{none, brackmoor}, {tarnbrook, both}};
    for (const bool mine : {false, true}) {
      for (const bool other : {false, true}) {
        const genetics::CopyChances copies =
            other ? genetics::CopyChances{0, 1, 0} : genetics::CopyChances{1, 0, 0};
        out.add(shown[mine ? 1 : 0][other ? 1 : 0], mine, copies, 1);
        out.add(20 - shown[mine ? 1 : 0][other ? 1 : 0], mine, copies, 0);
      }
    }
    return out;
  }
  [[nodiscard]] std::optional<OtherTrait> found() const {
    const auto colony = hand_colony(animals);
    return other_trait(colony, hand_table(colony, animals), subjects, MarkerAudit(), 2);
  }
};

// 18 and 2 of 20 in each of four cells: 4 (18 ln 0.9 + 2 ln 0.1) = -26.00664 where cells are told
// apart, 80 ln 0.5 = -55.45177 where the trait that matters is not. Twice the difference, at two
// degrees of freedom, has p = exp(-29.44513).
const double follows_p = std::exp(-29.44513);

TEST(OtherTrait, ItsMarkLeavesNothingOfThisOne) {
  const auto found = Cells::of(2, 18, 2, 18).found();
  ASSERT_TRUE(found);
  EXPECT_EQ(found->locus, 1U);
  EXPECT_EQ(found->allele, 1U);
  EXPECT_NEAR(found->p / follows_p, 1, 1e-4);
  EXPECT_GT(found->left, 0.999);
}

TEST(OtherTrait, IsNotBehindAMarkOfThisOne) {
  const auto found = Cells::of(2, 2, 18, 18).found();
  ASSERT_TRUE(found);
  EXPECT_GT(found->p, 0.999);
  EXPECT_NEAR(found->left / follows_p, 1, 1e-4);
}

// Apart: 2 (18 ln 0.9 + 2 ln 0.1) + 40 ln 0.5 = -40.72920. By either trait alone 12 and 28 of 40:
// 2 (12 ln 0.3 + 28 ln 0.7) = -48.86915. Both p are exp(-8.13995).
TEST(OtherTrait, AMarkOfBothKeepsSomethingOfEach) {
  const auto found = Cells::of(2, 10, 10, 18).found();
  ASSERT_TRUE(found);
  EXPECT_NEAR(found->p / std::exp(-8.13995), 1, 1e-3);
  EXPECT_NEAR(found->left / std::exp(-8.13995), 1, 1e-3);
}

TEST(OtherTrait, AMarkOfNeitherFollowsNone) {
  const auto found = Cells::of(7, 7, 7, 7).found();
  ASSERT_TRUE(found);
  EXPECT_GT(found->p, 0.999);
  EXPECT_GT(found->left, 0.999);
}

TEST(OtherTrait, AnimalsThatShowItTellNothing) {
  auto cells = Cells::of(2, 18, 2, 18);
  cells.add(30, true, {0.2, 0.29, 0.51}, 1);
  EXPECT_NEAR(cells.found()->p / follows_p, 1, 1e-4);
  Cells all;
  all.add(30, true, {0, 0, 1}, 1);
  EXPECT_EQ(all.found(), std::nullopt);
}

TEST(OtherTrait, IsNothingWhereThereIsNone) {
  support::RecordsBuilder records;
  records.founder("A0").founder("A1");
  const auto colony =
      support::colony_of(support::made(support::recessive_model()), records.records);
  const MarkerlessTable table(colony, {{1, 0, 0}, {0, 1, 0}});
  std::vector<Subject> subjects(2);
  subjects[1].read = look(1, 1);
  subjects[1].carrier = 1;
  EXPECT_EQ(other_trait(colony, table, subjects, MarkerAudit(), 2), std::nullopt);
}

// A third trait, spread evenly over the cells, was tried too: p doubles, and is never above 1.
TEST(OtherTrait, ItsPIsTimesTheTraitsTried) {
  auto model = hand_model();
  auto third = support::masking_locus();
  third.id = "delta";
  model.loci.push_back(third);
  const auto with_third = [&](const Cells& cells) {
    const auto colony =
        support::colony_of(support::made(model), hand_records(cells.animals).records);
    std::vector<genetics::CopyChances> copies;
    for (std::size_t a = 0; a < cells.animals.size(); ++a) {
      copies.push_back(cells.animals[a].tarnbrook);
      copies.push_back(cells.animals[a].brackmoor);
      copies.push_back(a % 2 == 0 ? genetics::CopyChances{1, 0, 0}
                                  : genetics::CopyChances{0, 1, 0});
    }
    return other_trait(colony, MarkerlessTable(colony, copies), cells.subjects, MarkerAudit(), 2);
  };
  const auto found = with_third(Cells::of(2, 18, 2, 18));
  ASSERT_TRUE(found);
  EXPECT_EQ(found->locus, 1U);
  EXPECT_NEAR(found->p / (2 * follows_p), 1, 1e-4);
  EXPECT_EQ(with_third(Cells::of(8, 8, 8, 8))->p, 1);
}

}  // namespace
}  // namespace likelihet::audit::other_trait_test
