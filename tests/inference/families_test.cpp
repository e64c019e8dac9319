// What the leaves of one pair say together, however many they are.
#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include <likelihet/inference/pass.hpp>

namespace likelihet::test::families_test {
namespace {

using namespace inference;

// Parents of `states` states each and so many leaves of two kinds of evidence, all numbers of which
// are `size` times those of the first kind.
Network family(std::uint32_t states, std::size_t leaves, double size) {
  Network network;
  const Variable dam = network.add_variable(states);
  const Variable sire = network.add_variable(states);
  std::vector<double> conditional;
  for (std::uint32_t p = 0; p < states; ++p) {
    for (std::uint32_t q = 0; q < states; ++q) {
      const double chance = (1.0 + p + 2.0 * q) / (3.0 * states);
      conditional.insert(conditional.end(), {1 - chance, chance});
    }
  }
  const Table child = network.add_table(conditional);
  const Table seen = network.add_table(std::vector<double>{0.2 * size, 0.9 * size});
  const Table unseen = network.add_table(std::vector<double>{0.7 * size, 0.1 * size});
  for (std::size_t l = 0; l < leaves; ++l) {
    network.add_leaf(2, child, l % 3 == 0 ? unseen : seen, false,
                     std::vector<Branch>{{dam, sire, std::nullopt, 0, 1}});
  }
  return network;
}

// In doubles; eight lanes give the same.
double log_total(const Network& network) {
  auto made = Plan::make(network, std::size_t{1} << 30U);
  const Plan& plan = std::get<Plan>(made);
  Pass<double> pass(plan);
  pass.collect(network.values());
  EXPECT_FALSE(pass.in_doubt());
  std::vector<Lanes<8>> wide;
  for (double value : network.values()) wide.emplace_back(value);
  Pass<Lanes<8>> lanes(plan);
  lanes.collect(wide);
  EXPECT_FALSE(lanes.in_doubt());
  for (std::size_t k = 0; k < 8; ++k) {
    EXPECT_EQ(std::ldexp(lanes.total().lane[k],
                         static_cast<int>(lanes.scale().exponent[k] - pass.scale().exponent)),
              pass.total());
  }
  return log_of(pass.total(), pass.scale());
}

// Σ over pairs of Π over leaves, in logs.
double by_hand(const Network& network) {
  std::vector<double> logs;
  for (std::uint32_t p = 0; p < network.states(0); ++p) {
    for (std::uint32_t q = 0; q < network.states(1); ++q) {
      double sum = 0;
      for (Leaf l = 0; l < network.leaves(); ++l) {
        const double* row =
            network.table(network.leaf(l).conditional).data() + 2 * (p * network.states(1) + q);
        const auto evidence = network.table(network.leaf(l).evidence);
        sum += std::log(row[0] * evidence[0] + row[1] * evidence[1]);
      }
      logs.push_back(sum);
    }
  }
  const double largest = *std::max_element(logs.begin(), logs.end());
  double whole = 0;
  for (double one : logs) whole += std::exp(one - largest);
  return largest + std::log(whole);
}

// One leaf, the most that are multiplied at once and one more, and a hundred thousand, whose two
// kinds of evidence contradict each other: after all of the first kind the cells differ by more
// than doubles hold.
TEST(Families, OfAnySizeComeToTheSumOfProducts) {
  for (std::uint32_t states : {1U, 2U, 3U, 4U}) {
    for (std::size_t leaves : {1U, 2U, 7U, 32U, 33U, 100'000U}) {
      const Network network = family(states, leaves, 1);
      const double expected = by_hand(network);
      EXPECT_NEAR(log_total(network), expected, 1e-12 * std::max(1.0, std::abs(expected)))
          << states << " states, " << leaves << " leaves";
    }
  }
}

// Numbers whose product a double cannot hold, or that grow on the way.
TEST(Families, OfTinyAndHugeNumbersAreScaled) {
  for (double size : {1e-30, 1e-12, 1.9, 2.1, 1e12}) {
    const Network network = family(3, 30, size);
    const double expected = by_hand(network);
    EXPECT_NEAR(log_total(network), expected, 1e-12 * std::abs(expected)) << size;
  }
}

// What one pair rules out and another allows.
TEST(Families, KeepZeros) {
  Network network;
  const Variable dam = network.add_variable(2);
  const Variable sire = network.add_variable(2);
  const Table child = network.add_table(std::vector<double>{1, 0, 0.5, 0.5, 0.5, 0.5, 0.25, 0.75});
  const Table visual = network.add_table(std::vector<double>{0, 1});
  for (int l = 0; l < 4; ++l) {
    network.add_leaf(2, child, visual, false, std::vector<Branch>{{dam, sire, std::nullopt, 0, 1}});
  }
  EXPECT_NEAR(log_total(network), std::log(2 * std::pow(0.5, 4) + std::pow(0.75, 4)), 1e-12);
}

}  // namespace
}  // namespace likelihet::test::families_test
