// What markers that come together say at once, beside what their product would.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include <likelihet/learning/learn.hpp>

namespace likelihet::learning {

/// A figure over the draws: its median and central 95 %.
struct Spread {
  double median = 1;
  double low = 1;
  double high = 1;
};

/// The factor that reading the highest level of every marker of a group, for sure, puts on the odds
/// of some genotypes, the first that every marker has a row for, against those without one. As one
/// for markers that share a strength of expression, and as a product, as if they were independent.
struct TogetherFactor {
  std::size_t group = 0;
  std::vector<std::size_t> markers;  ///< those of full weight
  std::vector<std::size_t> rows;     ///< of each, in its own table
  Spread together;
  Spread product;
};

/// Nothing where learning may not move the group, where the markers share no row, or without draws.
std::optional<TogetherFactor> together_factor(const colony::Model& model, std::size_t group,
                                              const std::vector<odds::Tables>& draws);

}  // namespace likelihet::learning
