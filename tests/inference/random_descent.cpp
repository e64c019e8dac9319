// Throwing dice for parents, tables and evidence.
#include "inference/random_descent.hpp"

#include <algorithm>
#include <map>
#include <random>
#include <vector>

namespace likelihet::test {

using inference::Branch;
using inference::Network;
using inference::Role;
using inference::Table;
using inference::Variable;

namespace {

class Descent {
 public:
  explicit Descent(std::uint64_t seed) : random_(seed), states_(chance(0.5) ? 2 : 4) {}

  Network make() {
    const std::uint32_t roots = 2 + below(3);
    for (std::uint32_t r = 0; r < roots; ++r) add_root();
    const std::uint32_t children = 1 + below(states_ == 2 ? 5 : 3);
    for (std::uint32_t c = 0; c < children; ++c) add_child();
    for (Variable v : all_) {
      if (chance(0.2)) network_.add_factor(std::vector<Variable>{v}, add(numbers(states_, 0.1)));
    }
    const std::uint32_t leaves = below(6);
    for (std::uint32_t l = 0; l < leaves; ++l) add_leaf();
    return network_;
  }

 private:
  std::uint32_t below(std::uint32_t n) { return static_cast<std::uint32_t>(random_() % n); }
  bool chance(double p) { return std::uniform_real_distribution<double>(0, 1)(random_) < p; }

  Table add(const std::vector<double>& values) { return network_.add_table(values); }

  std::vector<double> numbers(std::size_t n, double zeros) {
    std::vector<double> out(n);
    for (double& p : out) {
      p = chance(zeros) ? 0 : std::uniform_real_distribution<double>(0.01, 1.0)(random_);
    }
    out[below(static_cast<std::uint32_t>(n))] = 0.5;
    return out;
  }

  // P(child | both parents); each half of the child's states has 1/2.
  std::vector<double> conditional() {
    std::vector<double> out;
    for (std::uint32_t half = 0; half < 2 * states_ * states_; ++half) {
      const auto row = numbers(states_ / 2, 0.3);
      double sum = 0;
      for (double p : row) sum += p;
      for (double p : row) out.push_back(p / (2 * sum));
    }
    return out;
  }

  void add_root() {
    all_.push_back(network_.add_variable(states_));
    network_.add_factor(std::vector<Variable>{all_.back()}, add(numbers(states_, 0.15)));
  }

  std::vector<Variable> mates() {
    std::vector<Variable> out = all_;
    std::shuffle(out.begin(), out.end(), random_);
    return out;
  }

  void add_child() {
    const auto parents = mates();
    const auto table = conditional();
    const Variable v = network_.add_variable(states_);
    if (parents.size() > 2 && guards_ == 0 && chance(0.4)) {
      ++guards_;
      const Variable who = network_.add_variable(2);
      network_.add_factor(std::vector<Variable>{who}, add({0.3, 0.7}));
      std::vector<double> ones(table.size(), 1.0);
      std::vector<double> first = table;
      first.insert(first.end(), ones.begin(), ones.end());
      ones.insert(ones.end(), table.begin(), table.end());
      network_.add_factor(std::vector<Variable>{who, parents[0], parents[1], v}, add(first),
                          Role::conditional);
      network_.add_factor(std::vector<Variable>{who, parents[0], parents[2], v}, add(ones),
                          Role::conditional);
    } else {
      network_.add_factor(std::vector<Variable>{parents[0], parents[1], v}, add(table),
                          Role::conditional);
    }
    if (chance(0.3)) {
      std::vector<double> mask(states_, 0.0);
      std::fill_n(mask.begin() + (chance(0.5) ? states_ / 2 : 0), states_ / 2, 1.0);
      network_.add_factor(std::vector<Variable>{v}, add(mask), Role::fixed);
    }
    all_.push_back(v);
  }

  void add_leaf() {
    const auto parents = mates();
    const bool silent = chance(0.7);
    std::vector<Branch> branches{{parents[0], parents[1], std::nullopt, 0, 1.0}};
    if (silent && parents.size() > 2 && chance(0.3)) {
      branches.front().weight = 0.4;
      branches.push_back({parents[0], parents[2], std::nullopt, 0, 0.6});
    }
    network_.add_leaf(states_, add(conditional()),
                      add(silent ? std::vector<double>(states_, 1.0) : numbers(states_, 0.2)),
                      silent, branches);
  }

  std::mt19937_64 random_;
  std::uint32_t states_;
  Network network_;
  std::vector<Variable> all_;  // but for guards
  std::uint32_t guards_ = 0;
};

}  // namespace

Network random_descent(std::uint64_t seed) {
  return Descent(seed).make();
}

}  // namespace likelihet::test
