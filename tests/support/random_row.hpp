// Random probabilities for properties.
#pragma once

#include <cstddef>
#include <vector>

#include <rapidcheck.h>

namespace likelihet::support {

/// So many probabilities that sum to 1, none of them 0.
inline std::vector<double> random_row(std::size_t size) {
  const auto parts = *rc::gen::container<std::vector<int>>(size, rc::gen::inRange(1, 1000));
  double total = 0;
  for (const int part : parts) total += part;
  std::vector<double> row;
  for (const int part : parts) row.push_back(part / total);
  return row;
}

}  // namespace likelihet::support
