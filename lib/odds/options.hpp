// What an odds computation is asked for.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include <likelihet/colony/date.hpp>
#include <likelihet/odds/tables.hpp>

namespace likelihet::odds {

/// The defaults are those of the command line.
struct Options {
  /// What became known on that day counts too.
  std::optional<colony::Date> as_of;  ///< nothing: all that is recorded counts
  /// Of one set of doubles through the plan, beside which records and index lists are small. The
  /// draws behind intervals go eight at a time where eight times as much fits too, else one by one.
  std::size_t memory_bytes = std::size_t{2} << 30;  ///< the most that exact inference may take
  /// Time grows with it; about 25 of 1000 draws lie beyond each end of an interval.
  unsigned draws =
      1000;  ///< draws of the tables behind each interval; 0: intervals are [mean, mean]
  /// Of a 64-bit Mersenne twister (Nishimura 2000, ACM Transactions on Modeling and Computer
  /// Simulation 10:348). The same seed gives the same intervals with one standard library; gamma
  /// variates may differ between two.
  std::uint64_t seed = 1;  ///< of those draws
  bool surprises = true;   ///< whether to look for them
  /// Tables drawn from what a book taught, to average over in place of the beliefs; must outlive
  /// the computation. Nothing: the model's beliefs, each row at its expectation.
  const std::vector<Tables>* learned = nullptr;
};

}  // namespace likelihet::odds
