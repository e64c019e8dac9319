// The true levels behind readings, drawn given genotypes and tables.
#pragma once

#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <vector>

#include <likelihet/inference/random_bits.hpp>
#include <likelihet/learning/shared_levels.hpp>
#include <likelihet/odds/colony_network.hpp>

namespace likelihet::learning {

/// The row that an animal's genotypes give and the level that was drawn from it, for one marker.
struct DrawnLevel {
  std::size_t row = 0;
  std::size_t level = 0;
};

/// Works out what stands behind a term's readings once for a set of tables, however many animals
/// share it. One a thread; all must outlive it.
class LevelSampler {
 public:
  LevelSampler(const odds::ColonyNetwork& net, const colony::Model& model)
      : net_(&net), model_(&model) {}
  LevelSampler(const LevelSampler&) = delete;
  LevelSampler& operator=(const LevelSampler&) = delete;
  /// These tables from now on; they must stay as they are until the next.
  void at(const odds::Tables& tables);
  /// P(level | row) r(level) of a term of one score, row by row, the level fastest.
  [[nodiscard]] const std::vector<double>& weights(std::uint32_t term);
  /// An animal's levels at a joint genotype, one for each score of its term: for several, the
  /// strength of expression first, then each level given it. Written over `out`.
  void draw(std::uint32_t term, std::size_t cell, inference::RandomBits& random,
            std::vector<DrawnLevel>& out);

 private:
  const odds::ColonyNetwork* net_;
  const colony::Model* model_;
  const odds::Tables* tables_ = nullptr;
  std::vector<std::vector<double>> weights_;      // by term
  std::optional<odds::GivenStrength> given_;      // once a term of several scores asked
  std::map<std::uint32_t, SharedLevels> shared_;  // by term of several scores
};

}  // namespace likelihet::learning
