// One set of tables after another through a network's numbers.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include <likelihet/inference/numbers.hpp>
#include <likelihet/odds/colony_network.hpp>
#include <likelihet/odds/term_numbers.hpp>

namespace likelihet::odds {

/// Writes the numbers that depend on tables over those of a set of values(): each piece of evidence
/// is worked out once, however many animals share it, and once for all layers. Number is double, or
/// Lanes, a set of tables in each lane. One a thread; the network must outlive it, and stay where
/// it is.
template <class Number>
class Renewal {
 public:
  /// Numbers of layers after `last` are never worked out.
  Renewal(const ColonyNetwork& net, Layer last);
  /// Any tables with no fewer zeros than those the network was built with. `lane`: below the width
  /// of Number. A lane that took none holds ones.
  void take(const Tables& tables, std::size_t lane = 0);
  /// `values` must come from values() of that layer, which is not after `last`; every lane.
  void write(Layer layer, std::span<Number> values) const;
  /// All numbers that come from terms, those that no table is behind included.
  void write_all(Layer layer, std::span<Number> values) const;

 private:
  void write(const ColonyNetwork::Slot& slot, Layer layer, std::span<Number> values) const;

  const ColonyNetwork* net_;
  TermNumbers term_numbers_;
  std::vector<std::uint32_t> open_;  // terms that are not fixed, of no later layer
  std::vector<std::size_t> begin_;   // by term, in numbers_
  std::vector<Number> numbers_;
};

extern template class Renewal<double>;
extern template class Renewal<inference::Lanes<8>>;

}  // namespace likelihet::odds
