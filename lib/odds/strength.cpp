// The quadrature, and rows given a strength.
#include <algorithm>
#include <cmath>
#include <limits>

#include <Eigen/Eigenvalues>
#include <boost/math/special_functions/erf.hpp>

#include <likelihet/odds/strength.hpp>

namespace likelihet::odds {

namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

double normal_density(double x) {
  constexpr double one_over_root_two_pi = 0.39894228040143267793994605993438;
  return one_over_root_two_pi * std::exp(-0.5 * x * x);
}

double normal_probability(double x) {
  return 0.5 * std::erfc(-x * std::sqrt(0.5));
}

// From whichever tail is the smaller, so that no level of a small chance is lost.
double normal_quantile(double below, double above) {
  if (!(below > 0)) return -infinity;
  if (!(above > 0)) return infinity;
  const double tail = std::min(below, above);
  const double x = std::sqrt(2.0) * boost::math::erfc_inv(2 * tail);
  return below <= above ? -x : x;
}

// Φ⁻¹ of each cumulated chance but the last.
std::vector<double> thresholds(const std::vector<double>& row) {
  std::vector<double> above(row.size() + 1, 0.0);
  for (std::size_t k = row.size(); k-- > 0;) above[k] = above[k + 1] + row[k];
  std::vector<double> out;
  double below = 0;
  for (std::size_t k = 0; k + 1 < row.size(); ++k) {
    below += row[k];
    out.push_back(normal_quantile(below, above[k + 1]));
  }
  return out;
}

// Φ(high) - Φ(low), from the tail where both are small.
double between(double low, double high) {
  if (low > 0) return normal_probability(-low) - normal_probability(-high);
  return normal_probability(high) - normal_probability(low);
}

}  // namespace

StrengthPoints strength_points(std::size_t points) {
  // Orthogonal polynomials of the standard normal: diagonal 0, off it √k.
  const auto n = static_cast<Eigen::Index>(points);
  const Eigen::VectorXd diagonal = Eigen::VectorXd::Zero(n);
  Eigen::VectorXd beside(n - 1);
  for (Eigen::Index k = 0; k + 1 < n; ++k) beside[k] = std::sqrt(static_cast<double>(k + 1));
  Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> solver;
  solver.computeFromTridiagonal(diagonal, beside);
  constexpr double least_weight = 1e-18;
  StrengthPoints out;
  double whole = 0;
  for (Eigen::Index i = 0; i < n; ++i) {
    const double first = solver.eigenvectors()(0, i);
    if (first * first < least_weight) continue;
    out.strength.push_back(solver.eigenvalues()[i]);
    out.weight.push_back(first * first);
    whole += first * first;
  }
  for (double& w : out.weight) w /= whole;
  return out;
}

std::vector<double> given_strength(const std::vector<double>& row, double loading,
                                   const std::vector<double>& strength) {
  const auto at = thresholds(row);
  const double stretch = std::sqrt(1 + loading * loading);
  const std::size_t n = strength.size();
  std::vector<double> out(row.size() * n, 0.0);
  for (std::size_t q = 0; q < n; ++q) {
    double low = -infinity;
    for (std::size_t k = 0; k < row.size(); ++k) {
      const double high = k < at.size() ? stretch * at[k] - loading * strength[q] : infinity;
      out[k * n + q] = row[k] > 0 ? std::max(between(low, high), 0.0) : 0.0;
      low = high;
    }
  }
  return out;
}

std::vector<double> slope_in_cumulated(const std::vector<double>& row, double loading,
                                       const std::vector<double>& strength) {
  const auto at = thresholds(row);
  const double stretch = std::sqrt(1 + loading * loading);
  const std::size_t n = strength.size();
  std::vector<double> out(at.size() * n, 0.0);
  for (std::size_t k = 0; k < at.size(); ++k) {
    if (!std::isfinite(at[k])) continue;
    for (std::size_t q = 0; q < n; ++q) {
      // The ratio of two normal densities, of which each alone may vanish.
      const double here = stretch * at[k] - loading * strength[q];
      out[k * n + q] = stretch * std::exp(0.5 * (at[k] - here) * (at[k] + here));
    }
  }
  return out;
}

std::vector<double> slope_in_loading(const std::vector<double>& row, double loading,
                                     const std::vector<double>& strength) {
  const auto at = thresholds(row);
  const double stretch = std::sqrt(1 + loading * loading);
  const std::size_t n = strength.size();
  std::vector<double> out(row.size() * n, 0.0);
  for (std::size_t q = 0; q < n; ++q) {
    double low = 0;
    for (std::size_t k = 0; k < row.size(); ++k) {
      double high = 0;
      if (k < at.size() && std::isfinite(at[k])) {
        high = normal_density(stretch * at[k] - loading * strength[q]) *
               (at[k] * loading / stretch - strength[q]);
      }
      if (row[k] > 0) out[k * n + q] = high - low;
      low = high;
    }
  }
  return out;
}

std::optional<Membership> membership(const colony::Model& model, std::size_t marker) {
  if (model.markers()[marker].weight < 1) return std::nullopt;
  for (std::size_t g = 0; g < model.together().size(); ++g) {
    const auto& markers = model.together()[g].markers;
    const auto found = std::find(markers.begin(), markers.end(), marker);
    if (found != markers.end()) {
      return Membership{g, static_cast<std::size_t>(found - markers.begin())};
    }
  }
  return std::nullopt;
}

GivenStrength::GivenStrength(const colony::Model& model, const Tables& tables,
                             const StrengthPoints& points)
    : points_(points.strength.size()) {
  for (std::size_t m = 0; m < tables.rows.size(); ++m) {
    first_table_.push_back(first_row_.size());
    const auto of = membership(model, m);
    for (const auto& table : tables.rows[m]) {
      first_row_.push_back(of_row_.size());
      if (!of) continue;
      for (const auto& row : table) {
        of_row_.push_back(
            given_strength(row, tables.loadings[of->group][of->member], points.strength));
      }
    }
  }
}

}  // namespace likelihet::odds
