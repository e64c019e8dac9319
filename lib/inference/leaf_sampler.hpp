// Leaves drawn given the states of the variables that they hang on.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include <likelihet/inference/plan.hpp>
#include <likelihet/inference/random_bits.hpp>

namespace likelihet::inference {

/// Draws every leaf of a plan's network, each from P(leaf | first, second, evidence). Leaves of one
/// pattern share their distributions: where they are many, each pair's is added up once for a set
/// of numbers, and a leaf then costs one random number and a few comparisons (inversion by table:
/// Devroye 1986, Non-Uniform Random Variate Generation, chapter III). The plan must outlive it.
class LeafSampler {
 public:
  explicit LeafSampler(const Plan& plan);

  /// `values` has the layout of Network::values(), `states` one full state for each variable, all
  /// of it possible together. One random number for each leaf, in the leaves' order, and one before
  /// it where a leaf has several branches. `leaves` has room for one state each.
  void draw(std::span<const double> values, std::span<const std::uint32_t> states,
            RandomBits& random, std::span<std::uint32_t> leaves);

 private:
  // A leaf with one branch, of a shared pattern. Small, since there is one for each leaf.
  struct Place {
    Variable first = 0;
    Variable second = 0;
    std::uint32_t ends = 0;  ///< of its pattern's first pair
    std::uint16_t second_states = 0;
    std::uint16_t states = 0;  ///< 0 for a leaf that is drawn by itself
  };
  // Pattern `pattern`'s ends stand from `ends` on, states - 1 for each pair.
  struct Shared {
    std::uint32_t pattern = 0;
    std::uint32_t ends = 0;
  };
  void add_up(std::span<const double> values);

  const Plan* plan_;
  std::vector<Shared> shared_;
  std::vector<Place> places_;  ///< by leaf
  /// P(leaf <= x | pair, evidence) for each x but the last, in units of 2^-53, rounded up.
  std::vector<std::uint64_t> ends_;
};

}  // namespace likelihet::inference
