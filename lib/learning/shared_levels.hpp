// What stands behind readings of markers that come together: one strength of expression an animal,
// and a level for each marker.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include <likelihet/learning/counts.hpp>
#include <likelihet/odds/colony_network.hpp>

namespace likelihet::learning {

/// Readings of several markers of a group on an animal, at one set of tables: worked out once,
/// however many animals share them.
class SharedLevels {
 public:
  SharedLevels(const std::vector<odds::Term::Score>& scores, const odds::ColonyNetwork& net,
               const odds::Tables& tables, const odds::GivenStrength& given);

  /// P(strength q and the readings | joint genotype `cell`), one a point of net.strengths().
  [[nodiscard]] std::vector<double> strengths(std::size_t cell) const;
  /// P(level and the readings of score s | cell, strength q), one a level.
  [[nodiscard]] std::vector<double> levels(std::size_t s, std::size_t cell, std::size_t q) const;

  /// Adds the expected levels of animals whose joint genotypes have these chances in all.
  void count(std::span<const double> joint, Counts& counts) const;

 private:
  const std::vector<odds::Term::Score>* scores_;
  const odds::ColonyNetwork* net_;
  const odds::GivenStrength* given_;
  std::vector<std::vector<double>> readings_;  // by score and level
  std::vector<std::vector<double>> sums_;      // by score: row by row, the strength fastest
};

/// Adds a score's readings, right and wrong, given the chance of each level.
void count_readings(const odds::Term::Score& score, const std::vector<double>& level_chance,
                    Counts& counts);

}  // namespace likelihet::learning
