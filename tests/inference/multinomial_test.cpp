// Numbers drawn at once against those that draws of one would give.
#include <cmath>
#include <numeric>

#include "inference/frequencies.hpp"
#include <boost/math/distributions/binomial.hpp>
#include <gtest/gtest.h>

#include <likelihet/inference/multinomial.hpp>

namespace likelihet::test::multinomial_test {
namespace {

using inference::multinomial;
using inference::RandomBits;

// All ways to share `n` out over three, by n!/(a! b! c!) p^a q^b r^c (Devroye 1986, chapter
// XI.1.4).
void expect_exact(std::size_t n, const std::vector<double>& weights, std::uint64_t seed) {
  const double whole = std::accumulate(weights.begin(), weights.end(), 0.0);
  const auto place = [&](std::size_t a, std::size_t b) { return a * (n + 1) + b; };
  std::vector<double> chances((n + 1) * (n + 1), 0.0);
  for (std::size_t a = 0; a <= n; ++a) {
    for (std::size_t b = 0; a + b <= n; ++b) {
      const std::size_t c = n - a - b;
      double log = std::lgamma(static_cast<double>(n + 1));
      for (std::size_t i = 0; i < 3; ++i) {
        const auto k = static_cast<double>(i == 0 ? a : i == 1 ? b : c);
        log += k * std::log(weights[i] / whole) - std::lgamma(k + 1);
      }
      chances[place(a, b)] = std::exp(log);
    }
  }
  constexpr std::size_t draws = 100'000;
  std::vector<double> counts(chances.size(), 0.0);
  RandomBits random(seed);
  std::vector<std::size_t> drawn;
  for (std::size_t i = 0; i < draws; ++i) {
    multinomial(n, weights, random, drawn);
    ASSERT_EQ(drawn[0] + drawn[1] + drawn[2], n);
    counts[place(drawn[0], drawn[1])] += 1;
  }
  EXPECT_GT(p_value(counts, chances, draws), 0.001) << n;
}

TEST(Multinomial, SharesOutInProportion) {
  expect_exact(3, {0.5, 1.5, 2}, 1);  // one by one
  expect_exact(9, {0.5, 1.5, 2}, 2);  // few on each
  expect_exact(60, {5, 2, 3}, 3);     // many on each: another algorithm within Boost.Random
  expect_exact(40, {0.02, 3, 0.01}, 4);
}

// Boost.Math's binomial, an implementation apart from Boost.Random's.
TEST(Multinomial, ManyOnTwoAreBinomial) {
  constexpr std::size_t n = 2'000;
  constexpr std::size_t draws = 50'000;
  const std::vector<double> weights{0.3, 0.7};
  std::vector<double> chances;
  for (std::size_t k = 0; k <= n; ++k) {
    chances.push_back(boost::math::pdf(boost::math::binomial(n, 0.3), static_cast<double>(k)));
  }
  std::vector<double> counts(n + 1, 0.0);
  RandomBits random(5);
  std::vector<std::size_t> drawn;
  for (std::size_t i = 0; i < draws; ++i) {
    multinomial(n, weights, random, drawn);
    counts[drawn[0]] += 1;
  }
  EXPECT_GT(p_value(counts, chances, draws), 0.001);
}

TEST(Multinomial, AnImpossiblePositionGetsNone) {
  RandomBits random(6);
  std::vector<std::size_t> drawn;
  for (std::size_t n : {std::size_t{0}, std::size_t{1}, std::size_t{7}, std::size_t{5'000}}) {
    for (int i = 0; i < 200; ++i) {
      multinomial(n, std::vector<double>{0, 1, 0, 1e-300, 0}, random, drawn);
      EXPECT_EQ(drawn, (std::vector<std::size_t>{0, n, 0, 0, 0}));
    }
  }
}

// Weights may lie anywhere in a double's range, and may differ by more than its precision.
TEST(Multinomial, OnlyRatiosMatter) {
  RandomBits random(7);
  std::vector<std::size_t> drawn;
  double sum = 0;
  for (int i = 0; i < 1'000; ++i) {
    multinomial(1'000, std::vector<double>{1e-305, 3e-305, 0}, random, drawn);
    EXPECT_EQ(drawn[0] + drawn[1], 1'000U);
    sum += static_cast<double>(drawn[0]);
  }
  EXPECT_NEAR(sum / 1e6, 0.25, 5 * std::sqrt(0.25 * 0.75 / 1e6));
  multinomial(1'000, std::vector<double>{1, 1e-20, 1e-20}, random, drawn);
  EXPECT_EQ(drawn, (std::vector<std::size_t>{1'000, 0, 0}));
}

TEST(Multinomial, OnePositionTakesAll) {
  RandomBits random(8);
  std::vector<std::size_t> drawn;
  multinomial(12'345, std::vector<double>{0.2}, random, drawn);
  EXPECT_EQ(drawn, (std::vector<std::size_t>{12'345}));
}

}  // namespace
}  // namespace likelihet::test::multinomial_test
