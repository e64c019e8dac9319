// Markers that share an animal's strength of expression: some animals show everything clearly,
// others nothing, whatever their genotype. Multiplying such markers as if they were independent
// overstates what they say together.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include <likelihet/odds/tables.hpp>

namespace likelihet::odds {

/// Strengths t and weights w with Σ w f(t) close to ∫ f(t) φ(t) dt, φ the standard normal density:
/// Gauss and Hermite's rule by the eigenvalues of its Jacobi matrix (Golub and Welsch 1969,
/// Mathematics of Computation 23:221). Points of a weight below 1e-18 are left out; the weights are
/// then scaled to a sum of 1. Strengths ascend.
struct StrengthPoints {
  std::vector<double> strength;
  std::vector<double> weight;
};
StrengthPoints strength_points(std::size_t points = 64);

/// P(level | row, t) for each strength t, level by level: an ordinal probit with a normal random
/// effect (Qu, Tan and Kutner 1996, Biometrics 52:797, equation 2), in terms of the row itself:
/// with c_k = Σ_{j <= k} row_j, P(level <= k | t) = Φ(√(1 + b²) Φ⁻¹(c_k) - b t). Averaged over t it
/// gives `row` again, so rows mean the same whatever the loading b >= 0. A level of chance 0 stays
/// at 0. The result has row.size() x strength.size() numbers, the strength fastest.
std::vector<double> given_strength(const std::vector<double>& row, double loading,
                                   const std::vector<double>& strength);

/// d P(level <= k | t) / dc_k for each k but the last, as given_strength() lays it out.
std::vector<double> slope_in_cumulated(const std::vector<double>& row, double loading,
                                       const std::vector<double>& strength);

/// d P(level | row, t) / db, as given_strength() lays it out.
std::vector<double> slope_in_loading(const std::vector<double>& row, double loading,
                                     const std::vector<double>& strength);

/// given_strength() of every row of the markers that come together.
class GivenStrength {
 public:
  GivenStrength(const colony::Model& model, const Tables& tables, const StrengthPoints& points);
  /// Over the points; `table` as table_in_force() says. The marker must be in a group.
  [[nodiscard]] std::span<const double> at(std::size_t marker, std::size_t table, std::size_t row,
                                           std::size_t level) const {
    return std::span(of_row_[place(marker, table, row)]).subspan(level * points_, points_);
  }
  /// Another row, or another loading, in place of what was there; gives that back.
  std::vector<double> exchange(std::size_t marker, std::size_t table, std::size_t row,
                               std::vector<double> given) {
    std::swap(of_row_[place(marker, table, row)], given);
    return given;
  }

 private:
  [[nodiscard]] std::size_t place(std::size_t marker, std::size_t table, std::size_t row) const {
    return first_row_[first_table_[marker] + table] + row;
  }

  std::size_t points_;
  std::vector<std::size_t> first_table_;  // by marker, in first_row_
  std::vector<std::size_t> first_row_;    // by table, in of_row_
  std::vector<std::vector<double>> of_row_;
};

/// Which group a marker is in, and its place there; nothing for a marker in none, or whose weight
/// is below 1: that already discounts what it repeats.
struct Membership {
  std::size_t group = 0;
  std::size_t member = 0;
};
std::optional<Membership> membership(const colony::Model& model, std::size_t marker);

}  // namespace likelihet::odds
