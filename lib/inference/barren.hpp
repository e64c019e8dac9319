// Variables that tell nothing: nothing is seen of them or of anything that hangs on them. They stay
// out of the tree, and their beliefs are made below it (lower.hpp).
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include <likelihet/inference/leaf_families.hpp>
#include <likelihet/inference/network.hpp>

namespace likelihet::inference {

/// Barren variables (Shachter 1986, Operations Research 34:871; Zhang and Poole 1996, Journal of
/// Artificial Intelligence Research 5:301): those whose factors are their own conditional ones and
/// fixed ones over them alone, whose children are barren and whose leaves are silent, found from
/// below. Summed out, one multiplies the whole by a number that is the same for every state of its
/// parents; that is checked on the numbers. About linear in factors.
struct Barren {
  /// Parents stand before their children.
  std::vector<Variable> order;
  /// By variable, and by factor: the factors of the former, each of which belongs to one of them.
  std::vector<bool> variable, factor;
  double log_sum = 0;  ///< ln of what all of them multiply the whole by, nats

  /// Reads the network's own numbers; the network is not kept.
  Barren(const Network& network, const LeafFamilies& leaves);

  /// As if there were none.
  static Barren none(const Network& network) { return Barren(network); }

  /// The factors that belong to order[position]: their product over the variable, for given
  /// parents, is in proportion to its distribution.
  [[nodiscard]] std::span<const std::uint32_t> factors_of(std::size_t position) const {
    return std::span(factors_).subspan(begin_[position], begin_[position + 1] - begin_[position]);
  }

 private:
  explicit Barren(const Network& network)
      : variable(network.variables(), false), factor(network.factors(), false) {}

  std::vector<std::uint32_t> factors_;
  std::vector<std::size_t> begin_{0};
};

}  // namespace likelihet::inference
