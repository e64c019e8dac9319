// The engine against enumeration of every joint state, and its worst cases.
#include <cmath>
#include <limits>

#include "inference/brute_force.hpp"
#include <gtest/gtest.h>

#include <likelihet/inference/engine.hpp>
#include <likelihet/inference/pairwise.hpp>

namespace likelihet::test::engine_test {
namespace {

using namespace inference;

Plan plan_of(const Network& network) {
  auto made = Plan::make(network, std::size_t{1} << 30U);
  return std::get<Plan>(std::move(made));
}

void expect_same(const Network& network, const Plan& plan, const std::vector<double>& values,
                 std::uint64_t seed) {
  const BruteForce truth = brute_force(network, values);
  const Beliefs beliefs = infer(plan, values);
  ASSERT_EQ(beliefs.possible, truth.whole > 0) << "seed " << seed;
  if (!beliefs.possible) return;
  EXPECT_NEAR(beliefs.log_evidence, std::log(truth.whole), 1e-11) << "seed " << seed;
  for (Variable v = 0; v < network.variables(); ++v) {
    for (std::size_t s = 0; s < truth.variables[v].size(); ++s) {
      EXPECT_NEAR(beliefs.variable(v)[s], truth.variables[v][s], 1e-12)
          << "seed " << seed << " variable " << v;
    }
  }
  for (Leaf l = 0; l < network.leaves(); ++l) {
    // A guarded leaf whose guard may be in no branch's state has no posterior of its own.
    double sum = 0;
    for (double p : truth.leaves[l]) sum += p;
    if (sum < 1 - 1e-9) continue;
    const auto run = beliefs.run(plan.leaves().run_of[l]);
    for (std::size_t s = 0; s < truth.leaves[l].size(); ++s) {
      EXPECT_NEAR(run[s], truth.leaves[l][s], 1e-12) << "seed " << seed << " leaf " << l;
    }
  }
}

TEST(Engine, EqualsEnumerationOnRandomNetworks) {
  for (std::uint64_t seed = 1; seed <= 3000; ++seed) {
    const Network network = random_network(seed);
    expect_same(network, plan_of(network), network.values(), seed);
  }
}

TEST(Engine, OnePlanServesOtherNumbersWithTheSameZeros) {
  for (std::uint64_t seed = 1; seed <= 300; ++seed) {
    const Network network = random_network(seed);
    const Plan plan = plan_of(network);
    if (plan.impossible()) continue;
    // Only unary tables change: conditional tables must stay distributions for silent leaves.
    std::vector<double> values = network.values();
    for (std::size_t f = 0; f < network.factors(); ++f) {
      if (network.scope(f).size() != 1) continue;
      const std::size_t at = network.offset(network.factor_table(f));
      for (std::size_t i = 0; i < network.size(network.factor_table(f)); ++i) {
        values[at + i] *= 0.3 + 0.1 * static_cast<double>(i);
      }
    }
    expect_same(network, plan, values, seed);
  }
}

TEST(Engine, LanesEqualSingleRuns) {
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    const Network network = random_network(seed);
    const Plan plan = plan_of(network);
    if (plan.impossible()) continue;
    std::vector<Lanes<8>> lanes;
    for (double value : network.values()) {
      Lanes<8> lane;
      for (std::size_t k = 0; k < 8; ++k) lane.lane[k] = value;
      lanes.push_back(lane);
    }
    const std::size_t unary = network.offset(network.factor_table(0));
    for (std::size_t k = 0; k < 8; ++k) lanes[unary].lane[k] *= 1.0 + static_cast<double>(k);
    Runner<Lanes<8>> runner(plan);
    if (!runner.run(lanes)) continue;
    for (std::size_t k = 0; k < 8; ++k) {
      std::vector<double> values = network.values();
      values[unary] *= 1.0 + static_cast<double>(k);
      const Beliefs one = infer(plan, values);
      for (Variable v = 0; v < network.variables(); ++v) {
        std::vector<Lanes<8>> marginal(network.states(v));
        runner.pass().marginal(v, marginal);
        for (std::size_t s = 0; s < marginal.size(); ++s) {
          EXPECT_NEAR(marginal[s].lane[k], one.variable(v)[s], 1e-13) << "seed " << seed;
        }
      }
    }
  }
}

TEST(Engine, PairBeliefsEqualEnumeration) {
  for (std::uint64_t seed = 1; seed <= 300; ++seed) {
    const Network network = random_network(seed);
    const Plan plan = plan_of(network);
    const BruteForce truth = brute_force(network, network.values());
    const auto joint = pair_belief(plan, network.values(), 0, 1);
    ASSERT_EQ(joint.empty(), truth.whole <= 0);
    for (std::size_t i = 0; i < joint.size(); ++i) {
      EXPECT_NEAR(joint[i], truth.first_pair[i / 3][i % 3], 1e-12) << "seed " << seed;
    }
  }
}

TEST(Engine, PairOfOneVariableIsRefused) {
  const Network network = random_network(1);
  const Plan plan = plan_of(network);
  EXPECT_THROW(pair_belief(plan, network.values(), 1, 1), std::invalid_argument);
}

// A chain x0 -> x1 -> ... of two states that each copies the last with 0.9; the far end forgets.
TEST(Engine, LongChainDoesNotUnderflow) {
  Network network;
  const auto start = network.add_table(std::vector<double>{1e-200, 1e-200});
  const auto copy = network.add_table(std::vector<double>{9e-201, 1e-201, 1e-201, 9e-201});
  const auto seen = network.add_table(std::vector<double>{1.0, 0.5});
  Variable last = network.add_variable(2);
  network.add_factor(std::vector<Variable>{last}, start);
  for (int generation = 0; generation < 200; ++generation) {
    const Variable next = network.add_variable(2);
    network.add_factor(std::vector<Variable>{last, next}, copy);
    network.add_factor(std::vector<Variable>{next}, seen);
    last = next;
  }
  const Beliefs beliefs = infer(plan_of(network), network.values());
  ASSERT_TRUE(beliefs.possible);
  // By the 2 x 2 recursion in logs: each step multiplies by 1e-200 and the two-state filter.
  double log_whole = std::log(1e-200);
  double a = 1;
  double b = 1;
  for (int generation = 0; generation < 200; ++generation) {
    const double next_a = 0.9 * a + 0.1 * b;
    const double next_b = 0.5 * (0.1 * a + 0.9 * b);
    const double sum = next_a + next_b;
    a = next_a / sum;
    b = next_b / sum;
    log_whole += std::log(sum) + std::log(1e-200);
  }
  EXPECT_NEAR(beliefs.log_evidence, log_whole, 1e-9 * std::abs(log_whole));
  EXPECT_NEAR(beliefs.variable(last)[0], a, 1e-12);
}

// 100,000 leaves that make one cell of their parents 0.75^100000 as likely as another, and then one
// that rules the likely cell out: the unlikely one must come back whole.
TEST(Engine, ManyLeavesKeepWhatALaterFactorNeeds) {
  Network network;
  const auto half = network.add_table(std::vector<double>{0.5, 0.5});
  const Variable dam = network.add_variable(2);
  const Variable sire = network.add_variable(2);
  network.add_factor(std::vector<Variable>{dam}, half);
  network.add_factor(std::vector<Variable>{sire}, half);
  // Both in state 1: the leaf is in state 1 with 1/4, else never.
  const auto passes = network.add_table(std::vector<double>{1, 0, 1, 0, 1, 0, 0.75, 0.25});
  const auto plain = network.add_table(std::vector<double>{1.0, 0.0});
  const auto soft = network.add_table(std::vector<double>{1e-9, 1.0});
  const std::vector<Branch> pair{{dam, sire, std::nullopt, 0, 1.0}};
  constexpr int siblings = 100000;
  for (int i = 0; i < siblings; ++i) network.add_leaf(2, passes, plain, false, pair);
  // Soft evidence for state 1 on a second pair of tables: no state falls before the numbers do.
  for (int i = 0; i < 3; ++i) network.add_leaf(2, passes, soft, false, pair);
  const Plan plan = plan_of(network);
  const double unlikely = siblings * std::log(0.75) + 3 * std::log(0.25 + 0.75e-9);
  const double likely = std::log(3.0) + 3 * std::log(1e-9);
  const double larger = std::max(likely, unlikely);
  const double expected =
      std::log(0.25) + larger + std::log1p(std::exp(std::min(likely, unlikely) - larger));
  EXPECT_NEAR(infer(plan, network.values()).log_evidence, expected, 1e-8);

  // And with a certain leaf in state 1 everything rests on the unlikely cell.
  const auto visual = network.add_table(std::vector<double>{0.0, 1.0});
  network.add_leaf(2, passes, visual, false, pair);
  const Plan certain = plan_of(network);
  const Beliefs beliefs = infer(certain, network.values());
  ASSERT_TRUE(beliefs.possible);
  EXPECT_NEAR(beliefs.variable(dam)[1], 1.0, 1e-15);
  EXPECT_NEAR(beliefs.log_evidence, std::log(0.25) + unlikely + std::log(0.25), 1e-8);
}

// The same clash of small numbers where no zero can help: two long runs of leaves that disagree.
TEST(Engine, ExtendedNumbersSettleWhatDoublesLose) {
  Network network;
  const Variable x = network.add_variable(2);
  const Variable y = network.add_variable(2);
  const auto half = network.add_table(std::vector<double>{0.5, 0.5});
  network.add_factor(std::vector<Variable>{x}, half);
  network.add_factor(std::vector<Variable>{y}, half);
  const auto for_zero = network.add_table(std::vector<double>{1.0, 1e-200});
  const auto for_one = network.add_table(std::vector<double>{1e-200, 1.0});
  for (int i = 0; i < 2; ++i) network.add_factor(std::vector<Variable>{x}, for_zero);
  for (int i = 0; i < 2; ++i) network.add_factor(std::vector<Variable>{x}, for_one);
  const Beliefs beliefs = infer(plan_of(network), network.values());
  ASSERT_TRUE(beliefs.possible);
  EXPECT_NEAR(beliefs.variable(x)[0], 0.5, 1e-14);
  EXPECT_NEAR(beliefs.log_evidence, 400 * std::log(0.1), 1e-9);
}

TEST(Engine, ContradictionIsFoundNotComputed) {
  Network network;
  const Variable x = network.add_variable(2);
  network.add_factor(std::vector<Variable>{x}, network.add_table(std::vector<double>{1.0, 0.0}));
  network.add_factor(std::vector<Variable>{x}, network.add_table(std::vector<double>{0.0, 1.0}));
  const Plan plan = plan_of(network);
  EXPECT_TRUE(plan.impossible());
  EXPECT_FALSE(infer(plan, network.values()).possible);
  EXPECT_EQ(log_evidence(plan, network.values()), -std::numeric_limits<double>::infinity());
}

// Three variables each unlike the others in two states: no arc is empty, yet nothing can be.
TEST(Engine, ContradictionAroundALoopIsFound) {
  Network network;
  for (int i = 0; i < 3; ++i) network.add_variable(2);
  const auto unlike = network.add_table(std::vector<double>{0, 1, 1, 0});
  network.add_factor(std::vector<Variable>{0, 1}, unlike);
  network.add_factor(std::vector<Variable>{1, 2}, unlike);
  network.add_factor(std::vector<Variable>{0, 2}, unlike);
  const Plan plan = plan_of(network);
  EXPECT_FALSE(plan.impossible());
  EXPECT_FALSE(infer(plan, network.values()).possible);
}

TEST(Engine, NothingAtAllHasEvidenceZero) {
  const Network network;
  const Beliefs beliefs = infer(plan_of(network), network.values());
  EXPECT_TRUE(beliefs.possible);
  EXPECT_EQ(beliefs.log_evidence, 0.0);
}

// 24 variables all joined: 2^24 cells and more are refused before any table is made.
TEST(Engine, TooLargeIsSaidBeforehand) {
  Network network;
  const auto table = network.add_table(std::vector<double>{1, 0.5, 0.5, 1});
  for (int i = 0; i < 24; ++i) network.add_variable(2);
  for (Variable a = 0; a < 24; ++a) {
    for (Variable b = a + 1; b < 24; ++b) network.add_factor(std::vector<Variable>{a, b}, table);
  }
  const auto made = Plan::make(network, std::size_t{1} << 20U);
  const auto* big = std::get_if<TooBig>(&made);
  ASSERT_NE(big, nullptr);
  EXPECT_EQ(big->clique.size(), 24U);
  EXPECT_EQ(big->part, 24U);
  EXPECT_GT(big->bytes, static_cast<double>(1U << 20U));
}

// Silent leaves of every pair of many variables must not join them all in one clique.
TEST(Engine, SilentLeavesOfManyPairsAskOutsideTheTree) {
  Network network;
  constexpr Variable parents = 40;
  for (Variable v = 0; v < parents; ++v) {
    network.add_variable(3);
    network.add_factor(std::vector<Variable>{v},
                       network.add_table(std::vector<double>{0.2, 0.3, 0.5}));
  }
  std::vector<double> passes;
  for (int cell = 0; cell < 9; ++cell) {
    passes.push_back(0.1 * cell);
    passes.push_back(1 - 0.1 * cell);
  }
  const auto conditional = network.add_table(passes);
  const auto ones = network.add_table(std::vector<double>{1.0, 1.0});
  for (Variable a = 0; a < parents; ++a) {
    for (Variable b = a + 1; b < parents; ++b) {
      network.add_leaf(2, conditional, ones, true,
                       std::vector<Branch>{{a, b, std::nullopt, 0, 1.0}});
    }
  }
  const Plan plan = plan_of(network);
  EXPECT_LT(plan.arena_size(), 20000U);
  const Beliefs beliefs = infer(plan, network.values());
  double expected = 0;
  const double p[3] = {0.2, 0.3, 0.5};
  for (int cell = 0; cell < 9; ++cell) expected += p[cell / 3] * p[cell % 3] * 0.1 * cell;
  for (Leaf l = 0; l < network.leaves(); ++l) {
    EXPECT_NEAR(beliefs.run(plan.leaves().run_of[l])[0], expected, 1e-13);
  }
}

}  // namespace
}  // namespace likelihet::test::engine_test
