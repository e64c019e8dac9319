// Combinations of reports: all of them, or drawn ones.
#include <cmath>
#include <map>
#include <vector>

#include <gtest/gtest.h>

#include <likelihet/inference/random_bits.hpp>
#include <likelihet/planning/report_tree.hpp>

namespace likelihet::planning::report_tree_test {
namespace {

// Three classes, the last told of no genotype but the third.
std::vector<ReportClass> classes() {
  return {{{0.9, 0.2, 0.0}, {0}}, {{0.1, 0.8, 0.0}, {1}}, {{0.0, 0.0, 1.0}, {2}}};
}

using Genotypes = std::vector<std::vector<double>>;

double weights(const ReportTree& tree) {
  double sum = 0;
  for (const auto& branch : tree.branches()) sum += branch.weight;
  return sum;
}

TEST(ReportTree, StartsWithoutReports) {
  const ReportTree tree;
  ASSERT_EQ(tree.branches().size(), 1U);
  EXPECT_EQ(tree.branches()[0].weight, 1);
  EXPECT_EQ(tree.sets().size(), 1U);
  EXPECT_TRUE(tree.sets()[0].empty());
  EXPECT_FALSE(tree.sampled());
}

// P(report 0) = 1/2 x 0.9 + 1/2 x 0.2; report 2 cannot be.
TEST(ReportTree, SplitsByTheChances) {
  ReportTree tree;
  inference::RandomBits random(1);
  tree.add({4, 0}, classes(), Genotypes{{0.5, 0.5, 0}}, random);
  ASSERT_EQ(tree.branches().size(), 2U);
  EXPECT_DOUBLE_EQ(tree.branches()[0].weight, 0.55);
  EXPECT_DOUBLE_EQ(tree.branches()[1].weight, 0.45);
  tree.add({5, 0}, classes(), Genotypes{{1, 0, 0}, {0, 0, 1}}, random);
  ASSERT_EQ(tree.branches().size(), 3U);
  EXPECT_DOUBLE_EQ(tree.branches()[0].weight, 0.55 * 0.9);
  EXPECT_DOUBLE_EQ(tree.branches()[2].weight, 0.45);
  const auto sets = tree.sets();
  ASSERT_EQ(sets[2].size(), 2U);
  EXPECT_EQ(sets[2][0].place, (odds::GenotypePlace{4, 0}));
  EXPECT_EQ(sets[2][0].likelihood, classes()[1].likelihood);
  EXPECT_EQ(sets[2][1].place, (odds::GenotypePlace{5, 0}));
  EXPECT_EQ(sets[2][1].likelihood, classes()[2].likelihood);
  EXPECT_EQ(inference::RandomBits(1), random) << "nothing was drawn";
}

// Beyond the limit draws stand for the combinations: equal weights, frequencies as they should be
// within four standard errors.
TEST(ReportTree, DrawsBeyondTheLimit) {
  ReportTree tree({4, 20'000});
  inference::RandomBits random(7);
  const std::vector<double> even{0.5, 0.5, 0};
  tree.add({0, 0}, classes(), Genotypes{even}, random);
  EXPECT_FALSE(tree.sampled());
  tree.add({1, 0}, classes(), Genotypes(tree.branches().size(), even), random);
  EXPECT_TRUE(tree.sampled());
  ASSERT_EQ(tree.branches().size(), 20'000U);
  EXPECT_NEAR(weights(tree), 1, 1e-9);
  std::map<std::vector<std::size_t>, double> share;
  for (const auto& branch : tree.branches()) share[branch.classes] += branch.weight;
  const double p = 0.55 * 0.45;
  EXPECT_NEAR((share[{0, 1}]), p, 4 * std::sqrt(p * (1 - p) / 20'000));
  // The first report was placed systematically, so its share is right to one draw.
  EXPECT_NEAR((share[{0, 0}] + share[{0, 1}]), 0.55, 1.0 / 20'000 + 1e-12);
  tree.add({2, 0}, classes(), Genotypes(20'000, even), random);
  EXPECT_EQ(tree.branches().size(), 20'000U);
  EXPECT_EQ(tree.branches()[0].classes.size(), 3U);
}

TEST(ReportTree, DrawsTheSameFromTheSameSeed) {
  const auto grown = [](std::uint64_t seed) {
    ReportTree tree({1, 50});
    inference::RandomBits random(seed);
    tree.add({0, 0}, classes(), Genotypes{{0.3, 0.3, 0.4}}, random);
    std::vector<std::size_t> out;
    for (const auto& branch : tree.branches()) out.push_back(branch.classes.front());
    return out;
  };
  EXPECT_EQ(grown(3), grown(3));
  EXPECT_NE(grown(3), grown(4));
}

TEST(ReportTree, OfAReportThatIsCertainHasOneBranch) {
  ReportTree tree({1, 10});
  inference::RandomBits random(1);
  tree.add({0, 0}, {{{1, 1, 1}, {0, 1}}}, Genotypes{{0.3, 0.3, 0.4}}, random);
  EXPECT_EQ(tree.branches().size(), 1U);
  EXPECT_FALSE(tree.sampled());
}

}  // namespace
}  // namespace likelihet::planning::report_tree_test
