// Two small logistic regressions.
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>
#include <vector>

#include <Eigen/Dense>
#include <boost/math/tools/roots.hpp>

#include <likelihet/audit/calibration.hpp>
#include <likelihet/audit/case_checks.hpp>
#include <likelihet/base/log_odds.hpp>

namespace likelihet::audit {

namespace {

double logit_inside(double p) {
  const double inside = std::clamp(p, least_on_logit, 1 - least_on_logit);
  return std::log(inside) - std::log1p(-inside);
}

struct Point {
  double x = 0;        // logit of what was given
  double outcome = 0;  // P(so)
};

std::vector<Point> on_logit(std::span<const Case> cases) {
  std::vector<Point> out;
  out.reserve(cases.size());
  for (const Case& one : cases) out.push_back({logit_inside(one.probability), one.outcome});
  return out;
}

// An outcome this near to 0 or 1 is it when kinds are told apart: a doubt that small would carry a
// slope that only rounding knows.
constexpr double as_certain = 1e-9;

// Both kinds overlap: someone not so lies above someone so, and the other way round.
bool overlapping(const std::vector<Point>& points) {
  constexpr double none = std::numeric_limits<double>::infinity();
  Point least{none, none};  // x: of those so; outcome: of those not so
  Point most{-none, -none};
  for (const Point& one : points) {
    if (one.outcome > as_certain) {
      least.x = std::min(least.x, one.x);
      most.x = std::max(most.x, one.x);
    }
    if (one.outcome < 1 - as_certain) {
      least.outcome = std::min(least.outcome, one.x);
      most.outcome = std::max(most.outcome, one.x);
    }
  }
  return most.outcome > least.x && most.x > least.outcome;
}

// ln of the likelihood; ln(1 + e^x) without overflow.
double log_likelihood_at(const std::vector<Point>& points, const Eigen::Vector2d& at) {
  double sum = 0;
  for (const Point& one : points) {
    const double x = at[0] + at[1] * one.x;
    sum += one.outcome * x - std::max(x, 0.0) - std::log1p(std::exp(-std::abs(x)));
  }
  return sum;
}

struct Slope {
  Eigen::Vector2d gradient = Eigen::Vector2d::Zero();
  Eigen::Matrix2d information = Eigen::Matrix2d::Zero();
};

Slope slope_at(const std::vector<Point>& points, const Eigen::Vector2d& at) {
  Slope out;
  for (const Point& one : points) {
    const Eigen::Vector2d row(1, one.x);
    const double mean = base::logistic(at[0] + at[1] * one.x);
    out.gradient += (one.outcome - mean) * row;
    out.information += mean * (1 - mean) * row * row.transpose();
  }
  return out;
}

// Newton's steps from `at` to the maximum, which is there and is one; whether it was reached.
bool climb(const std::vector<Point>& points, Eigen::Vector2d& at) {
  constexpr int most_steps = 200;
  double here = log_likelihood_at(points, at);
  for (int step = 0; step < most_steps; ++step) {
    const Slope of = slope_at(points, at);
    Eigen::Vector2d move = of.information.ldlt().solve(of.gradient);
    if (!move.allFinite()) return false;
    // The likelihood is concave: a step that is short enough never falls, but for rounding.
    double there = log_likelihood_at(points, at + move);
    while (there < here - 1e-12 * std::abs(here) && move.norm() > 1e-14) {
      move /= 2;
      there = log_likelihood_at(points, at + move);
    }
    at += move;
    here = there;
    // Newton's decrement: twice what the likelihood still had to gain before this step.
    if (of.gradient.dot(move) <= 1e-20) return true;
  }
  return false;
}

}  // namespace

std::optional<double> calibration_intercept(std::span<const Case> cases) {
  check(cases);
  const std::vector<Point> points = on_logit(cases);
  double events = 0;
  double least = std::numeric_limits<double>::infinity();
  double most = -least;
  for (const Point& one : points) {
    events += one.outcome;
    least = std::min(least, one.x);
    most = std::max(most, one.x);
  }
  const auto n = static_cast<double>(points.size());
  if (!(events > 0 && events < n)) return std::nullopt;
  // The sum of expectations rises through the number of events between these two.
  const double mean = std::log(events) - std::log(n - events);
  const double low = mean - most - 1e-6;
  const double high = mean - least + 1e-6;
  std::uintmax_t steps = 200;
  const auto bracket = boost::math::tools::toms748_solve(
      [&](double a) {
        double sum = -events;
        for (const Point& one : points) sum += base::logistic(a + one.x);
        return sum;
      },
      low, high, boost::math::tools::eps_tolerance<double>(), steps);
  return (bracket.first + bracket.second) / 2;
}

std::optional<LogisticFit> calibration_slope(std::span<const Case> cases) {
  check(cases);
  const std::vector<Point> points = on_logit(cases);
  if (!overlapping(points)) return std::nullopt;
  Eigen::Vector2d at = Eigen::Vector2d::Zero();
  if (!climb(points, at)) return std::nullopt;
  const Eigen::Matrix2d covariance = slope_at(points, at).information.inverse();
  if (!covariance.allFinite()) return std::nullopt;
  return LogisticFit{
      at[0], at[1], {covariance(0, 0), covariance(0, 1), covariance(1, 0), covariance(1, 1)}};
}

std::optional<double> spiegelhalter_z(std::span<const Case> cases) {
  check(cases);
  double sum = 0;
  double variance = 0;
  for (const Case& one : cases) {
    const double p = one.probability;
    sum += (one.outcome - p) * (1 - 2 * p);
    variance += (1 - 2 * p) * (1 - 2 * p) * p * (1 - p);
  }
  if (!(variance > 0)) return std::nullopt;
  return sum / std::sqrt(variance);
}

}  // namespace likelihet::audit
