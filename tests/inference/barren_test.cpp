// Barren variables in networks made by hand: which are, which are not, and the extremes.
#include <cmath>
#include <limits>
#include <random>
#include <vector>

#include "inference/brute_force.hpp"
#include <gtest/gtest.h>

#include <likelihet/inference/engine.hpp>
#include <likelihet/inference/lower.hpp>
#include <likelihet/inference/sampling.hpp>

namespace likelihet::test::barren_test {
namespace {

using namespace inference;

// Copies of one of two alleles, passed with 1/2 each.
std::vector<double> mendel() {
  std::vector<double> table;
  for (int d = 0; d < 3; ++d) {
    for (int s = 0; s < 3; ++s) {
      const double a = d / 2.0;
      const double b = s / 2.0;
      table.insert(table.end(), {(1 - a) * (1 - b), a * (1 - b) + b * (1 - a), a * b});
    }
  }
  return table;
}

class Descent : public testing::Test {
 protected:
  Descent() : passes(network.add_table(mendel())) {}

  Variable founder(const std::vector<double>& prior) {
    const Variable v = network.add_variable(3);
    network.add_factor(std::vector<Variable>{v}, network.add_table(prior));
    return v;
  }
  Variable child(Variable dam, Variable sire, Role role = Role::conditional) {
    const Variable v = network.add_variable(3);
    network.add_factor(std::vector<Variable>{dam, sire, v}, passes, role);
    return v;
  }
  void see(Variable v) {
    network.add_factor(std::vector<Variable>{v},
                       network.add_table(std::vector<double>{0.2, 0.3, 0.9}));
  }
  std::vector<Variable> barren() const {
    auto order = Barren(network, LeafFamilies(network)).order;
    std::sort(order.begin(), order.end());
    return order;
  }
  Plan plan(std::size_t memory = std::size_t{1} << 30U) const {
    auto made = Plan::make(network, memory);
    return std::get<Plan>(std::move(made));
  }
  void expect_enumerated() const {
    const Beliefs found = infer(plan(), network.values());
    const BruteForce truth = brute_force(network, network.values());
    ASSERT_TRUE(found.possible);
    EXPECT_NEAR(found.log_evidence, std::log(truth.whole), 1e-12);
    for (Variable v = 0; v < network.variables(); ++v) {
      for (std::size_t s = 0; s < network.states(v); ++s) {
        EXPECT_NEAR(found.variable(v)[s], truth.variables[v][s], 1e-12) << v;
      }
    }
  }

  Network network;
  Table passes;
  const std::vector<double> rare{0.81, 0.18, 0.01}, common{0.2, 0.5, 0.3};
};

TEST_F(Descent, WithoutEvidenceIsBarrenFromTheBottom) {
  const Variable a = founder(rare);
  const Variable b = founder(common);
  const Variable c = child(a, b);
  const Variable d = child(a, c);
  EXPECT_EQ(barren(), (std::vector<Variable>{c, d}));
  // Parents stand before their children.
  EXPECT_EQ(Barren(network, LeafFamilies(network)).order, (std::vector<Variable>{c, d}));
  EXPECT_NEAR(Barren(network, LeafFamilies(network)).log_sum, 0, 1e-15);
  expect_enumerated();
}

TEST_F(Descent, OfWhichAnyIsSeenIsNotBarrenAboveIt) {
  const Variable a = founder(rare);
  const Variable b = founder(common);
  const Variable c = child(a, b);
  const Variable d = child(a, c);
  const Variable e = child(d, c);
  see(d);
  EXPECT_EQ(barren(), std::vector<Variable>{e});
  expect_enumerated();
}

// Barren mates of one another, of the tree, and of their own ancestor.
TEST_F(Descent, WithLoopsOfBarrenOnes) {
  const Variable a = founder(rare);
  const Variable b = founder(common);
  const Variable c = child(a, b);
  const Variable d = child(a, b);
  see(c);
  const Variable e = child(d, c);
  const Variable f = child(d, e);
  const Variable g = child(a, f);
  EXPECT_EQ(barren(), (std::vector<Variable>{d, e, f, g}));
  expect_enumerated();
}

// Half of the states of each combination of parents: the same for all, so it tells nothing.
TEST_F(Descent, MayHaveAFixedFactorThatTellsNothingOfParents) {
  const Variable a = founder(rare);
  const Variable b = founder(common);
  const Variable c = network.add_variable(2);
  network.add_factor(std::vector<Variable>{a, b, c},
                     network.add_table(std::vector<double>(18, 0.5)), Role::conditional);
  const auto half = network.add_table(std::vector<double>{1, 0});
  network.add_factor(std::vector<Variable>{c}, half, Role::fixed);
  EXPECT_EQ(barren(), std::vector<Variable>{c});
  EXPECT_NEAR(plan().silent_log(), std::log(0.5), 1e-15);
  expect_enumerated();
  // The same numbers where another set may change them.
  network.add_factor(std::vector<Variable>{c}, half);
  EXPECT_TRUE(barren().empty());
}

TEST_F(Descent, OfUnevenSumsOrOpenTablesIsNotBarren) {
  const Variable a = founder(rare);
  const Variable b = founder(common);
  child(a, b, Role::fixed);
  child(a, b, Role::open);
  const Variable c = child(a, b);
  const auto uneven = network.add_table(std::vector<double>{1, 1, 0});
  network.add_factor(std::vector<Variable>{c}, uneven, Role::fixed);
  EXPECT_TRUE(barren().empty());
  expect_enumerated();
}

// A first row that the fixed factor rules out must not hide that others are possible.
TEST_F(Descent, WhoseFirstRowSumsToNothingIsNotBarren) {
  const Variable a = founder(rare);
  const Variable b = founder(common);
  const Variable c = child(a, b);
  network.add_factor(std::vector<Variable>{c}, network.add_table(std::vector<double>{0, 1, 1}),
                     Role::fixed);
  EXPECT_TRUE(barren().empty());
  expect_enumerated();
}

TEST_F(Descent, UnderAGuardIsBarrenWhereOneTableActsInEachState) {
  const Variable a = founder(rare);
  const Variable b = founder(common);
  const Variable c = founder({0.1, 0.8, 0.1});
  const Variable who = network.add_variable(2);
  network.add_factor(std::vector<Variable>{who}, network.add_table(std::vector<double>{0.3, 0.7}));
  const Variable d = network.add_variable(3);
  std::vector<double> first = mendel();
  first.resize(54, 1.0);
  std::vector<double> second(27, 1.0);
  const auto table = mendel();
  second.insert(second.end(), table.begin(), table.end());
  network.add_factor(std::vector<Variable>{who, a, b, d}, network.add_table(first),
                     Role::conditional);
  network.add_factor(std::vector<Variable>{who, a, c, d}, network.add_table(second),
                     Role::conditional);
  const Variable e = child(d, a);
  see(a);
  EXPECT_EQ(barren(), (std::vector<Variable>{d, e}));
  expect_enumerated();
  // Two tables for one state: whatever they sum to, it is not looked at.
  network.add_factor(std::vector<Variable>{who, a, c, d}, network.add_table(first),
                     Role::conditional);
  EXPECT_EQ(barren(), std::vector<Variable>{e});
}

// Nothing seen at all: roots stay, each in a tree of its own.
TEST_F(Descent, ThatNobodySawIsAllBelow) {
  Variable a = founder(rare);
  Variable b = founder(common);
  for (int i = 0; i < 6; ++i) {
    const Variable c = child(a, b);
    a = b;
    b = c;
  }
  const Plan made = plan();
  EXPECT_EQ(made.buckets().size(), 2U);
  EXPECT_EQ(made.largest_clique(), 3U);
  expect_enumerated();
}

TEST_F(Descent, OfOneVariableAlone) {
  const Variable v = network.add_variable(3);
  network.add_factor(std::vector<Variable>{v}, network.add_table(rare), Role::conditional);
  const Plan made = plan();
  EXPECT_TRUE(made.buckets().empty());
  const Beliefs found = infer(made, network.values());
  ASSERT_TRUE(found.possible);
  EXPECT_NEAR(found.log_evidence, 0, 1e-15);
  for (std::size_t s = 0; s < 3; ++s) EXPECT_NEAR(found.variable(v)[s], rare[s], 1e-15);
}

TEST_F(Descent, OfWhichThePastIsImpossible) {
  const Variable a = founder(rare);
  const Variable b = founder(common);
  network.add_factor(std::vector<Variable>{a, b}, network.add_table(std::vector<double>(9, 0.0)));
  child(a, b);
  EXPECT_TRUE(plan().impossible());
  EXPECT_FALSE(infer(plan(), network.values()).possible);
}

// Contradicting numbers of which the zeros were not there when the plan was made.
TEST_F(Descent, ThatBecomesImpossible) {
  const Variable a = founder(rare);
  const Variable b = founder(common);
  see(a);
  child(a, b);
  const Plan made = plan();
  std::vector<double> values = network.values();
  std::fill_n(values.begin() + static_cast<std::ptrdiff_t>(network.offset(network.factor_table(0))),
              3, 0.0);
  EXPECT_FALSE(infer(made, values).possible);
  EXPECT_EQ(log_evidence(made, values), -std::numeric_limits<double>::infinity());
}

// Settled parents settle their child: it has no choice below either.
TEST_F(Descent, OfSettledParentsIsSettled) {
  const Variable a = founder({1, 0, 0});
  const Variable b = founder({0, 0, 1});
  const Variable c = child(a, b);
  const Variable d = child(c, b);
  const Beliefs found = infer(plan(), network.values());
  EXPECT_EQ(found.variable(c)[1], 1.0);
  EXPECT_NEAR(found.variable(d)[1], 0.5, 1e-15);
  EXPECT_NEAR(found.variable(d)[2], 0.5, 1e-15);
}

// Evidence that no double holds: the beliefs below come from the numbers without underflow.
TEST_F(Descent, BelowEvidenceSmallerThanDoubles) {
  const Variable a = founder(rare);
  const Variable b = founder(common);
  const auto tiny = network.add_table(std::vector<double>{1e-300, 2e-300, 3e-300});
  for (int i = 0; i < 4; ++i) network.add_factor(std::vector<Variable>{a}, tiny);
  const Variable c = child(a, b);
  const Beliefs found = infer(plan(), network.values());
  ASSERT_TRUE(found.possible);
  double whole = 0;
  double hets = 0;
  for (int g = 0; g < 3; ++g) {
    const double p = rare[static_cast<std::size_t>(g)] * std::pow(g + 1.0, 4);
    whole += p;
    hets += p * g / 2;
  }
  const double of_a = hets / whole;
  const double of_b = 0.5 * 0.5 + 0.3;
  EXPECT_NEAR(found.variable(c)[2], of_a * of_b, 1e-14);
}

// Before anything was run below the tree there is no belief to read.
TEST_F(Descent, IsRefusedToAPassOfTheTreeAlone) {
  const Variable a = founder(rare);
  const Variable b = founder(common);
  const Variable c = child(a, b);
  const Plan made = plan();
  Pass<double> pass(made);
  pass.collect(network.values());
  pass.distribute();
  std::vector<double> out(3);
  EXPECT_THROW(pass.marginal(c, out), std::logic_error);
  std::vector<double> joint(27);
  EXPECT_THROW(pass.factor_belief(2, joint), std::logic_error);
}

TEST_F(Descent, WithAConditionalTableOverNothingIsRefused) {
  const Table one = network.add_table(std::vector<double>{1});
  EXPECT_THROW(network.add_factor({}, one, Role::conditional), std::invalid_argument);
}

// Every dam with every sire: each of 400 barren children hangs on its own pair, and joining all
// pairs in one table would take 3^20 numbers.
TEST_F(Descent, OfAllPairsKeepsToPairs) {
  std::vector<Variable> dams;
  std::vector<Variable> sires;
  for (int i = 0; i < 20; ++i) {
    dams.push_back(founder(rare));
    sires.push_back(founder(common));
    see(dams.back());
  }
  std::vector<Variable> offspring;
  for (Variable dam : dams) {
    for (Variable sire : sires) offspring.push_back(child(dam, sire));
  }
  const Plan made = plan(std::size_t{1} << 24U);
  EXPECT_EQ(made.buckets().size(), 40U);
  EXPECT_LT(made.whole_size(), 40'000U);
  const Beliefs found = infer(made, network.values());
  const double of_dam = (0.18 * 0.3 / 2 + 0.01 * 0.9) / (0.81 * 0.2 + 0.18 * 0.3 + 0.01 * 0.9);
  for (Variable v : offspring) EXPECT_NEAR(found.variable(v)[2], of_dam * 0.55, 1e-14);
}

// Hundreds of generations back to a seen founder: exact, and one small table each.
TEST_F(Descent, OfManyGenerationsStaysSmall) {
  const Variable first = founder(common);
  see(first);
  Variable last = founder(rare);
  for (int i = 0; i < 500; ++i) last = child(first, last);
  const Plan made = plan();
  EXPECT_EQ(made.buckets().size(), 2U);
  EXPECT_LT(made.whole_size(), 500U * 80);
  const Beliefs found = infer(made, network.values());
  // In the long run a copy of either allele of the founder: half of it stays what the founder is.
  const auto of_first = found.variable(first);
  EXPECT_NEAR(found.variable(last)[0], of_first[0] + of_first[1] / 4, 1e-12);
}

}  // namespace
}  // namespace likelihet::test::barren_test
