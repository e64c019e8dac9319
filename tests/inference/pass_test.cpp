// Single passes: beliefs of factors, clamped runs, and samples out of numbers no double holds.
#include <cmath>
#include <vector>

#include "inference/brute_force.hpp"
#include <gtest/gtest.h>

#include <likelihet/inference/engine.hpp>
#include <likelihet/inference/random_bits.hpp>
#include <likelihet/inference/sampling.hpp>

namespace likelihet::test::pass_test {
namespace {

using namespace inference;

Plan plan_of(const Network& network) {
  auto made = Plan::make(network, std::size_t{1} << 30U);
  return std::get<Plan>(std::move(made));
}

std::vector<Extended> widened(const std::vector<double>& values) {
  std::vector<Extended> wide;
  for (const double p : values) wide.emplace_back(p);
  return wide;
}

// P(scope of a factor | all) by enumeration: the factor's table times what all else says, cell by
// cell; each cell's share is the whole sum with every other cell of the table at 0.
std::vector<double> belief_by_force(const Network& network, std::size_t factor) {
  const Table table = network.factor_table(factor);
  const std::size_t begin = network.offset(table);
  const std::size_t size = network.size(table);
  const double whole = brute_force(network, network.values()).whole;
  std::vector<double> out(size);
  for (std::size_t cell = 0; cell < size; ++cell) {
    std::vector<double> values = network.values();
    for (std::size_t other = 0; other < size; ++other) {
      if (other != cell) values[begin + other] = 0;
    }
    out[cell] = brute_force(network, values).whole / whole;
  }
  return out;
}

TEST(FactorBelief, EqualsEnumeration) {
  std::size_t compared = 0;
  for (std::uint64_t seed = 1; seed <= 150; ++seed) {
    const Network network = random_network(seed);
    const Plan plan = plan_of(network);
    if (plan.impossible()) continue;
    Runner<double> runner(plan);
    if (!runner.run(network.values())) continue;
    for (std::uint32_t f = 0; f < network.factors(); ++f) {
      std::vector<double> belief(network.size(network.factor_table(f)));
      runner.pass().factor_belief(f, belief);
      const auto expected = belief_by_force(network, f);
      for (std::size_t cell = 0; cell < belief.size(); ++cell) {
        ASSERT_NEAR(belief[cell], expected[cell], 1e-11) << "seed " << seed << " factor " << f;
      }
      ++compared;
    }
  }
  EXPECT_GT(compared, 300U);
}

// A factor over one variable believes what the variable does.
TEST(FactorBelief, OfOneVariableIsItsMarginal) {
  for (std::uint64_t seed = 1; seed <= 100; ++seed) {
    const Network network = random_network(seed);
    const Plan plan = plan_of(network);
    if (plan.impossible()) continue;
    Runner<double> runner(plan);
    if (!runner.run(network.values())) continue;
    for (std::uint32_t f = 0; f < network.factors(); ++f) {
      if (network.scope(f).size() != 1) continue;
      const Variable v = network.scope(f)[0];
      std::vector<double> belief(network.states(v));
      std::vector<double> marginal(network.states(v));
      runner.pass().factor_belief(f, belief);
      runner.pass().marginal(v, marginal);
      for (std::size_t s = 0; s < belief.size(); ++s) {
        EXPECT_NEAR(belief[s], marginal[s], 1e-12) << "seed " << seed;
      }
    }
  }
}

// Where all of its variables are settled the factor has one cell.
TEST(FactorBelief, OfSettledVariablesIsCertain) {
  Network network;
  network.add_variable(2);
  network.add_variable(3);
  network.add_factor(std::vector<Variable>{0}, network.add_table(std::vector<double>{0, 1}));
  network.add_factor(std::vector<Variable>{1}, network.add_table(std::vector<double>{0, 0, 1}));
  network.add_factor(std::vector<Variable>{0, 1},
                     network.add_table(std::vector<double>{1, 1, 1, 1, 1, 0.5}));
  const Plan plan = plan_of(network);
  EXPECT_FALSE(plan.factor(2));
  Runner<double> runner(plan);
  ASSERT_TRUE(runner.run(network.values()));
  std::vector<double> belief(6);
  runner.pass().factor_belief(2, belief);
  EXPECT_EQ(belief, (std::vector<double>{0, 0, 0, 0, 0, 1}));
}

// Held in each of its states, a variable's passes add up to the whole.
TEST(ClampedPass, AddsUpToTheWhole) {
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    const Network network = random_network(seed);
    const Plan plan = plan_of(network);
    if (plan.impossible()) continue;
    Pass<double> pass(plan);
    pass.collect(network.values());
    if (pass.in_doubt()) continue;
    const double whole = std::exp(log_of(pass.total(), pass.scale()));
    for (Variable v = 0; v < network.variables(); ++v) {
      const auto bucket = plan.bucket_of(v);
      if (!bucket) continue;
      double sum = 0;
      for (std::uint32_t s = 0; s < plan.domain(v).size(); ++s) {
        Pass<double> held(plan);
        held.collect(network.values(), Clamp{*bucket, s});
        if (held.total() > 0) sum += std::exp(log_of(held.total(), held.scale()));
      }
      EXPECT_NEAR(sum, whole, 1e-11 * whole) << "seed " << seed << " variable " << v;
    }
  }
}

// Doubles and extended numbers draw the same states from the same seed: the weights are alike but
// for their unit.
TEST(SamplingInExtended, DrawsWhatDoublesDraw) {
  std::size_t drawn = 0;
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    const Network network = random_network(seed);
    const Plan plan = plan_of(network);
    if (plan.impossible()) continue;
    Pass<double> quick(plan);
    quick.collect(network.values());
    if (quick.in_doubt()) continue;
    Pass<Extended> slow(plan);
    slow.collect(widened(network.values()));
    Sampler sampler(plan);
    RandomBits a(seed);
    RandomBits b(seed);
    Draw one;
    Draw two;
    for (int i = 0; i < 50; ++i) {
      sampler.draw(quick, network.values(), a, one);
      sampler.draw(slow, network.values(), b, two);
      EXPECT_EQ(one.variables, two.variables) << "seed " << seed;
      EXPECT_EQ(one.leaves, two.leaves) << "seed " << seed;
      ++drawn;
    }
  }
  EXPECT_GT(drawn, 1000U);
}

// Evidence of 1e-900 against 3e-900: nothing to a double, one in four to a draw.
TEST(SamplingInExtended, DrawsWhereDoublesHoldNothing) {
  Network network;
  const Variable x = network.add_variable(2);
  const auto tiny = network.add_table(std::vector<double>{1e-300, 1e-300});
  for (int i = 0; i < 3; ++i) network.add_factor(std::vector<Variable>{x}, tiny);
  network.add_factor(std::vector<Variable>{x}, network.add_table(std::vector<double>{1, 3}));
  const Plan plan = plan_of(network);
  Pass<Extended> pass(plan);
  pass.collect(widened(network.values()));
  Sampler sampler(plan);
  RandomBits random(7);
  Draw draw;
  constexpr int draws = 20'000;
  int ones = 0;
  for (int i = 0; i < draws; ++i) {
    sampler.draw(pass, network.values(), random, draw);
    ones += static_cast<int>(draw.variables[x]);
  }
  // Five standard errors of a share of 3/4.
  EXPECT_NEAR(static_cast<double>(ones) / draws, 0.75, 5 * std::sqrt(0.1875 / draws));
}

}  // namespace
}  // namespace likelihet::test::pass_test
