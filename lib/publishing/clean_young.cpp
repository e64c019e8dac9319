// Counting clear young.
#include "clean_young.hpp"

namespace likelihet::publishing {

std::size_t clean_young_needed(double probability, double factor, double goal) {
  std::size_t young = 0;
  double weight = probability;
  // Ends: weight falls by `factor` each time, and 1 - p stays.
  while (weight >= goal * (weight + 1 - probability)) {
    weight *= factor;
    ++young;
  }
  return young;
}

}  // namespace likelihet::publishing
