// A scorer's reliability and the rows of the markers, moved as one.
#pragma once

#include <cstddef>
#include <vector>

#include <likelihet/inference/random_bits.hpp>
#include <likelihet/learning/counts.hpp>
#include <likelihet/odds/colony_network.hpp>

namespace likelihet::learning {

/// Readings by genotype rows, as a sweep drew them: `animals[term][row]` have the readings of a
/// term of one score and a genotype of that row. Terms of several scores are left empty.
using ReadingCounts = std::vector<std::vector<double>>;

/// Where each animal is read once, rows that are clearer and a scorer who is less sure look alike:
/// drawn in turn, each holds the other fast. This moves both: with R(sure) the chances of what is
/// read given what is there, the rows of the markers that the scorer read go to R(sure')⁻¹ R(sure)
/// row, which leaves single readings as they were, and Metropolis and Hastings's rule (Hastings
/// 1970, Biometrika 57:97; with the Jacobian of the map, Green 1995, Biometrika 82:711, section
/// 3.3) decides, levels summed out. Leaves the posterior given genotypes as it is. Scorers who read
/// markers that come together, and rows with an impossible level, stay.
class ScorerMoves {
 public:
  /// All must outlive it.
  ScorerMoves(const odds::ColonyNetwork& net, const colony::Model& model, const Counts& prior);

  void move(const ReadingCounts& animals, odds::Tables& tables,
            inference::RandomBits& random) const;

 private:
  struct Row {
    std::size_t marker = 0;
    std::size_t table = 0;
    std::size_t row = 0;
  };
  struct Scorer {
    std::size_t scorer = 0;
    std::vector<Row> rows;             // that may move
    std::vector<std::uint32_t> terms;  // that read those rows, or by this scorer
  };

  [[nodiscard]] bool moved(const Scorer& of, double sure, odds::Tables& tables) const;
  [[nodiscard]] double log_density(const Scorer& of, const ReadingCounts& animals,
                                   const odds::Tables& tables) const;

  const odds::ColonyNetwork* net_;
  const colony::Model* model_;
  const Counts* prior_;
  std::vector<Scorer> scorers_;
};

}  // namespace likelihet::learning
