// Markers that repeat each other: whether two of them come together beyond what the genotype
// explains.
#pragma once

#include <cstddef>
#include <vector>

#include <likelihet/inference/random_bits.hpp>
#include <likelihet/learning/chain.hpp>
#include <likelihet/learning/level_sampler.hpp>

namespace likelihet::learning {

/// Multiplying the likelihoods of two markers takes them as independent given the genotype. Where
/// they are not, the product is overconfident.
struct Dependence {
  std::size_t first = 0;  ///< markers, by position in the model, first < second
  std::size_t second = 0;
  std::size_t animals = 0;  ///< read for both
  /// Average product of both levels, each standardised within its row, over animals and draws of
  /// genotypes, levels and tables: a correlation given the genotype. 0 where independent.
  double correlation = 0;
  /// Posterior predictive p-value, two-sided: the share of draws in which levels drawn anew from
  /// the rows, for the same animals and genotypes, have an average product at least as far from 0
  /// (Gelman, Meng and Stern 1996, Statistica Sinica 6:733), what was seen counted among them.
  /// Small: they do come together.
  double p = 1;
};

/// Gathers draws of a chain. Pairs of which fewer than `least_animals` animals were read for both
/// are left out.
class DependenceCheck {
 public:
  static constexpr std::size_t least_animals = 20;

  /// Both must outlive it.
  DependenceCheck(const odds::Prepared& prepared, const colony::Model& model);

  [[nodiscard]] bool empty() const { return pairs_.empty(); }
  /// After a step of the chain; levels are drawn once more, for each animal.
  void add(const Chain& chain, inference::RandomBits& random);
  /// In order of the markers.
  [[nodiscard]] std::vector<Dependence> result() const;

 private:
  struct Pair {
    std::size_t first = 0;
    std::size_t second = 0;
    std::vector<std::pair<std::size_t, std::size_t>> scores;  // of both, by animal
    double sum = 0;
    std::size_t as_far = 0;
  };

  const odds::Prepared* prepared_;
  LevelSampler levels_;
  std::vector<Pair> pairs_;
  std::size_t draws_ = 0;
};

}  // namespace likelihet::learning
