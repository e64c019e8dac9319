// Counting non-visual offspring.
#include "non_visual_offspring.hpp"

namespace likelihet::publishing {

std::size_t non_visual_offspring_needed(double probability, double factor, double goal) {
  std::size_t offspring = 0;
  double weight = probability;
  // Ends: weight falls by `factor` each time, and 1 - p stays.
  while (weight >= goal * (weight + 1 - probability)) {
    weight *= factor;
    ++offspring;
  }
  return offspring;
}

}  // namespace likelihet::publishing
