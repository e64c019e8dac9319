// Backward samples have the exact joint distribution.
#include "inference/brute_force.hpp"
#include "inference/frequencies.hpp"
#include <gtest/gtest.h>

#include <likelihet/inference/engine.hpp>
#include <likelihet/inference/sampling.hpp>

namespace likelihet::test {
namespace {

using namespace inference;

TEST(Sampling, PairsAndLeavesFollowTheExactPosterior) {
  constexpr int draws = 20000;
  int tested = 0;
  for (std::uint64_t seed = 1; seed <= 12; ++seed) {
    const Network network = random_network(seed);
    auto made = Plan::make(network, std::size_t{1} << 30U);
    const Plan& plan = std::get<Plan>(made);
    const BruteForce truth = brute_force(network, network.values());
    if (truth.whole <= 0) continue;
    Pass<double> pass(plan);
    pass.collect(network.values());
    std::mt19937_64 random(seed);
    std::vector<double> pair(9, 0.0);
    std::vector<double> flat;
    for (const auto& row : truth.first_pair) flat.insert(flat.end(), row.begin(), row.end());
    std::vector<std::vector<double>> leaves;
    for (Leaf l = 0; l < network.leaves(); ++l) leaves.emplace_back(network.leaf(l).states, 0.0);
    for (int i = 0; i < draws; ++i) {
      const Draw draw = sample(plan, pass, network.values(), random);
      pair[draw.variables[0] * 3 + draw.variables[1]] += 1;
      for (Leaf l = 0; l < network.leaves(); ++l) leaves[l][draw.leaves[l]] += 1;
    }
    EXPECT_GT(p_value(pair, flat, draws), 1e-6) << "seed " << seed;
    for (std::size_t i = 0; i < 9; ++i) {
      if (flat[i] == 0) {
        EXPECT_EQ(pair[i], 0) << "an impossible pair was drawn";
      }
    }
    for (Leaf l = 0; l < network.leaves(); ++l) {
      double sum = 0;
      for (double p : truth.leaves[l]) sum += p;
      if (sum > 1 - 1e-9) {
        EXPECT_GT(p_value(leaves[l], truth.leaves[l], draws), 1e-6);
      }
    }
    ++tested;
  }
  EXPECT_GE(tested, 6);
}

TEST(Sampling, SameSeedSameDraws) {
  const Network network = random_network(2);
  auto made = Plan::make(network, std::size_t{1} << 30U);
  const Plan& plan = std::get<Plan>(made);
  if (plan.impossible()) GTEST_SKIP();
  Pass<double> pass(plan);
  pass.collect(network.values());
  std::mt19937_64 a(7);
  std::mt19937_64 b(7);
  for (int i = 0; i < 10; ++i) {
    EXPECT_EQ(sample(plan, pass, network.values(), a).variables,
              sample(plan, pass, network.values(), b).variables);
  }
}

}  // namespace
}  // namespace likelihet::test
