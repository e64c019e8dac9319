// Draws that are the same with every standard library; internal to the layer.
#pragma once

#include <cstddef>
#include <random>

namespace likelihet::planning {

/// In [0, 1), of 53 bits.
inline double uniform(std::mt19937_64& random) {
  return static_cast<double>(random() >> 11U) * 0x1p-53;
}

/// One of 0 to n - 1; n above 0. What the remainder favours is below n / 2^64.
inline std::size_t below(std::mt19937_64& random, std::size_t n) {
  return static_cast<std::size_t>(random() % n);
}

}  // namespace likelihet::planning
