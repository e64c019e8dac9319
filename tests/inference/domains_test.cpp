// Genotype elimination: what falls, what must never fall, and clashes found before any run.
#include <random>
#include <vector>

#include "inference/brute_force.hpp"
#include <gtest/gtest.h>

#include <likelihet/inference/domains.hpp>

namespace likelihet::test::domains_test {
namespace {

using namespace inference;

using States = std::vector<std::uint32_t>;

Domains domains_of(const Network& network) {
  return propagate(network, LeafFamilies(network));
}

Table table_of(Network& network, const std::vector<double>& numbers) {
  return network.add_table(numbers);
}

void factor(Network& network, const std::vector<Variable>& scope,
            const std::vector<double>& numbers) {
  network.add_factor(scope, table_of(network, numbers));
}

// P(child | dam, sire) of one recessive: +/+, +/e, e/e.
std::vector<double> mendel() {
  std::vector<double> table;
  for (int dam = 0; dam < 3; ++dam) {
    for (int sire = 0; sire < 3; ++sire) {
      const double a = dam / 2.0;
      const double b = sire / 2.0;
      for (const double p : {(1 - a) * (1 - b), a * (1 - b) + b * (1 - a), a * b}) {
        table.push_back(p);
      }
    }
  }
  return table;
}

TEST(StatesLeft, AreAllWhereNothingIsExcluded) {
  Network network;
  const Variable x = network.add_variable(3);
  const Variable y = network.add_variable(2);
  factor(network, {x, y}, {0.1, 0.2, 0.3, 0.1, 0.2, 0.1});
  const Domains domains = domains_of(network);
  EXPECT_FALSE(domains.impossible);
  EXPECT_EQ(domains.of[x], (States{0, 1, 2}));
  EXPECT_EQ(domains.of[y], (States{0, 1}));
}

TEST(StatesLeft, FallAlongAChain) {
  Network network;
  for (int i = 0; i < 40; ++i) network.add_variable(3);
  const std::vector<double> same{1, 0, 0, 0, 1, 0, 0, 0, 1};
  for (Variable v = 0; v + 1 < 40; ++v) factor(network, {v, v + 1}, same);
  factor(network, {39}, {0, 1, 0});
  const Domains domains = domains_of(network);
  for (Variable v = 0; v < 40; ++v) EXPECT_EQ(domains.of[v], (States{1}));
}

// Lange and Goradia's (1987) rule on a trio: a visual child has an e from each parent, and a dam
// known to be +/+ has no such child.
TEST(StatesLeft, OfATrio) {
  Network network;
  const Variable dam = network.add_variable(3);
  const Variable sire = network.add_variable(3);
  const Variable child = network.add_variable(3);
  factor(network, {dam, sire, child}, mendel());
  factor(network, {child}, {0, 0, 1});
  EXPECT_EQ(domains_of(network).of[dam], (States{1, 2}));
  EXPECT_EQ(domains_of(network).of[sire], (States{1, 2}));
  factor(network, {dam}, {1, 0, 0});
  EXPECT_TRUE(domains_of(network).impossible);
}

// A leaf's evidence reaches a grandparent, and back to another grandchild's other parent.
TEST(StatesLeft, FallThroughLeaves) {
  Network network;
  const Variable dam = network.add_variable(3);
  const Variable sire = network.add_variable(3);
  const Variable mate = network.add_variable(3);
  factor(network, {dam}, {1, 0, 0});
  const auto passes = table_of(network, mendel());
  const auto visual = table_of(network, {0, 0, 1});
  const Variable child = network.add_variable(3);
  network.add_factor(std::vector<Variable>{dam, sire, child}, passes);
  const std::vector<Branch> pair{{child, mate, std::nullopt, 0, 1.0}};
  network.add_leaf(3, passes, visual, false, pair);
  const Domains domains = domains_of(network);
  EXPECT_EQ(domains.of[child], (States{1}));
  EXPECT_EQ(domains.of[sire], (States{1, 2}));
  EXPECT_EQ(domains.of[mate], (States{1, 2}));
}

// A guarded branch excludes its guard's state where no pair can be, and no pair while the guard may
// be elsewhere.
TEST(StatesLeft, OfAGuard) {
  Network network;
  const Variable dam = network.add_variable(3);
  const Variable a = network.add_variable(3);
  const Variable b = network.add_variable(3);
  const Variable who = network.add_variable(2);
  factor(network, {a}, {1, 0, 0});
  const auto passes = table_of(network, mendel());
  const auto visual = table_of(network, {0, 0, 1});
  const std::vector<Branch> either{{dam, a, who, 0, 1.0}, {dam, b, who, 1, 1.0}};
  network.add_leaf(3, passes, visual, false, either);
  const Domains domains = domains_of(network);
  EXPECT_EQ(domains.of[who], (States{1}));
  EXPECT_EQ(domains.of[b], (States{1, 2}));

  Network open;
  for (int i = 0; i < 3; ++i) open.add_variable(3);
  const Variable guard = open.add_variable(2);
  const auto same = table_of(open, mendel());
  const auto seen = table_of(open, {0, 0, 1});
  const std::vector<Branch> both{{0, 1, guard, 0, 1.0}, {0, 2, guard, 1, 1.0}};
  open.add_leaf(3, same, seen, false, both);
  EXPECT_EQ(domains_of(open).of[1], (States{0, 1, 2}));
  EXPECT_EQ(domains_of(open).of[guard], (States{0, 1}));
}

TEST(StatesLeft, OfNoVariableAreNone) {
  const Domains domains = domains_of(Network());
  EXPECT_TRUE(domains.of.empty());
  EXPECT_FALSE(domains.impossible);
}

// Never a state of positive probability: against enumeration on random networks; and in a network
// without loops nothing else is kept.
TEST(StatesLeft, HoldEveryStateThatCanBe) {
  int fell = 0;
  for (std::uint64_t seed = 1; seed <= 2000; ++seed) {
    const Network network = random_network(seed);
    const BruteForce truth = brute_force(network, network.values());
    const Domains domains = domains_of(network);
    if (domains.impossible) {
      EXPECT_EQ(truth.whole, 0.0) << "seed " << seed;
      continue;
    }
    for (Variable v = 0; v < network.variables(); ++v) {
      std::vector<bool> left(network.states(v), false);
      for (const std::uint32_t s : domains.of[v]) left[s] = true;
      for (std::uint32_t s = 0; s < network.states(v); ++s) {
        if (!left[s]) {
          ++fell;
          EXPECT_EQ(truth.variables[v][s], 0.0) << "seed " << seed << " variable " << v;
        }
      }
    }
  }
  EXPECT_GT(fell, 100) << "something is removed at all";
}

// Without a loop arc consistency is exact (Freuder 1982, Journal of the ACM 29:24; from memory): in
// random trees of pairs each state left has a positive probability.
TEST(StatesLeft, AreExactOnTrees) {
  std::mt19937_64 random(5);
  for (int turn = 0; turn < 300; ++turn) {
    Network network;
    network.add_variable(3);
    for (Variable v = 1; v < 6; ++v) {
      network.add_variable(3);
      std::vector<double> numbers(9);
      for (double& p : numbers) p = random() % 3 == 0 ? 1.0 : 0.0;
      factor(network, {static_cast<Variable>(random() % v), v}, numbers);
    }
    const BruteForce truth = brute_force(network, network.values());
    const Domains domains = domains_of(network);
    ASSERT_EQ(domains.impossible, truth.whole <= 0) << turn;
    if (domains.impossible) continue;
    for (Variable v = 0; v < 6; ++v) {
      States positive;
      for (std::uint32_t s = 0; s < 3; ++s) {
        if (truth.variables[v][s] > 0) positive.push_back(s);
      }
      EXPECT_EQ(domains.of[v], positive) << turn;
    }
  }
}

}  // namespace
}  // namespace likelihet::test::domains_test
