// How far scorers of the same animals agree, beyond what chance would do.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include <likelihet/audit/interval.hpp>

namespace likelihet::audit {

/// (observed - expected) / (1 - expected), for any of the indices below.
struct Kappa {
  std::optional<double> value;  ///< none where `undefined` says why
  /// For large samples; 0 where there is no value.
  double standard_error = 0;
  /// Level 0.95, value and normal width, cut to [-1, 1]. Where the standard error is 0 (all agree,
  /// or one animal) it would have no width: its ends are then what the index would be at the ends
  /// of Wilson's interval of the observed agreement. [-1, 1] where there is no value.
  Interval interval{-1, 1};
  double observed = 0;    ///< agreement, by weight
  double expected = 0;    ///< the same by chance, as the index has it
  std::string undefined;  ///< empty where there is a value; else a phrase for a sentence
  /// The category that all were put in by all, where there is just one: kappa then is 0/0, and the
  /// caller knows what the category is called.
  std::optional<std::size_t> only_category;
};

// Agreement weights of `categories` (square, row-major; 1 on the diagonal): 1 where both say the
// same and else 0; 1 - |i - j| / (k - 1); 1 - (i - j)^2 / (k - 1)^2. For categories in order, the
// last two.
std::vector<double> unweighted(std::size_t categories);
std::vector<double> linear_weights(std::size_t categories);
std::vector<double> quadratic_weights(std::size_t categories);

/// 1 - disagreement / largest disagreement: weights that were given the other way round (Cohen
/// 1968). Throws std::invalid_argument where none is above 0.
std::vector<double> from_disagreement(std::span<const double> disagreement);

// Two scorers. `table` is square and row-major: how many animals (whole or in part) the first put
// in the row's category and the second in the column's. `weights` in its shape, none for
// unweighted. Throws std::invalid_argument where a size is not categories^2, where a count is
// negative or not finite, or a weight outside [0, 1].

/// Cohen's kappa (1960, Educ Psychol Meas 20:37) and weighted kappa (1968, Psychol Bull 70:213):
/// chance from each scorer's own margins. Standard error of Fleiss, Cohen and Everitt (1969,
/// Psychol Bull 72:323), not of the null hypothesis. Undefined where nothing was
/// scored by both and where all is in one category. Low on skewed margins even where nearly all
/// agree (Feinstein and Cicchetti 1990, J Clin Epidemiol 43:543): show gwet() beside it.
Kappa cohen_kappa(std::span<const double> table, std::size_t categories,
                  std::span<const double> weights = {});

/// Gwet's AC1, and AC2 with weights (Gwet 2008, Br J Math Stat Psychol 61:29; 2014, Handbook of
/// Inter-Rater Reliability, 4th ed.): chance is T / (k (k - 1)) times the sum of
/// q (1 - q) over the mean margins q, T the sum of weights. Stays high where nearly all are in one
/// category, and is 1 where all are; undefined where nothing was scored by both, or of one
/// category. `categories` counts those that could be said, whether or not any was.
Kappa gwet(std::span<const double> table, std::size_t categories,
           std::span<const double> weights = {});

// Many scorers, who need not be the same for each animal. `counts` has a row an animal and a column
// a category: how many put it there. Animals scored by fewer than two say nothing and are left out.
// Throws std::invalid_argument for a size that isn't a multiple of `categories`, or a count that is
// negative or not finite.

/// Fleiss' kappa (1971, Psychol Bull 76:378), unweighted. Where animals have
/// different numbers of scorers each animal counts the same. Standard error of Gwet (2021, Educ
/// Psychol Meas 81:781), not of the null hypothesis; infinite with one animal.
Kappa fleiss_kappa(std::span<const double> counts, std::size_t categories);

/// For each category, against all others together (Fleiss 1971).
std::vector<Kappa> fleiss_kappa_by_category(std::span<const double> counts, std::size_t categories);

}  // namespace likelihet::audit
