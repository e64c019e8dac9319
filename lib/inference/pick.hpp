// One of several positions, drawn in proportion to weights.
#pragma once

#include <cstdint>
#include <span>

#include <likelihet/inference/random_bits.hpp>

namespace likelihet::inference {

/// A position below `n` drawn in proportion to `weight(i)`, whose sum is above 0. Inversion by
/// sequential search (Devroye 1986, Non-Uniform Random Variate Generation, chapter III).
template <class Weight>
std::uint32_t pick(std::uint32_t n, Weight weight, RandomBits& random) {
  double whole = 0;
  for (std::uint32_t i = 0; i < n; ++i) whole += weight(i);
  double left = random.uniform() * whole;
  std::uint32_t last = 0;
  for (std::uint32_t i = 0; i < n; ++i) {
    const double w = weight(i);
    if (!(w > 0)) continue;
    last = i;
    left -= w;
    if (left < 0) break;
  }
  return last;
}

/// The same by a list of weights.
inline std::uint32_t pick(std::span<const double> weights, RandomBits& random) {
  return pick(
      static_cast<std::uint32_t>(weights.size()), [&](std::uint32_t i) { return weights[i]; },
      random);
}

}  // namespace likelihet::inference
