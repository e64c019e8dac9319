// Each piece of evidence in numbers, from the tables behind it.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include <likelihet/odds/strength.hpp>
#include <likelihet/odds/tables.hpp>
#include <likelihet/odds/term.hpp>

namespace likelihet::odds {

/// r(level) of a score, as reading_likelihood(), with the scorers' reliabilities of these tables;
/// written over `out`. Where there are many() readings a factor is taken out: gives its ln, nats,
/// else 0.
double read_score(const colony::Model& model, const Term::Score& score, const Tables& tables,
                  std::vector<double>& out);

/// Turns terms into numbers at one set of tables after another, in memory that it keeps. One a
/// thread. The model and the points must outlive it.
class TermNumbers {
 public:
  TermNumbers(const colony::Model& model, const StrengthPoints& strengths)
      : model_(&model), strengths_(&strengths) {}
  /// These tables from now on; they must stay as they are until the next.
  void at(const Tables& tables);
  /// One number a cell of the term (one alone for a factor taken out): its fixed ones, a founder's
  /// prior, Π over independent markers of row_likelihood(), or Σ_q w_q Π_markers Σ_level P(level |
  /// row, strength q) r(level) for markers that share the animal's strength of expression.
  /// Overwritten by the next call.
  [[nodiscard]] std::span<const double> of(const Term& term);
  /// ln of what read_score() takes out of all of them, to the power of their weights; nats.
  [[nodiscard]] double log_scale(const std::vector<Term::Score>& scores);

 private:
  [[nodiscard]] bool shared(const std::vector<Term::Score>& scores) const;
  void multiply_independent(const std::vector<Term::Score>& scores);
  void average_over_strengths(const std::vector<Term::Score>& scores);

  const colony::Model* model_;
  const StrengthPoints* strengths_;
  const Tables* tables_ = nullptr;
  std::optional<GivenStrength> given_;  // of these tables, once a term asked
  std::vector<double> numbers_;
  std::vector<double> reading_;
  std::vector<double> of_row_;
  std::vector<std::vector<double>> of_score_;  // row by row, the strength fastest
  std::vector<double> product_;
};

}  // namespace likelihet::odds
