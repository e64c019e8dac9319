// Joint beliefs of two variables: by hand, against their margins, far apart, and near nothing.
#include <cmath>
#include <vector>

#include "inference/brute_force.hpp"
#include <gtest/gtest.h>

#include <likelihet/inference/engine.hpp>
#include <likelihet/inference/pairwise.hpp>

namespace likelihet::test::pairwise_test {
namespace {

using namespace inference;

Plan plan_of(const Network& network) {
  auto made = Plan::make(network, std::size_t{1} << 30U);
  return std::get<Plan>(std::move(made));
}

// x and y tied by one table: 1 : 2 : 3 : 4 of ten.
TEST(PairBelief, IsTheJointTable) {
  Network network;
  network.add_variable(2);
  network.add_variable(2);
  network.add_factor(std::vector<Variable>{0, 1},
                     network.add_table(std::vector<double>{1, 2, 3, 4}));
  const auto joint = pair_belief(plan_of(network), network.values(), 0, 1);
  ASSERT_EQ(joint.size(), 4U);
  for (std::size_t i = 0; i < 4; ++i) {
    EXPECT_NEAR(joint[i], static_cast<double>(i + 1) / 10, 1e-15);
  }
  // The other way round it is transposed.
  const auto back = pair_belief(plan_of(network), network.values(), 1, 0);
  EXPECT_NEAR(back[1], joint[2], 1e-15);
  EXPECT_NEAR(back[2], joint[1], 1e-15);
}

TEST(PairBelief, OfStrangersIsTheProduct) {
  Network network;
  network.add_variable(2);
  network.add_variable(3);
  network.add_factor(std::vector<Variable>{0}, network.add_table(std::vector<double>{0.3, 0.7}));
  network.add_factor(std::vector<Variable>{1},
                     network.add_table(std::vector<double>{0.5, 0.2, 0.3}));
  const auto joint = pair_belief(plan_of(network), network.values(), 0, 1);
  const double p[2] = {0.3, 0.7};
  const double q[3] = {0.5, 0.2, 0.3};
  for (std::size_t i = 0; i < 6; ++i) EXPECT_NEAR(joint[i], p[i / 3] * q[i % 3], 1e-15);
}

// Two ends of a chain of copies that err with 0.1: P(same) = (1 + 0.8^n)/2.
TEST(PairBelief, OfTheEndsOfAChain) {
  Network network;
  constexpr Variable last = 25;
  for (Variable v = 0; v <= last; ++v) network.add_variable(2);
  const auto copy = network.add_table(std::vector<double>{0.9, 0.1, 0.1, 0.9});
  for (Variable v = 0; v < last; ++v) network.add_factor(std::vector<Variable>{v, v + 1}, copy);
  const auto joint = pair_belief(plan_of(network), network.values(), 0, last);
  const double same = (1 + std::pow(0.8, last)) / 2;
  EXPECT_NEAR(joint[0], same / 2, 1e-14);
  EXPECT_NEAR(joint[1], (1 - same) / 2, 1e-14);
  EXPECT_NEAR(joint[0] + joint[3], same, 1e-14);
}

// The sums along each side are the beliefs of each variable, for any pair.
TEST(PairBelief, SumsToTheBeliefsOfBoth) {
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    const Network network = random_network(seed);
    const Plan plan = plan_of(network);
    const Beliefs beliefs = infer(plan, network.values());
    if (!beliefs.possible) continue;
    const auto last = static_cast<Variable>(network.variables() - 1);
    const auto joint = pair_belief(plan, network.values(), last, 0);
    const std::size_t width = network.states(0);
    for (std::uint32_t i = 0; i < network.states(last); ++i) {
      double sum = 0;
      for (std::size_t j = 0; j < width; ++j) sum += joint[i * width + j];
      EXPECT_NEAR(sum, beliefs.variable(last)[i], 1e-12) << "seed " << seed;
    }
    for (std::size_t j = 0; j < width; ++j) {
      double sum = 0;
      for (std::uint32_t i = 0; i < network.states(last); ++i) sum += joint[i * width + j];
      EXPECT_NEAR(sum, beliefs.variable(0)[j], 1e-12) << "seed " << seed;
    }
  }
}

// A settled variable has no bucket to hold it in: its one state has all of the other's belief.
TEST(PairBelief, OfASettledVariable) {
  Network network;
  network.add_variable(2);
  network.add_variable(2);
  network.add_factor(std::vector<Variable>{0}, network.add_table(std::vector<double>{0, 1}));
  network.add_factor(std::vector<Variable>{0, 1},
                     network.add_table(std::vector<double>{1, 1, 0.2, 0.8}));
  const auto joint = pair_belief(plan_of(network), network.values(), 0, 1);
  EXPECT_EQ(joint[0], 0.0);
  EXPECT_EQ(joint[1], 0.0);
  EXPECT_NEAR(joint[2], 0.2, 1e-15);
  EXPECT_NEAR(joint[3], 0.8, 1e-15);
  const auto back = pair_belief(plan_of(network), network.values(), 1, 0);
  EXPECT_NEAR(back[1], 0.2, 1e-15);
}

TEST(PairBelief, OfAClashIsEmpty) {
  Network network;
  for (int i = 0; i < 3; ++i) network.add_variable(2);
  const auto unlike = network.add_table(std::vector<double>{0, 1, 1, 0});
  network.add_factor(std::vector<Variable>{0, 1}, unlike);
  network.add_factor(std::vector<Variable>{1, 2}, unlike);
  network.add_factor(std::vector<Variable>{0, 2}, unlike);
  EXPECT_TRUE(pair_belief(plan_of(network), network.values(), 0, 2).empty());
}

// State 1 has 1e-280 of the belief, and given it y is as uneven again: held there, doubles would
// lose y.
TEST(PairBelief, HoldsAStateOfHardlyAnyChance) {
  Network network;
  network.add_variable(2);
  network.add_variable(2);
  network.add_factor(std::vector<Variable>{0}, network.add_table(std::vector<double>{1, 1e-280}));
  network.add_factor(std::vector<Variable>{0, 1},
                     network.add_table(std::vector<double>{0.5, 0.5, 0.25e-30, 0.75e-30}));
  const auto joint = pair_belief(plan_of(network), network.values(), 0, 1);
  EXPECT_NEAR(joint[0], 0.5, 1e-15);
  // P(x = 1) = 1e-310, a number at the end of the doubles: held to a few digits.
  EXPECT_NEAR(joint[3] / joint[2], 3, 1e-10);
}

}  // namespace
}  // namespace likelihet::test::pairwise_test
