// The loops of each kind of processor against the portable ones, and those against arithmetic.
#include <array>
#include <bit>
#include <cmath>
#include <random>
#include <stdexcept>

#include "inference/brute_force.hpp"
#include <gtest/gtest.h>

#include <likelihet/inference/engine.hpp>

namespace likelihet::test::loops_test {
namespace {

using namespace inference;

constexpr std::array all_instructions{Instructions::portable, Instructions::avx2,
                                      Instructions::avx512};

std::vector<Instructions> those_that_run() {
  std::vector<Instructions> out;
  for (Instructions instructions : all_instructions) {
    if (can_run(instructions)) out.push_back(instructions);
  }
  return out;
}

Plan plan_of(const Network& network) {
  auto made = Plan::make(network, std::size_t{1} << 30U);
  return std::get<Plan>(std::move(made));
}

// Eight sets of numbers: lane k has each entry of its own by a random factor, times size[k].
std::vector<Lanes<8>> eight_of(const Network& network, std::uint64_t seed,
                               const std::array<double, 8>& size) {
  std::mt19937_64 random(seed);
  std::uniform_real_distribution<double> factor(0.1, 1.0);
  std::vector<Lanes<8>> out;
  for (double value : network.values()) {
    Lanes<8> lanes;
    for (std::size_t k = 0; k < 8; ++k) lanes.lane[k] = value * factor(random) * size[k];
    out.push_back(lanes);
  }
  return out;
}

// All that a pass tells, with the bits of each number so that equal means equal.
struct Told {
  bool certain = false;
  std::array<std::int64_t, 8> exponent{};
  std::array<bool, 8> lost{};
  std::vector<std::uint64_t> bits;
  bool operator==(const Told&) const = default;
};

Told told(const Network& network, const Plan& plan, const std::vector<Lanes<8>>& values,
          const Loops<Lanes<8>>& loops) {
  Runner<Lanes<8>> runner(plan, loops);
  Told out;
  out.certain = runner.run(values);
  out.exponent = runner.pass().scale().exponent;
  out.lost = runner.pass().scale().lost;
  const auto keep = [&](const Lanes<8>& lanes) {
    for (double p : lanes.lane) out.bits.push_back(std::bit_cast<std::uint64_t>(p));
  };
  keep(runner.pass().total());
  if (!out.certain) return out;
  for (Variable v = 0; v < network.variables(); ++v) {
    std::vector<Lanes<8>> marginal(network.states(v));
    runner.pass().marginal(v, marginal);
    for (const auto& p : marginal) keep(p);
  }
  for (std::uint32_t r = 0; r < plan.leaves().runs.size(); ++r) {
    for (const auto& p : runner.pass().run_posterior(r)) keep(p);
  }
  return out;
}

// Couples of variables around a grid, each joined to its neighbours: as many loops as meshes, and
// cliques of up to 3^(side + 1) cells. Each couple has leaves.
Network grid(std::uint32_t side) {
  Network network;
  std::mt19937_64 random(side);
  std::uniform_real_distribution<double> number(0.01, 1.0);
  const auto numbers = [&](std::size_t n) {
    std::vector<double> out(n);
    for (double& p : out) p = number(random);
    return out;
  };
  for (std::uint32_t i = 0; i < side * side; ++i) network.add_variable(3);
  const Table passes = network.add_table(numbers(27));
  for (std::uint32_t i = 0; i < side * side; ++i) {
    for (Variable other : {i + 1, i + side}) {
      if (other >= side * side || (other == i + 1 && other % side == 0)) continue;
      network.add_factor(std::vector<Variable>{i, other}, network.add_table(numbers(9)));
      const std::vector<Branch> couple{{i, other, std::nullopt, 0, 1.0}};
      for (int leaf = 0; leaf < 5; ++leaf) {
        network.add_leaf(3, passes, network.add_table(numbers(3)), false, couple);
      }
    }
  }
  return network;
}

constexpr std::array<double, 8> ones{1, 1, 1, 1, 1, 1, 1, 1};
// Of products of a few some lanes underflow, some come near, some overflow, some do nothing.
constexpr std::array<double, 8> wild{1, 1e-300, 0x1p-64, 0x1p64, 1e-150, 1e100, 0x1p-590, 1e-20};
// Each lane is scaled at times of its own, and nothing is lost.
constexpr std::array<double, 8> small{1, 0x1p-64, 1e-15, 0x1p-63, 1e-10, 1e10, 1e-18, 1e-5};

TEST(Instructions, PortableOnesAlwaysRun) {
  EXPECT_TRUE(can_run(Instructions::portable));
}

TEST(Instructions, TheWidestAreTaken) {
  EXPECT_EQ(&loops<Lanes<8>>(), &lane_loops(those_that_run().back()));
}

TEST(Instructions, ThatCannotRunAreRefused) {
  for (Instructions instructions : all_instructions) {
    if (can_run(instructions)) {
      EXPECT_NO_THROW(static_cast<void>(lane_loops(instructions)));
    } else {
      EXPECT_THROW(static_cast<void>(lane_loops(instructions)), std::invalid_argument);
    }
  }
}

TEST(Instructions, AllTellTheSameToTheLastBit) {
  std::size_t certain = 0;
  std::size_t in_doubt = 0;
  for (std::uint64_t seed = 1; seed <= 300; ++seed) {
    const Network network = random_network(seed);
    const Plan plan = plan_of(network);
    if (plan.impossible()) continue;
    for (const auto& size : {ones, small, wild}) {
      const auto values = eight_of(network, seed, size);
      const Told expected = told(network, plan, values, lane_loops(Instructions::portable));
      ++(expected.certain ? certain : in_doubt);
      for (Instructions instructions : those_that_run()) {
        EXPECT_EQ(told(network, plan, values, lane_loops(instructions)), expected)
            << "seed " << seed << " instructions " << static_cast<int>(instructions);
      }
    }
  }
  EXPECT_GT(certain, 200U);
  EXPECT_GT(in_doubt, 50U);
}

TEST(Instructions, AllTellTheSameOfManyLoops) {
  const Network network = grid(6);
  const Plan plan = plan_of(network);
  ASSERT_GE(plan.largest_clique(), 729U);
  for (const auto& size : {ones, small, wild}) {
    const auto values = eight_of(network, 1, size);
    const Told expected = told(network, plan, values, lane_loops(Instructions::portable));
    EXPECT_EQ(expected.certain, size != wild);
    for (Instructions instructions : those_that_run()) {
      EXPECT_EQ(told(network, plan, values, lane_loops(instructions)), expected)
          << "instructions " << static_cast<int>(instructions);
    }
  }
}

// And the portable ones are what doubles tell, one set of numbers after the other.
TEST(Instructions, LanesTellWhatDoublesTell) {
  const Network network = grid(4);
  const Plan plan = plan_of(network);
  const auto values = eight_of(network, 2, small);
  Runner<Lanes<8>> together(plan, lane_loops(Instructions::portable));
  ASSERT_TRUE(together.run(values));
  for (std::size_t k = 0; k < 8; ++k) {
    std::vector<double> own;
    for (const auto& value : values) own.push_back(value.lane[k]);
    Runner<double> alone(plan);
    ASSERT_TRUE(alone.run(own));
    for (std::uint32_t r = 0; r < plan.leaves().runs.size(); ++r) {
      for (std::size_t x = 0; x < 3; ++x) {
        EXPECT_NEAR(together.pass().run_posterior(r)[x].lane[k], alone.pass().run_posterior(r)[x],
                    1e-14);
      }
    }
  }
}

// 2^-64 and 2^64 are outside, their neighbours inside, in whichever lane and cell they stand.
TEST(InRange, HoldsBetweenItsBounds) {
  const double inside[] = {std::nextafter(0x1p-64, 1.0), std::nextafter(0x1p64, 1.0), 1.0};
  const double outside[] = {0.0, 0x1p-1074, 0x1p-64, 0x1p64, HUGE_VAL};
  for (Instructions instructions : those_that_run()) {
    const auto& loops = lane_loops(instructions);
    for (std::size_t k = 0; k < 8; ++k) {
      for (std::size_t cell = 0; cell < 3; ++cell) {
        const auto holds = [&](double value) {
          std::array<Lanes<8>, 3> table{Lanes<8>(0.5), Lanes<8>(0.5), Lanes<8>(0.5)};
          for (auto& lanes : table) lanes.lane[k] = 0;
          table[cell].lane[k] = value;
          return loops.in_range(table.data(), table.size());
        };
        for (double value : inside) EXPECT_TRUE(holds(value)) << value;
        for (double value : outside) EXPECT_FALSE(holds(value)) << value;
      }
    }
  }
}

// One tree after the other gives what all trees up and then all down give.
TEST(Propagate, EqualsCollectAndDistribute) {
  std::size_t compared = 0;
  for (std::uint64_t seed = 1; seed <= 300; ++seed) {
    const Network network = random_network(seed);
    const Plan plan = plan_of(network);
    if (plan.impossible()) continue;
    Pass<double> two(plan);
    two.collect(network.values());
    Pass<double> one(plan);
    one.propagate(network.values());
    EXPECT_EQ(one.total(), two.total());
    EXPECT_EQ(one.scale().exponent, two.scale().exponent);
    ASSERT_EQ(one.in_doubt(), two.in_doubt());
    if (one.in_doubt()) continue;
    two.distribute();
    for (Variable v = 0; v < network.variables(); ++v) {
      std::vector<double> of_one(network.states(v));
      std::vector<double> of_two(network.states(v));
      one.marginal(v, of_one);
      two.marginal(v, of_two);
      EXPECT_EQ(of_one, of_two) << "seed " << seed << " variable " << v;
      ++compared;
    }
  }
  EXPECT_GT(compared, 300U);
}

}  // namespace
}  // namespace likelihet::test::loops_test
