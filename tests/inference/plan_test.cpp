// Junction trees by buckets: running intersection, memory, and what needs no bucket at all.
#include <algorithm>
#include <cmath>
#include <set>
#include <vector>

#include "inference/brute_force.hpp"
#include <gtest/gtest.h>

#include <likelihet/inference/engine.hpp>

namespace likelihet::test::plan_test {
namespace {

using namespace inference;

constexpr std::size_t enough = std::size_t{1} << 30U;

Plan plan_of(const Network& network, std::size_t memory = enough) {
  auto made = Plan::make(network, memory);
  return std::get<Plan>(std::move(made));
}

std::set<Variable> clique_of(const Bucket& bucket) {
  std::set<Variable> clique(bucket.separator.begin(), bucket.separator.end());
  clique.insert(bucket.variable);
  return clique;
}

// A parent's clique holds the child's separator: the running intersection property (Koller and
// Friedman 2009, definition 10.5), and buckets come before their parents.
TEST(Buckets, FormAJunctionTree) {
  for (std::uint64_t seed = 1; seed <= 300; ++seed) {
    const Network network = random_network(seed);
    const Plan plan = plan_of(network);
    if (plan.impossible()) continue;
    for (std::size_t b = 0; b < plan.buckets().size(); ++b) {
      const Bucket& bucket = plan.buckets()[b];
      EXPECT_EQ(plan.bucket_of(bucket.variable), static_cast<std::uint32_t>(b));
      EXPECT_EQ(bucket.parent.has_value(), !bucket.separator.empty()) << "seed " << seed;
      if (!bucket.parent) continue;
      ASSERT_GT(*bucket.parent, b);
      const auto above = clique_of(plan.buckets()[*bucket.parent]);
      for (const Variable v : bucket.separator) {
        EXPECT_TRUE(above.contains(v)) << "seed " << seed << " bucket " << b;
      }
    }
  }
}

// Each factor with free variables goes into exactly one bucket, whose clique holds them all; the
// rest multiply the whole.
TEST(Buckets, TakeEachFactorOnce) {
  for (std::uint64_t seed = 1; seed <= 300; ++seed) {
    const Network network = random_network(seed);
    const Plan plan = plan_of(network);
    if (plan.impossible()) continue;
    std::size_t tables = 0;
    for (const Input& input : plan.inputs()) tables += input.kind == Input::Kind::table ? 1 : 0;
    EXPECT_EQ(tables + plan.constants().size(), network.factors()) << "seed " << seed;
    for (std::size_t f = 0; f < network.factors(); ++f) {
      std::vector<Variable> free;
      for (const Variable v : network.scope(f)) {
        if (plan.bucket_of(v)) free.push_back(v);
      }
      if (free.empty()) continue;
      const bool held =
          std::any_of(plan.buckets().begin(), plan.buckets().end(), [&](const auto& b) {
            const auto clique = clique_of(b);
            return std::all_of(free.begin(), free.end(),
                               [&](Variable v) { return clique.contains(v); });
          });
      EXPECT_TRUE(held) << "seed " << seed << " factor " << f;
    }
  }
}

TEST(Buckets, CountTheCellsOfTheStatesLeft) {
  for (std::uint64_t seed = 1; seed <= 100; ++seed) {
    const Network network = random_network(seed);
    const Plan plan = plan_of(network);
    if (plan.impossible()) continue;
    for (const Bucket& bucket : plan.buckets()) {
      EXPECT_EQ(bucket.states, plan.domain(bucket.variable).size());
      std::size_t cells = 1;
      for (const Variable v : bucket.separator) cells *= plan.domain(v).size();
      EXPECT_EQ(bucket.separator_cells, cells);
      EXPECT_LE(bucket.clique + cells * bucket.states, plan.arena_size());
      EXPECT_LE(bucket.message + cells, plan.arena_size());
      EXPECT_LE(cells * bucket.states, plan.largest_clique());
    }
  }
}

// What has one state left is settled: its factors are constants, it has no bucket.
TEST(Plans, GiveSettledVariablesNoBucket) {
  Network network;
  const Variable x = network.add_variable(3);
  const Variable y = network.add_variable(2);
  network.add_factor(std::vector<Variable>{x}, network.add_table(std::vector<double>{0, 0.25, 0}));
  network.add_factor(std::vector<Variable>{y}, network.add_table(std::vector<double>{0.5, 0.25}));
  network.add_factor(std::vector<Variable>{x, y},
                     network.add_table(std::vector<double>{1, 1, 0.5, 1, 1, 1}));
  const Plan plan = plan_of(network);
  EXPECT_FALSE(plan.bucket_of(x));
  EXPECT_TRUE(plan.bucket_of(y));
  EXPECT_EQ(plan.constants().size(), 1U);
  const Beliefs beliefs = infer(plan, network.values());
  EXPECT_EQ(beliefs.variable(x)[1], 1.0);
  EXPECT_NEAR(beliefs.variable(y)[0], 0.5, 1e-15);
  EXPECT_NEAR(beliefs.log_evidence, std::log(0.25 * (0.25 + 0.25)), 1e-15);
}

// A factor over nothing is a number.
TEST(Plans, MultiplyByAFactorOverNothing) {
  Network network;
  network.add_factor(std::vector<Variable>{}, network.add_table(std::vector<double>{0.125}));
  EXPECT_NEAR(infer(plan_of(network), network.values()).log_evidence, std::log(0.125), 1e-15);
}

TEST(Plans, TellWhichVariablesWouldNotFit) {
  Network network;
  for (int i = 0; i < 10; ++i) network.add_variable(4);
  const std::vector<double> ones(16, 1.0);
  const auto table = network.add_table(ones);
  for (Variable a = 0; a < 8; ++a) {
    for (Variable b = a + 1; b < 8; ++b) network.add_factor(std::vector<Variable>{a, b}, table);
  }
  network.add_factor(std::vector<Variable>{8, 9}, table);
  const auto made = Plan::make(network, 1000);
  const auto* big = std::get_if<TooBig>(&made);
  ASSERT_NE(big, nullptr);
  EXPECT_EQ(big->part, 8U) << "the other two have a part of their own";
  EXPECT_GT(big->bytes, 1000);
  for (const Variable v : big->clique) EXPECT_LT(v, 8U);
  EXPECT_TRUE(std::holds_alternative<Plan>(Plan::make(network, enough)));
}

TEST(Plans, OfAClashRefuseToRun) {
  Network network;
  const Variable x = network.add_variable(2);
  network.add_factor(std::vector<Variable>{x}, network.add_table(std::vector<double>{0, 0}));
  const Plan plan = plan_of(network);
  EXPECT_TRUE(plan.impossible());
  EXPECT_THROW(Runner<double>{plan}, std::invalid_argument);
  EXPECT_THROW(Runner<Extended>{plan}, std::invalid_argument);
}

// A run leaves nothing behind: numbers A, then B, then A again give A's beliefs bit for bit.
TEST(Runners, ForgetTheRunBefore) {
  for (std::uint64_t seed = 1; seed <= 100; ++seed) {
    const Network network = random_network(seed);
    const Plan plan = plan_of(network);
    if (plan.impossible()) continue;
    Runner<double> runner(plan);
    const std::vector<double>& values = network.values();
    std::vector<double> other = values;
    for (double& p : other) p *= 0.5;
    if (!runner.run(values)) continue;
    std::vector<std::vector<double>> before;
    for (Variable v = 0; v < network.variables(); ++v) {
      before.emplace_back(network.states(v));
      runner.pass().marginal(v, before.back());
    }
    runner.run(other);
    ASSERT_TRUE(runner.run(values));
    for (Variable v = 0; v < network.variables(); ++v) {
      std::vector<double> after(network.states(v));
      runner.pass().marginal(v, after);
      EXPECT_EQ(after, before[v]) << "seed " << seed;
    }
  }
}

// Doubles and numbers without underflow agree where both can run.
TEST(Runners, AgreeInExtendedNumbers) {
  int compared = 0;
  for (std::uint64_t seed = 1; seed <= 400; ++seed) {
    const Network network = random_network(seed);
    const Plan plan = plan_of(network);
    if (plan.impossible()) continue;
    std::vector<Extended> wide;
    for (const double p : network.values()) wide.emplace_back(p);
    Runner<double> quick(plan);
    if (!quick.run(network.values())) continue;
    Runner<Extended> slow(plan);
    slow.run(wide);
    ++compared;
    EXPECT_NEAR(log_of(quick.pass().total(), quick.pass().scale()),
                log_of(slow.pass().total(), slow.pass().scale()), 1e-11);
    for (Variable v = 0; v < network.variables(); ++v) {
      std::vector<double> one(network.states(v));
      std::vector<Extended> two(network.states(v));
      quick.pass().marginal(v, one);
      slow.pass().marginal(v, two);
      for (std::size_t s = 0; s < one.size(); ++s) {
        EXPECT_NEAR(one[s], std::ldexp(two[s].mantissa, static_cast<int>(two[s].exponent)), 1e-13);
      }
    }
  }
  EXPECT_GT(compared, 200);
}

}  // namespace
}  // namespace likelihet::test::plan_test
