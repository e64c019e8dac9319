// Leaves sorted by parents and evidence: what is shared, what tells nothing, what they sum to.
#include <cmath>
#include <vector>

#include <gtest/gtest.h>

#include <likelihet/inference/leaf_families.hpp>

namespace likelihet::test::leaf_families_test {
namespace {

using namespace inference;

// Two parents of two states; the leaf is in state 1 with 0, 1/2, 1/2 and 1.
class Pairs : public testing::Test {
 protected:
  Pairs() {
    for (int i = 0; i < 4; ++i) network.add_variable(2);
    passes = network.add_table(std::vector<double>{1, 0, 0.5, 0.5, 0.5, 0.5, 0, 1});
    ones = network.add_table(std::vector<double>{1, 1});
    plain = network.add_table(std::vector<double>{1, 0});
    soft = network.add_table(std::vector<double>{0.2, 0.6});
  }
  Leaf leaf(Table evidence, bool fixed, const std::vector<Branch>& branches) {
    return network.add_leaf(2, passes, evidence, fixed, branches);
  }
  static std::vector<Branch> on(Variable first, Variable second) {
    return {{first, second, std::nullopt, 0, 1.0}};
  }

  Network network;
  Table passes = 0, ones = 0, plain = 0, soft = 0;
};

TEST_F(Pairs, SumOverTheLeafWhatItSaysOfItsParents) {
  leaf(soft, false, on(0, 1));
  const LeafFamilies families(network);
  ASSERT_EQ(families.patterns.size(), 1U);
  std::vector<double> sums(families.sums);
  sum_leaf<double>(network.values(), network, families.patterns[0], sums.data());
  ASSERT_EQ(sums.size(), 4U);
  EXPECT_NEAR(sums[0], 0.2, 1e-16);
  EXPECT_NEAR(sums[1], 0.4, 1e-16);
  EXPECT_NEAR(sums[2], 0.4, 1e-16);
  EXPECT_NEAR(sums[3], 0.6, 1e-16);
  EXPECT_FALSE(families.patterns[0].silent());
}

TEST_F(Pairs, ShareAFamilyAPatternAndARun) {
  for (int i = 0; i < 5; ++i) leaf(plain, false, on(0, 1));
  leaf(soft, false, on(0, 1));
  leaf(plain, false, on(2, 3));
  const LeafFamilies families(network);
  EXPECT_EQ(families.patterns.size(), 2U);
  EXPECT_EQ(families.families.size(), 2U);
  EXPECT_EQ(families.runs.size(), 3U);
  for (Leaf l = 1; l < 5; ++l) EXPECT_EQ(families.run_of[l], families.run_of[0]);
  EXPECT_NE(families.run_of[5], families.run_of[0]);
  EXPECT_NE(families.run_of[6], families.run_of[0]);
  ASSERT_EQ(families.members_of(families.families[0]).size(), 2U);
  EXPECT_EQ(families.members_of(families.families[0])[0].count, 5U);
  EXPECT_EQ(families.members_of(families.families[0])[1].count, 1U);
  EXPECT_EQ(families.members_of(families.families[1])[0].count, 1U);
}

// The first and the second parent are not the same thing.
TEST_F(Pairs, TellOrderedPairsApart) {
  leaf(plain, false, on(0, 1));
  leaf(plain, false, on(1, 0));
  EXPECT_EQ(LeafFamilies(network).families.size(), 2U);
}

// Rows of the conditional sum to 1: without evidence a leaf multiplies everything by 1 alone.
TEST_F(Pairs, WithoutEvidenceTellNothing) {
  for (int i = 0; i < 3; ++i) leaf(ones, true, on(0, 1));
  const LeafFamilies families(network);
  EXPECT_TRUE(families.patterns[0].silent());
  EXPECT_NEAR(families.patterns[0].silent_sum, 1, 1e-15);
  EXPECT_NEAR(families.silent_log, 0, 1e-15);
  EXPECT_TRUE(families.families[0].silent());
}

// The sum may be another number, as long as it is the same for every pair: each of seven leaves
// halves the whole.
TEST_F(Pairs, AreSilentByAnyCommonSum) {
  const auto half = network.add_table(std::vector<double>{0.5, 0.5});
  for (int i = 0; i < 7; ++i) leaf(half, true, on(0, 1));
  const LeafFamilies families(network);
  EXPECT_TRUE(families.patterns[0].silent());
  EXPECT_NEAR(families.silent_log, 7 * std::log(0.5), 1e-14);
}

// The same numbers where another set of numbers may change them: never silent.
TEST_F(Pairs, WhoseEvidenceMayChangeAreNeverSilent) {
  leaf(ones, false, on(0, 1));
  const LeafFamilies families(network);
  EXPECT_FALSE(families.patterns[0].silent());
  EXPECT_EQ(families.members_of(families.families[0]).size(), 1U);
}

TEST_F(Pairs, WithUnevenSumsAreNeverSilent) {
  leaf(plain, true, on(0, 1));
  EXPECT_FALSE(LeafFamilies(network).patterns[0].silent());
}

// Pairs that have no leaf at all (a sex that can't be, parents without living offspring) are ruled
// out elsewhere and do not count.
TEST_F(Pairs, IgnoreParentsWhoHaveNoOffspring) {
  const auto gaps = network.add_table(std::vector<double>{0, 0, 0.5, 0.5, 0, 0, 0.25, 0.75});
  network.add_leaf(2, gaps, ones, true, on(0, 1));
  const LeafFamilies families(network);
  EXPECT_TRUE(families.patterns[0].silent());
  EXPECT_EQ(families.silent_log, 0.0);
}

TEST_F(Pairs, UnderDifferentGuardsAreDifferentFamilies) {
  const Variable who = network.add_variable(2);
  const std::vector<Branch> guarded{{0, 1, who, 0, 1.0}, {0, 2, who, 1, 1.0}};
  leaf(plain, false, guarded);
  leaf(plain, false, guarded);
  leaf(plain, false, on(0, 1));
  const LeafFamilies families(network);
  EXPECT_EQ(families.families.size(), 3U);
  EXPECT_EQ(families.runs.size(), 2U);
  EXPECT_EQ(families.run_of[0], families.run_of[1]);
  for (const Family& family : families.families) {
    ASSERT_EQ(families.members_of(family).size(), 1U);
    EXPECT_EQ(families.members_of(family)[0].count, family.guard ? 2U : 1U);
  }
}

TEST_F(Pairs, WithOtherWeightsAreOtherRuns) {
  leaf(ones, true, {{0, 1, std::nullopt, 0, 0.3}, {0, 2, std::nullopt, 0, 0.7}});
  leaf(ones, true, {{0, 1, std::nullopt, 0, 0.6}, {0, 2, std::nullopt, 0, 0.4}});
  leaf(ones, true, {{0, 1, std::nullopt, 0, 0.3}, {0, 2, std::nullopt, 0, 0.7}});
  const LeafFamilies families(network);
  EXPECT_EQ(families.runs.size(), 2U);
  EXPECT_EQ(families.run_of[0], families.run_of[2]);
}

TEST_F(Pairs, AreRefusedWhereTheyDoNotFit) {
  EXPECT_THROW(leaf(plain, false, {}), std::invalid_argument);
  EXPECT_THROW(leaf(plain, false, on(0, 0)), std::invalid_argument);
  EXPECT_THROW(leaf(plain, false, on(0, 9)), std::invalid_argument);
  EXPECT_THROW(leaf(passes, false, on(0, 1)), std::invalid_argument);
  EXPECT_THROW(leaf(plain, false, {{0, 1, Variable{2}, 5, 1.0}}), std::invalid_argument);
  EXPECT_THROW(leaf(plain, false, {{0, 1, std::nullopt, 0, 0.5}, {0, 2, std::nullopt, 0, 0.5}}),
               std::invalid_argument)
      << "branches without a guard may carry no evidence";
  EXPECT_EQ(network.leaves(), 0U);
}

}  // namespace
}  // namespace likelihet::test::leaf_families_test
