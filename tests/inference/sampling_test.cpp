// Backward samples have the exact joint distribution.
#include <cmath>

#include "inference/brute_force.hpp"
#include "inference/frequencies.hpp"
#include <gtest/gtest.h>

#include <likelihet/inference/engine.hpp>
#include <likelihet/inference/random_bits.hpp>
#include <likelihet/inference/sampling.hpp>

namespace likelihet::test::sampling_test {
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
    Sampler sampler(plan);
    Draw draw;
    RandomBits random(seed);
    std::vector<double> pair(9, 0.0);
    std::vector<double> flat;
    for (const auto& row : truth.first_pair) flat.insert(flat.end(), row.begin(), row.end());
    std::vector<std::vector<double>> leaves;
    for (Leaf l = 0; l < network.leaves(); ++l) leaves.emplace_back(network.leaf(l).states, 0.0);
    for (int i = 0; i < draws; ++i) {
      sampler.draw(pass, network.values(), random, draw);
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
  Sampler one(plan);
  Sampler other(plan);
  Draw first;
  Draw second;
  RandomBits a(7);
  RandomBits b(7);
  for (int i = 0; i < 10; ++i) {
    one.draw(pass, network.values(), a, first);
    other.draw(pass, network.values(), b, second);
    EXPECT_EQ(first.variables, second.variables);
    EXPECT_EQ(first.leaves, second.leaves);
  }
}

// Parents of three states each and leaves that are alike in parents and numbers. `shared`: in their
// tables too, so that they are one pattern.
Network many_leaves(std::size_t leaves, bool shared) {
  Network network;
  const Variable dam = network.add_variable(3);
  const Variable sire = network.add_variable(3);
  network.add_factor(std::vector<Variable>{dam}, network.add_table(std::vector<double>{4, 4, 1}));
  network.add_factor(std::vector<Variable>{sire}, network.add_table(std::vector<double>{1, 2, 1}));
  std::vector<double> conditional;
  for (double p : {0.0, 0.5, 1.0}) {
    for (double q : {0.0, 0.5, 1.0}) {
      conditional.insert(conditional.end(), {(1 - p) * (1 - q), p * (1 - q) + q * (1 - p), p * q});
    }
  }
  const Table child = network.add_table(conditional);
  // Never in its last state, so that the last possible one is not the last.
  const std::vector<double> evidence{0.3, 0.7, 0.0};
  const Table common = network.add_table(evidence);
  for (std::size_t l = 0; l < leaves; ++l) {
    const Table own = shared ? common : network.add_table(evidence);
    network.add_leaf(3, child, own, false, std::vector<Branch>{{dam, sire, std::nullopt, 0, 1}});
  }
  return network;
}

// Leaves of a shared pattern are drawn from distributions that were added up ahead, others by
// themselves.
TEST(Sampling, SharedLeavesAreDrawnAsLoneOnesAre) {
  constexpr std::size_t leaves = 60;
  const Network together = many_leaves(leaves, true);
  const Network apart = many_leaves(leaves, false);
  auto plan_together = Plan::make(together, std::size_t{1} << 30U);
  auto plan_apart = Plan::make(apart, std::size_t{1} << 30U);
  Pass<double> pass_together(std::get<Plan>(plan_together));
  Pass<double> pass_apart(std::get<Plan>(plan_apart));
  pass_together.collect(together.values());
  pass_apart.collect(apart.values());
  Sampler one(std::get<Plan>(plan_together));
  Sampler other(std::get<Plan>(plan_apart));
  RandomBits a(3);
  RandomBits b(3);
  Draw first;
  Draw second;
  for (int i = 0; i < 500; ++i) {
    one.draw(pass_together, together.values(), a, first);
    other.draw(pass_apart, apart.values(), b, second);
    ASSERT_EQ(first.variables, second.variables) << "draw " << i;
    ASSERT_EQ(first.leaves, second.leaves) << "draw " << i;
    for (std::uint32_t state : first.leaves) ASSERT_LT(state, 2U) << "an impossible state";
  }
}

// New numbers through the same sampler: nothing of the last ones is left.
TEST(Sampling, SharedLeavesFollowTheNumbers) {
  const Network network = many_leaves(60, true);
  auto made = Plan::make(network, std::size_t{1} << 30U);
  const Plan& plan = std::get<Plan>(made);
  Pass<double> pass(plan);
  Sampler sampler(plan);
  Draw draw;
  RandomBits random(5);
  for (double second : {0.7, 0.0, 0.2}) {
    std::vector<double> values = network.values();
    values[network.offset(network.leaf(0).evidence) + 1] = second;
    pass.collect(values);
    double seen = 0;
    double expected = 0;
    constexpr int draws = 2000;
    for (int i = 0; i < draws; ++i) {
      sampler.draw(pass, values, random, draw);
      const auto odds = [&](std::uint32_t p, std::uint32_t q) {
        const double* row =
            values.data() + network.offset(network.leaf(0).conditional) + (p * 3 + q) * 3;
        return row[1] * second / (row[0] * 0.3 + row[1] * second);
      };
      expected += 60 * odds(draw.variables[0], draw.variables[1]);
      for (std::uint32_t state : draw.leaves) seen += state;
    }
    // Bernoulli given the parents: at most a quarter each; five standard errors.
    EXPECT_NEAR(seen, expected, 5 * std::sqrt(0.25 * 60 * draws) + 1e-9) << second;
  }
}

}  // namespace
}  // namespace likelihet::test::sampling_test
