// How often each level is read in each class of animals, where the class is known only in part.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include <likelihet/audit/interval.hpp>

namespace likelihet::audit {

/// Animals, the level read on each, and the chance of each to be in each class by everything but
/// markers. An animal of unknown class counts in all of them: leaving it out would be the error of
/// testing mostly the promising ones (Begg and Greenes 1983, Biometrics 39:207).
struct LevelData {
  std::size_t levels = 2;
  std::size_t classes = 2;
  std::vector<std::size_t> level;  ///< by animal
  std::vector<double> weight;      ///< by animal and class, the class fastest; sums to 1 an animal
  std::vector<double> count = {};  ///< by animal: how many are like it; empty: one each
};

/// Animals that are alike in level and weights as one, with their count, in ascending order: the
/// same fits, in the time that the different ones take.
LevelData collapsed(const LevelData& data);

/// ln Π_animals Σ_class weight P(level | class) at these rows, nats.
double log_likelihood(const LevelData& data, const std::vector<std::vector<double>>& rows);

/// Classes joined: row r of the fit is that of the classes that `row_of` sends there.
LevelData joined(const LevelData& data, std::span<const std::size_t> row_of);

/// Levels from `cut` on as level 1, those below as level 0.
LevelData at_cut(const LevelData& data, std::size_t cut);

/// P(level | class) of largest likelihood Π_animals Σ_class weight P(level | class), by EM
/// (Dempster, Laird and Rubin 1977). `added` animals are spread evenly over the cells of each class
/// first. A class without animals has even rows.
struct LevelFit {
  std::vector<std::vector<double>> rows;  ///< by class, then level
  double log_likelihood = 0;              ///< nats, without what was added
};
LevelFit fit_levels(const LevelData& data, double added = 0);

/// P(χ² with so many degrees of freedom > 2 (larger - smaller)): Wilks (1938). 1 where the larger
/// is no larger.
double likelihood_ratio_p(double larger, double smaller, double degrees);

/// Degrees of freedom between a fit of so many rows and one of fewer: counts levels that were read.
double degrees_between(const LevelData& data, std::size_t rows, std::size_t fewer);

/// Two classes and two levels: P(high level | class) for class 1 (hets) and class 0, with the
/// covariance of their logits, the inverse of the observed information. Where a cell of the fitted
/// table holds less than half an animal, half an animal is added to every cell: no ratio is then 0
/// or infinite.
struct CutFit {
  double high_in_carriers = 0.5;
  double high_in_others = 0.5;
  double variance_carriers = 0, variance_others = 0, covariance = 0;  ///< of logits

  [[nodiscard]] Estimate sensitivity() const;
  [[nodiscard]] Estimate specificity() const;
  /// Of a carrier to show the level, over that of another: intervals on the log scale.
  [[nodiscard]] Estimate positive_ratio() const;
  [[nodiscard]] Estimate negative_ratio() const;
  [[nodiscard]] Estimate odds_ratio() const;
  [[nodiscard]] double log_odds_ratio() const;
  [[nodiscard]] double log_odds_ratio_variance() const;
};
CutFit fit_cut(const LevelData& two_by_two);

}  // namespace likelihet::audit
