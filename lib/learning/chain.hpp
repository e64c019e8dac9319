// One Markov chain over tables and genotypes.
#pragma once

#include <cstdint>
#include <vector>

#include <likelihet/inference/random_bits.hpp>
#include <likelihet/inference/sampling.hpp>
#include <likelihet/learning/counts.hpp>
#include <likelihet/learning/level_sampler.hpp>
#include <likelihet/learning/levels_together.hpp>
#include <likelihet/learning/scored_cells.hpp>
#include <likelihet/learning/scorer_moves.hpp>
#include <likelihet/odds/layers.hpp>
#include <likelihet/odds/renewal.hpp>

namespace likelihet::learning {

/// Gibbs sampling in blocks: all genotypes of the colony together given the tables (backwards
/// through the junction tree, so that loops do not slow it), then the true levels behind readings
/// (as numbers of animals, where what was read and the row are alike), then every row, origin and
/// scorer given those (Dirichlet and Beta; Tanner and Wong 1987, JASA 82:528). Markers of a weight
/// below 1 take a Metropolis-Hastings step to the tempered likelihood, and so do the rows of
/// markers that come together, with their animals' strengths summed out, and scorers with the rows
/// that they read (ScorerMoves). One chain is one thread's: what it draws depends on its seed
/// alone.
class Chain {
 public:
  /// All must outlive it. Throws std::invalid_argument if the plan is impossible.
  Chain(const odds::Prepared& prepared, const colony::Model& model, odds::Tables start,
        std::uint64_t seed, std::uint64_t number);
  Chain(const Chain&) = delete;
  Chain& operator=(const Chain&) = delete;

  /// One sweep. False if the evidence contradicts itself at the current tables.
  bool step();
  [[nodiscard]] const odds::Tables& tables() const { return tables_; }
  /// The tables that the last sweep drew genotypes and levels at, and those genotypes.
  [[nodiscard]] const odds::Tables& tables_before() const { return before_; }
  [[nodiscard]] const inference::Draw& genotypes() const { return draw_; }
  /// ln P(evidence | tables of the step before) in nats.
  [[nodiscard]] double log_evidence() const { return log_evidence_; }
  /// What the last sweep counted, founders who did not live among them.
  [[nodiscard]] const Counts& counts() const { return counts_; }

 private:
  // So many animals of a term of one score, whose marker has a weight below 1.
  struct Tempered {
    std::uint32_t term = 0;
    std::size_t row = 0;
    std::size_t level = 0;
    double animals = 0;
  };

  bool draw_genotypes();
  void count_scores();
  void count_term(std::size_t place);
  void count_level(const odds::Term::Score& score, std::size_t row, std::size_t level,
                   double animals);
  void count_together(const odds::ColonyNetwork::Scored& scored);
  void count_founders();
  void draw_tables();
  [[nodiscard]] double log_excess(const odds::Tables& tables) const;

  const odds::Prepared* prepared_;
  const colony::Model* model_;
  odds::Tables believed_;
  Counts prior_;
  odds::Tables tables_;
  inference::RandomBits random_;
  std::vector<double> values_;
  odds::Renewal<double> renewal_;
  inference::Pass<double> pass_;
  inference::Sampler sampler_;
  inference::Draw draw_;
  Counts counts_;
  ScoredCells cells_;
  std::vector<std::uint32_t> animals_;  // of this sweep, by cell
  LevelSampler levels_;
  std::vector<std::size_t> drawn_;              // of one row, by level
  std::vector<std::uint32_t> scored_together_;  // places in ColonyNetwork::scored()
  LevelsTogether together_;
  ReadingCounts readings_;  // of this sweep
  ScorerMoves scorer_moves_;
  std::vector<Tempered> tempered_;  // of this sweep
  odds::Tables before_;
  double log_evidence_ = 0;
};

/// Founders who did not live, for `alive` who did: how many of each genotype, drawn. The number of
/// deaths before so many are alive is negative binomial (Devroye 1986, chapter X.4.7).
std::vector<double> drawn_unborn(const genetics::Locus& locus,
                                 const std::vector<double>& frequencies, genetics::Sex sex,
                                 double alive, inference::RandomBits& random);

}  // namespace likelihet::learning
