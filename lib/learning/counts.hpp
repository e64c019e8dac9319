// What is counted on the way from genotypes and levels to tables: prior belief and what was seen.
#pragma once

#include <cstddef>
#include <limits>
#include <vector>

#include <likelihet/colony/model.hpp>
#include <likelihet/inference/random_bits.hpp>
#include <likelihet/odds/strength.hpp>
#include <likelihet/odds/tables.hpp>

namespace likelihet::learning {

/// A scorer's readings, right and wrong.
struct Readings {
  double right = 0;
  double wrong = 0;
};

/// Counts in the shape of odds::Tables: animals by marker, table, row and level; alleles by origin
/// and locus; readings by scorer. Counts are weights, not whole numbers: animals of unknown
/// genotype count in part everywhere, and a marker of weight w counts w.
struct Counts {
  std::vector<std::vector<std::vector<std::vector<double>>>> rows;
  std::vector<std::vector<std::vector<double>>> origins;
  std::vector<Readings> scorers;
  /// Of markers that were read together with others of their group: level by level, the animal's
  /// strength of expression fastest (odds::StrengthPoints), by marker, table and row. Part of
  /// `rows`; empty for markers in no group, and in what is only drawn.
  std::vector<std::vector<std::vector<std::vector<double>>>> by_strength;

  /// Zeros in the shape of a model's tables.
  explicit Counts(const colony::Model& model);
  /// Zeros for by_strength, of the markers that are in a group.
  void make_room(const colony::Model& model, const odds::StrengthPoints& points);
};

/// How many readings' worth of belief stands behind a scorer's `sure`: the model document gives no
/// number. Common practice, no source: about one clutch of two markers.
inline constexpr double scorer_worth = 20;

/// Prior belief as counts: worth x expect for each row (Dirichlet), worth x frequency for each
/// origin, scorer_worth x sure and its contrary for each scorer (Beta). Zero where belief leaves
/// nothing open: an origin of worth 0, a scorer who is always right.
Counts prior_counts(const colony::Model& model);

/// Which tables learning may move: a scorer with 0 < sure < 1, an origin's locus of worth above 0
/// with two frequencies above 0, a row with two levels of expect above 0.
bool open(const std::vector<double>& belief);

/// The tables at which prior + seen has its mode, in the softmax coordinates of each row (MacKay
/// 1998, Machine Learning 33:77): entries in proportion to the counts. Such a mode lies within the
/// simplex, so that an empty cell never gives a factor of 0 or infinity; as worth goes to 0 it is
/// the maximum-likelihood estimate. `believed` gives what is not open.
odds::Tables mode_of(const Counts& prior, const Counts& seen, const odds::Tables& believed);

/// ln of the prior density at `tables` in the same coordinates, up to a constant: Σ α ln θ over
/// what is open, and -b²/(2 spread²) for each loading b. Nats.
double log_prior(const Counts& prior, const colony::Model& model, const odds::Tables& tables);

/// Whether learning may move the loadings of a group: two of its markers are of full weight.
bool open_group(const colony::Model& model, std::size_t group);

/// A draw from belief with scorers and loadings too: where climbs and chains start from, and what
/// simulated books are drawn from. A loading is half-normal of its group's spread, `widest_start`
/// at most where it is only a place to start from.
odds::Tables drawn_belief(const colony::Model& model, inference::RandomBits& random,
                          double widest = std::numeric_limits<double>::infinity());

}  // namespace likelihet::learning
