// The product of everything, summed over every joint state: slow, obvious, and the measure of the
// engine.
#pragma once

#include <cstdint>
#include <vector>

#include <likelihet/inference/network.hpp>

namespace likelihet::test {

struct BruteForce {
  double whole = 0;                             // Σ of the product over all joint states
  std::vector<std::vector<double>> variables;   // P(state)
  std::vector<std::vector<double>> leaves;      // P(state)
  std::vector<std::vector<double>> first_pair;  // P(variable 0, variable 1)
};

/// Sums over all states of all variables; leaves are summed given their parents.
BruteForce brute_force(const inference::Network& network, const std::vector<double>& values);

/// A small network out of a seed: up to seven variables of one to three states, factors with zeros,
/// leaves with evidence, silent leaves, guards and weights.
inference::Network random_network(std::uint64_t seed);

}  // namespace likelihet::test
