// Mixtures of chances by hand and against what must hold for all of them.
#include <cmath>
#include <numeric>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <likelihet/planning/chance_mixture.hpp>

namespace likelihet::planning::chance_mixture_test {
namespace {

ChanceMixture mixture(std::initializer_list<std::pair<double, double>> parts) {
  ChanceMixture out;
  for (const auto& [p, weight] : parts) out.add(p, weight);
  return out;
}

// A pair that is het by het with 1/2, else gives no visual: one offspring shows with 1/8, and eight
// offspring hold one with (1 - (3/4)^8) / 2 = 0.449944, not the 1 - (7/8)^8 = 0.656391 of
// independent eggs. The naive figure promises half as much again.
TEST(ChanceMixture, SharedParentsAreNotIndependentEggs) {
  const auto visual = mixture({{0.25, 0.5}, {0.0, 0.5}});
  EXPECT_DOUBLE_EQ(visual.chance(), 0.125);
  EXPECT_NEAR(visual.at_least_one(8), (1 - std::pow(0.75, 8)) / 2, 1e-15);
  EXPECT_NEAR(visual.at_least_one(8), 0.4499435, 1e-6);
  EXPECT_NEAR(1 - std::pow(1 - visual.chance(), 8), 0.6563913, 1e-6);
}

// R 4.2: dbinom(0:3, 3, 1/4) = 27/64, 27/64, 9/64, 1/64.
TEST(ChanceMixture, CountsAreMixedBinomials) {
  const auto counts = mixture({{0.25, 0.5}, {1.0, 0.5}}).counts(3);
  EXPECT_NEAR(counts[0], 27. / 128, 1e-15);
  EXPECT_NEAR(counts[1], 27. / 128, 1e-15);
  EXPECT_NEAR(counts[2], 9. / 128, 1e-15);
  EXPECT_NEAR(counts[3], 1. / 128 + 0.5, 1e-15);
}

// Two chances of 0 and 1, alike: one offspring tells all, the one bit that there is.
TEST(ChanceMixture, Information) {
  EXPECT_NEAR(mixture({{0, 0.5}, {1, 0.5}}).information(1), 1.0, 1e-15);
  EXPECT_EQ(mixture({{0.5, 1}}).information(7), 0.0);
  EXPECT_EQ(mixture({{0, 0.5}, {1, 0.5}}).information(0), 0.0);
  // 0 and 1/2 alike, one offspring: H(1/4) - H(1/2)/2 = 0.811278 - 0.5.
  EXPECT_NEAR(mixture({{0, 0.5}, {0.5, 0.5}}).information(1), 0.311278124459133, 1e-14);
}

TEST(ChanceMixture, Extremes) {
  EXPECT_EQ(binomial(4, 0), (std::vector<double>{1, 0, 0, 0, 0}));
  EXPECT_EQ(binomial(4, 1), (std::vector<double>{0, 0, 0, 0, 1}));
  EXPECT_EQ(mixture({{1, 1}}).at_least_one(3), 1.0);
  EXPECT_EQ(mixture({{0.3, 1}}).at_least_one(0), 0.0);
  // Where 1 - (1 - p)^n loses all digits: n p for tiny p.
  EXPECT_NEAR(mixture({{1e-18, 1}}).at_least_one(10), 1e-17, 1e-30);
  const auto many = mixture({{1e-3, 1}}).counts(1000);
  EXPECT_NEAR(std::accumulate(many.begin(), many.end(), 0.0), 1.0, 1e-12);
  // R 4.2: dbinom(0, 1000, 1e-3) = 0.999^1000.
  EXPECT_NEAR(many[0], 0.36769542477096, 1e-12);
}

TEST(ChanceMixture, NormalisesAndScales) {
  ChanceMixture half;
  half.add(mixture({{0.2, 1}}), 0.25);
  half.add(mixture({{0.4, 1}}), 0.25);
  EXPECT_DOUBLE_EQ(half.total(), 0.5);
  half.normalise();
  EXPECT_DOUBLE_EQ(half.chance(), 0.3);
  ChanceMixture nothing;
  nothing.normalise();
  EXPECT_TRUE(nothing.empty());
  EXPECT_EQ(nothing.chance(), 0.0);
}

TEST(ChanceMixture, BothOfTwo) {
  const auto joint = both(mixture({{0.5, 0.5}, {0, 0.5}}), mixture({{0.5, 1}}));
  EXPECT_DOUBLE_EQ(joint.chance(), 0.125);
  EXPECT_DOUBLE_EQ(joint.at_least_one(2), 0.5 * (1 - 0.75 * 0.75));
}

RC_GTEST_PROP(ChanceMixtureProperty, Bounds, ()) {
  ChanceMixture any;
  const auto parts = *rc::gen::inRange(1, 6);
  for (int k = 0; k < parts; ++k) {
    any.add(*rc::gen::inRange(0, 1001) / 1000.0, *rc::gen::inRange(1, 100));
  }
  any.normalise();
  const auto n = static_cast<std::size_t>(*rc::gen::inRange(1, 40));
  const auto counts = any.counts(n);
  double mean = 0;
  for (std::size_t k = 0; k <= n; ++k) mean += static_cast<double>(k) * counts[k];
  RC_ASSERT(std::abs(mean - static_cast<double>(n) * any.chance()) < 1e-10);
  RC_ASSERT(std::abs(1 - counts[0] - any.at_least_one(n)) < 1e-12);
  // Jensen: never more than independent eggs with the same mean would have.
  const double naive = 1 - std::pow(1 - any.chance(), static_cast<double>(n));
  RC_ASSERT(any.at_least_one(n) <= naive + 1e-12);
  // More offspring never tell less, and no more than there is to know.
  double entropy = 0;
  for (const auto& [p, weight] : any.weights()) entropy -= weight * std::log2(weight);
  RC_ASSERT(any.information(n) >= any.information(n - 1) - 1e-12);
  RC_ASSERT(any.information(n) <= entropy + 1e-12);
}

}  // namespace
}  // namespace likelihet::planning::chance_mixture_test
