// Enumeration, and random networks to enumerate.
#include "inference/brute_force.hpp"

#include <algorithm>
#include <array>
#include <random>

namespace likelihet::test {

using inference::Branch;
using inference::Leaf;
using inference::Network;
using inference::Variable;

namespace {

// Σ over branches of weight x P(x | parents) e(x), a guarded branch alone while its guard says so.
std::vector<double> leaf_weights(const Network& network, Leaf l, const std::vector<double>& values,
                                 const std::vector<std::uint32_t>& state) {
  const auto& parts = network.leaf(l);
  std::vector<double> out(parts.states, 0.0);
  for (const Branch& branch : network.branches(l)) {
    if (branch.guard && state[*branch.guard] != branch.guard_state) continue;
    const std::size_t cell =
        state[branch.first] * network.states(branch.second) + state[branch.second];
    for (std::uint32_t x = 0; x < parts.states; ++x) {
      out[x] += branch.weight *
                values[network.offset(parts.conditional) + cell * parts.states + x] *
                values[network.offset(parts.evidence) + x];
    }
  }
  return out;
}

bool some_branch(const Network& network, Leaf l, const std::vector<std::uint32_t>& state) {
  return std::any_of(network.branches(l).begin(), network.branches(l).end(),
                     [&](const Branch& b) { return !b.guard || state[*b.guard] == b.guard_state; });
}

}  // namespace

BruteForce brute_force(const Network& network, const std::vector<double>& values) {
  BruteForce out;
  for (Variable v = 0; v < network.variables(); ++v) {
    out.variables.emplace_back(network.states(v), 0.0);
  }
  for (Leaf l = 0; l < network.leaves(); ++l) out.leaves.emplace_back(network.leaf(l).states, 0.0);
  if (network.variables() > 1) {
    out.first_pair.assign(network.states(0), std::vector<double>(network.states(1), 0.0));
  }
  std::vector<std::uint32_t> state(network.variables(), 0);
  for (;;) {
    double product = 1;
    for (std::size_t f = 0; f < network.factors(); ++f) {
      std::size_t index = 0;
      for (Variable v : network.scope(f)) index = index * network.states(v) + state[v];
      product *= values[network.offset(network.factor_table(f)) + index];
    }
    std::vector<std::vector<double>> weights;
    for (Leaf l = 0; l < network.leaves(); ++l) {
      weights.push_back(leaf_weights(network, l, values, state));
      double sum = 0;
      for (double w : weights.back()) sum += w;
      product *= some_branch(network, l, state) ? sum : 1.0;
    }
    if (product > 0) {
      out.whole += product;
      for (Variable v = 0; v < network.variables(); ++v) out.variables[v][state[v]] += product;
      for (Leaf l = 0; l < network.leaves(); ++l) {
        double sum = 0;
        for (double w : weights[l]) sum += w;
        for (std::size_t x = 0; x < weights[l].size(); ++x) {
          if (sum > 0) out.leaves[l][x] += product * weights[l][x] / sum;
        }
      }
      if (network.variables() > 1) out.first_pair[state[0]][state[1]] += product;
    }
    std::size_t v = 0;
    while (v < state.size() && ++state[v] == network.states(static_cast<Variable>(v)))
      state[v++] = 0;
    if (v == state.size()) break;
  }
  const auto normalise = [&](std::vector<std::vector<double>>& tables) {
    for (auto& table : tables) {
      for (double& p : table) p = out.whole > 0 ? p / out.whole : 0.0;
    }
  };
  normalise(out.variables);
  normalise(out.leaves);
  normalise(out.first_pair);
  return out;
}

namespace {

class Maker {
 public:
  explicit Maker(std::uint64_t seed) : random_(seed) {}

  Network make() {
    const std::uint32_t variables = below(6) + 2;
    for (std::uint32_t v = 0; v < variables; ++v) {
      network_.add_variable(v < 2 ? 3 : below(3) + 1);
      network_.add_factor(std::vector<Variable>{v},
                          network_.add_table(numbers(network_.states(v), 0.15)));
    }
    const std::uint32_t factors = below(variables + 2);
    for (std::uint32_t f = 0; f < factors; ++f) add_factor();
    const std::uint32_t leaves = below(7);
    for (std::uint32_t l = 0; l < leaves; ++l) add_leaf();
    return network_;
  }

 private:
  std::uint32_t below(std::uint32_t n) { return static_cast<std::uint32_t>(random_() % n); }

  std::vector<double> numbers(std::size_t n, double zeros) {
    std::vector<double> out(n);
    for (double& p : out) {
      p = std::uniform_real_distribution<double>(0.01, 1.0)(random_);
      if (std::uniform_real_distribution<double>(0.0, 1.0)(random_) < zeros) p = 0;
    }
    return out;
  }

  void add_factor() {
    std::vector<Variable> scope;
    std::size_t cells = 1;
    const std::uint32_t width = below(3) + 1;
    while (scope.size() < std::min<std::size_t>(width, network_.variables())) {
      const Variable v = below(static_cast<std::uint32_t>(network_.variables()));
      if (std::find(scope.begin(), scope.end(), v) != scope.end()) continue;
      scope.push_back(v);
      cells *= network_.states(v);
    }
    network_.add_factor(scope, network_.add_table(numbers(cells, 0.1)));
  }

  // P(x | first, second), normalised; the same for every pair of one shape, so that leaves share
  // it.
  inference::Table conditional(std::uint32_t first, std::uint32_t second, std::uint32_t states) {
    const std::array<std::uint32_t, 3> key{first, second, states};
    for (const auto& [known, table] : conditionals_) {
      if (known == key) return table;
    }
    std::vector<double> table;
    for (std::uint32_t cell = 0; cell < first * second; ++cell) {
      auto row = numbers(states, 0.2);
      row[0] += 0.01;
      double sum = 0;
      for (double p : row) sum += p;
      for (double p : row) table.push_back(p / sum);
    }
    conditionals_.emplace_back(key, network_.add_table(table));
    return conditionals_.back().second;
  }

  void add_leaf() {
    const std::uint32_t states = below(3) + 1;
    const bool silent = below(3) == 0;
    const auto n = static_cast<std::uint32_t>(network_.variables());
    std::vector<Branch> branches{{0, 1, std::nullopt, 0, 1.0}};
    if (n > 2) branches.front() = {below(2), below(n - 2) + 2, std::nullopt, 0, 1.0};
    const Branch base = branches.front();
    if (n > 3 && below(2) == 0) {
      // Two branches to variables of equal states, guarded or weighted.
      Variable other = base.second;
      for (Variable v = 2; v < n; ++v) {
        if (v != base.second && network_.states(v) == network_.states(base.second)) other = v;
      }
      Variable guard = base.first == 0 ? 1 : 0;
      if (other != base.second && silent && below(2) == 0) {
        branches = {{base.first, base.second, std::nullopt, 0, 0.3},
                    {base.first, other, std::nullopt, 0, 0.7}};
      } else if (other != base.second) {
        branches = {{base.first, base.second, guard, 0, 1.0}, {base.first, other, guard, 2, 1.0}};
      }
    }
    const auto table =
        conditional(network_.states(base.first), network_.states(base.second), states);
    const auto evidence = silent ? std::vector<double>(states, 1.0) : numbers(states, 0.2);
    network_.add_leaf(states, table, network_.add_table(evidence), silent, branches);
  }

  std::mt19937_64 random_;
  Network network_;
  std::vector<std::pair<std::array<std::uint32_t, 3>, inference::Table>> conditionals_;
};

}  // namespace

Network random_network(std::uint64_t seed) {
  return Maker(seed).make();
}

}  // namespace likelihet::test
