// What the evidence says of the tables, given tables: expected counts.
#pragma once

#include <memory>
#include <variant>

#include <likelihet/inference/pass.hpp>
#include <likelihet/learning/counts.hpp>
#include <likelihet/learning/scored_cells.hpp>
#include <likelihet/odds/layers.hpp>
#include <likelihet/odds/renewal.hpp>

namespace likelihet::learning {

/// Expected counts and how well the tables explain the evidence.
struct Expectation {
  Counts counts;
  double log_evidence = 0;  ///< ln P(all evidence, tempered scores | tables), nats
};

/// The E-step of Dempster, Laird and Rubin (1977, JRSS B 39:1) for marker rows, scorers and
/// origins, with exact genotype beliefs: every scored animal counts in each row by its chance of
/// the row's genotypes, verified or not. A marker of weight w counts w: with L^w in the place of L
/// the M-step then still cannot lower the evidence, since w ln Σ is bounded below as ln Σ is.
/// Founders of a locus with viability stand for those who did not live too (section 4.2 there,
/// truncation). Nothing if the evidence contradicts itself at these tables.
class Expecting {
 public:
  /// Both must outlive it. Throws std::invalid_argument if the plan is impossible().
  Expecting(const odds::Prepared& prepared, const colony::Model& model);
  std::optional<Expectation> at(const odds::Tables& tables);
  /// What Counts::by_strength is counted at.
  [[nodiscard]] const odds::StrengthPoints& strengths() const { return prepared_->net.strengths(); }

 private:
  template <class Number>
  Expectation counted(const inference::Pass<Number>& pass, const odds::Tables& tables) const;

  const odds::Prepared* prepared_;
  const colony::Model* model_;
  std::vector<double> values_;
  odds::Renewal<double> renewal_;
  inference::Pass<double> pass_;
  ScoredCells cells_;
};

/// The alleles of a founder of this genotype, added to `counts` with this weight.
void count_alleles(const genetics::Locus& locus, std::size_t genotype, double weight,
                   std::vector<double>& counts);

/// P(the prior of the origin, not the seller's word, is behind the genotype), for a founder who was
/// with a seller's description; 1 for others.
double share_of_origin(const colony::Model& model, const odds::Term::Founder& founder,
                       const odds::Tables& tables, std::size_t genotype);

/// Founders who did not live, for one who did and is of the given sex (either, on an autosome):
/// P(genotype) x P(dead) / P(alive) for each genotype. Empty where viability plays no part.
std::vector<double> unborn(const genetics::Locus& locus, const std::vector<double>& frequencies,
                           genetics::Sex sex);

}  // namespace likelihet::learning
