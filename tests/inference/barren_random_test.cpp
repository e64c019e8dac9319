// Barren variables in random networks: every belief against enumeration.
#include <cmath>
#include <vector>

#include "inference/brute_force.hpp"
#include "inference/frequencies.hpp"
#include "inference/random_descent.hpp"
#include <gtest/gtest.h>

#include <likelihet/inference/engine.hpp>
#include <likelihet/inference/lower.hpp>
#include <likelihet/inference/pairwise.hpp>
#include <likelihet/inference/random_bits.hpp>
#include <likelihet/inference/sampling.hpp>

namespace likelihet::test::barren_random_test {
namespace {

using namespace inference;

Plan plan_of(const Network& network) {
  auto made = Plan::make(network, std::size_t{1} << 30U);
  return std::get<Plan>(std::move(made));
}

void expect_near(std::span<const double> found, std::span<const double> expected,
                 double tolerance) {
  ASSERT_EQ(found.size(), expected.size());
  for (std::size_t i = 0; i < found.size(); ++i) EXPECT_NEAR(found[i], expected[i], tolerance);
}

void expect_enumerated(const Network& network, const Plan& plan,
                       const std::vector<double>& values) {
  const BruteForce truth = brute_force(network, values);
  const Beliefs beliefs = infer(plan, values);
  ASSERT_EQ(beliefs.possible, truth.whole > 0);
  if (!beliefs.possible) return;
  EXPECT_NEAR(beliefs.log_evidence, std::log(truth.whole), 1e-12);
  EXPECT_NEAR(log_evidence(plan, values), std::log(truth.whole), 1e-12);
  for (Variable v = 0; v < network.variables(); ++v) {
    expect_near(beliefs.variable(v), truth.variables[v], 1e-12);
  }
  for (Leaf l = 0; l < network.leaves(); ++l) {
    expect_near(beliefs.run(plan.leaves().run_of[l]), truth.leaves[l], 1e-12);
  }
}

// Marginals, leaves and log evidence, also of other numbers through the same plan.
TEST(BarrenVariables, AreBelievedAsEnumerated) {
  std::size_t barren = 0;
  std::size_t below = 0;
  std::size_t tied = 0;
  for (std::uint64_t seed = 1; seed <= 1500 && !HasFailure(); ++seed) {
    SCOPED_TRACE(seed);
    const Network network = random_descent(seed);
    const Plan plan = plan_of(network);
    expect_enumerated(network, plan, network.values());
    barren += plan.barren().order.size();
    if (plan.lower() != nullptr) {
      below += plan.lower()->asked.size();
      for (const Lower::Tie& tie : plan.lower()->ties) tied += tie.cell.empty() ? 1 : 0;
    }
    std::vector<double> values = network.values();
    for (std::size_t f = 0; f < network.factors(); ++f) {
      if (network.role(f) != Role::open) continue;
      const std::size_t at = network.offset(network.factor_table(f));
      for (std::size_t i = 0; i < network.size(network.factor_table(f)); ++i) {
        values[at + i] *= 0.3 + 0.1 * static_cast<double>(i);
      }
    }
    expect_enumerated(network, plan, values);
  }
  // Every part of the way down was really taken.
  EXPECT_GT(barren, 1000U);
  EXPECT_GT(below, 500U);
  EXPECT_GT(tied, 200U);
}

TEST(BarrenVariables, StandInNoBucket) {
  for (std::uint64_t seed = 1; seed <= 300; ++seed) {
    const Network network = random_descent(seed);
    const Plan plan = plan_of(network);
    if (plan.impossible()) continue;
    for (Variable v : plan.barren().order) EXPECT_FALSE(plan.bucket_of(v));
    for (const Bucket& bucket : plan.buckets()) {
      EXPECT_FALSE(plan.barren().variable[bucket.variable]);
      for (Variable v : bucket.separator) EXPECT_FALSE(plan.barren().variable[v]);
    }
  }
}

// A factor's belief, cell by cell: the share of the whole with every other cell at 0.
TEST(BarrenVariables, HaveTheBeliefsOfTheirFactors) {
  std::size_t compared = 0;
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    const Network network = random_descent(seed);
    const Plan plan = plan_of(network);
    if (plan.impossible() || network.variables() > 6) continue;
    Runner<double> runner(plan);
    if (!runner.run(network.values())) continue;
    const double whole = brute_force(network, network.values()).whole;
    for (std::uint32_t f = 0; f < network.factors(); ++f) {
      const std::size_t size = network.size(network.factor_table(f));
      if (!plan.barren().factor[f] || size > 64) continue;
      std::vector<double> belief(size);
      runner.pass().factor_belief(f, belief);
      const std::size_t begin = network.offset(network.factor_table(f));
      for (std::size_t cell = 0; cell < size; ++cell) {
        std::vector<double> values = network.values();
        for (std::size_t other = 0; other < size; ++other) {
          if (other != cell) values[begin + other] = 0;
        }
        EXPECT_NEAR(belief[cell], brute_force(network, values).whole / whole, 1e-12) << seed;
      }
      ++compared;
    }
  }
  EXPECT_GT(compared, 20U);
}

TEST(BarrenVariables, AreTheSameSideBySideAndInExtendedNumbers) {
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    const Network network = random_descent(seed);
    const Plan plan = plan_of(network);
    if (plan.impossible()) continue;
    const std::size_t prior = network.offset(network.factor_table(0));
    std::vector<Lanes<8>> lanes;
    for (double value : network.values()) lanes.emplace_back(value);
    for (std::size_t k = 0; k < 8; ++k) lanes[prior].lane[k] *= 1.0 + static_cast<double>(k);
    Runner<Lanes<8>> runner(plan);
    if (!runner.run(lanes)) continue;
    for (std::size_t k = 0; k < 8; ++k) {
      std::vector<double> values = network.values();
      values[prior] *= 1.0 + static_cast<double>(k);
      const Beliefs one = infer(plan, values);
      const std::vector<Extended> wide(values.begin(), values.end());
      Runner<Extended> slow(plan);
      ASSERT_TRUE(slow.run(wide));
      for (Variable v = 0; v < network.variables(); ++v) {
        std::vector<Lanes<8>> marginal(network.states(v));
        std::vector<Extended> exact(network.states(v));
        runner.pass().marginal(v, marginal);
        slow.pass().marginal(v, exact);
        for (std::size_t s = 0; s < marginal.size(); ++s) {
          EXPECT_NEAR(marginal[s].lane[k], one.variable(v)[s], 1e-13) << seed;
          const double p = std::ldexp(exact[s].mantissa, static_cast<int>(exact[s].exponent));
          EXPECT_NEAR(p, one.variable(v)[s], 1e-13) << seed;
        }
      }
    }
  }
}

// A joint draw of all variables, as one cell of the whole table.
TEST(BarrenVariables, AreDrawnFromTheExactPosterior) {
  constexpr int draws = 20'000;
  std::size_t tested = 0;
  for (std::uint64_t seed = 1; seed <= 40; ++seed) {
    const Network network = random_descent(seed);
    const Plan plan = plan_of(network);
    if (plan.impossible() || plan.barren().order.empty()) continue;
    const BruteForce truth = brute_force(network, network.values());
    Pass<double> pass(plan);
    pass.collect(network.values());
    Sampler sampler(plan);
    Draw draw;
    RandomBits random(seed);
    std::vector<std::vector<double>> variables = truth.variables;
    std::vector<std::vector<double>> leaves = truth.leaves;
    for (auto& counts : variables) std::fill(counts.begin(), counts.end(), 0.0);
    for (auto& counts : leaves) std::fill(counts.begin(), counts.end(), 0.0);
    // The last variable descends from others, or is the guard of one that does.
    const auto last = static_cast<Variable>(network.variables() - 1);
    const auto joint = pair_belief(plan, network.values(), 0, last);
    std::vector<double> pairs(joint.size(), 0.0);
    for (int i = 0; i < draws; ++i) {
      sampler.draw(pass, network.values(), random, draw);
      for (Variable v = 0; v < network.variables(); ++v) variables[v][draw.variables[v]] += 1;
      for (Leaf l = 0; l < network.leaves(); ++l) leaves[l][draw.leaves[l]] += 1;
      pairs[draw.variables[0] * network.states(last) + draw.variables[last]] += 1;
    }
    for (Variable v = 0; v < network.variables(); ++v) {
      EXPECT_GT(p_value(variables[v], truth.variables[v], draws), 1e-6) << seed << ' ' << v;
    }
    for (Leaf l = 0; l < network.leaves(); ++l) {
      EXPECT_GT(p_value(leaves[l], truth.leaves[l], draws), 1e-6) << seed << ' ' << l;
    }
    EXPECT_GT(p_value(pairs, joint, draws), 1e-6) << seed;
    for (std::size_t i = 0; i < pairs.size(); ++i) {
      if (joint[i] == 0) {
        EXPECT_EQ(pairs[i], 0) << "an impossible pair was drawn";
      }
    }
    ++tested;
  }
  EXPECT_GT(tested, 15U);
}

TEST(BarrenVariables, HaveJointBeliefsWithAnyOther) {
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    const Network network = random_descent(seed);
    const Plan plan = plan_of(network);
    const BruteForce truth = brute_force(network, network.values());
    const auto last = static_cast<Variable>(network.variables() - 1);
    const auto joint = pair_belief(plan, network.values(), last, 0);
    ASSERT_EQ(joint.empty(), !(truth.whole > 0));
    if (joint.empty()) continue;
    // By enumeration with the first variable held in each state.
    const std::size_t states = network.states(0);
    for (std::size_t s = 0; s < states; ++s) {
      std::vector<double> values = network.values();
      const std::size_t prior = network.offset(network.factor_table(0));
      for (std::size_t t = 0; t < states; ++t) {
        if (t != s) values[prior + t] = 0;
      }
      const BruteForce held = brute_force(network, values);
      for (std::size_t t = 0; t < network.states(last); ++t) {
        EXPECT_NEAR(joint[t * states + s], held.variables[last][t] * held.whole / truth.whole,
                    1e-12)
            << seed;
      }
    }
  }
}

// A variable of the tree held in each of its states: the sums add up to the whole.
TEST(BarrenVariables, LeaveHeldRunsAsTheyWere) {
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    const Network network = random_descent(seed);
    const Plan plan = plan_of(network);
    if (plan.impossible()) continue;
    const double whole = brute_force(network, network.values()).whole;
    for (Variable v = 0; v < network.variables(); ++v) {
      const auto bucket = plan.bucket_of(v);
      if (!bucket) continue;
      double sum = 0;
      for (std::uint32_t s = 0; s < plan.domain(v).size(); ++s) {
        Pass<double> held(plan);
        held.collect(network.values(), Clamp{*bucket, s});
        if (!(held.total() > 0)) continue;
        sum += std::exp(log_of(held.total(), held.scale()) + plan.silent_log());
      }
      EXPECT_NEAR(sum, whole, 1e-11 * whole) << seed;
    }
  }
}

// Two networks may take more than one: where they do not fit, one is tried.
TEST(BarrenVariables, EnterTheTreeRatherThanNotFit) {
  std::size_t in_tree = 0;
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    const Network network = random_descent(seed);
    for (std::size_t memory = 400; memory < 40'000; memory += memory / 4) {
      const auto made = Plan::make(network, memory);
      const auto* plan = std::get_if<Plan>(&made);
      if (plan == nullptr || plan->impossible()) continue;
      if (Barren(network, plan->leaves()).order.empty() || !plan->barren().order.empty()) continue;
      ++in_tree;
      const Beliefs found = infer(*plan, network.values());
      const BruteForce truth = brute_force(network, network.values());
      for (Variable v = 0; v < network.variables(); ++v) {
        for (std::size_t s = 0; s < network.states(v); ++s) {
          EXPECT_NEAR(found.variable(v)[s], truth.variables[v][s], 1e-12) << seed;
        }
      }
    }
  }
  EXPECT_GT(in_tree, 10U);
}

}  // namespace
}  // namespace likelihet::test::barren_random_test
