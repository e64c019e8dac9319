// EM for rows of levels, and what a cut of them is worth.
#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <set>
#include <utility>

#include <likelihet/audit/distributions.hpp>
#include <likelihet/audit/level_mixture.hpp>
#include <likelihet/base/log_odds.hpp>

namespace likelihet::audit {

namespace {

Estimate on_log_scale(double log_value, double variance) {
  const double half = normal_width(0.95) * std::sqrt(variance);
  return {std::exp(log_value), {std::exp(log_value - half), std::exp(log_value + half)}};
}

Estimate on_logit_scale(double p, double variance) {
  const double half = normal_width(0.95) * std::sqrt(variance);
  return {p, {base::logistic(base::logit(p) - half), base::logistic(base::logit(p) + half)}};
}

// Expected cells of each class at these rows; returns the log-likelihood.
double expect(const LevelData& data, const std::vector<std::vector<double>>& rows,
              std::vector<std::vector<double>>& cells) {
  double total = 0;
  std::vector<double> share(data.classes);
  for (std::size_t i = 0; i < data.level.size(); ++i) {
    double sum = 0;
    for (std::size_t c = 0; c < data.classes; ++c) {
      share[c] = data.weight[i * data.classes + c] * rows[c][data.level[i]];
      sum += share[c];
    }
    if (!(sum > 0)) continue;
    const double count = data.count.empty() ? 1 : data.count[i];
    total += count * std::log(sum);
    for (std::size_t c = 0; c < data.classes; ++c) {
      cells[c][data.level[i]] += count * share[c] / sum;
    }
  }
  return total;
}

std::vector<double> row_of(const std::vector<double>& cells) {
  double sum = 0;
  for (double n : cells) sum += n;
  std::vector<double> row(cells.size(), 1 / static_cast<double>(cells.size()));
  if (sum > 0)
    std::transform(cells.begin(), cells.end(), row.begin(), [&](double n) { return n / sum; });
  return row;
}

}  // namespace

LevelData collapsed(const LevelData& data) {
  std::map<std::pair<std::size_t, std::vector<double>>, double> alike;
  for (std::size_t i = 0; i < data.level.size(); ++i) {
    const auto from = data.weight.begin() + static_cast<std::ptrdiff_t>(i * data.classes);
    alike[{data.level[i], {from, from + static_cast<std::ptrdiff_t>(data.classes)}}] +=
        data.count.empty() ? 1 : data.count[i];
  }
  LevelData out{data.levels, data.classes, {}, {}};
  for (const auto& [key, count] : alike) {
    out.level.push_back(key.first);
    out.weight.insert(out.weight.end(), key.second.begin(), key.second.end());
    out.count.push_back(count);
  }
  return out;
}

double log_likelihood(const LevelData& data, const std::vector<std::vector<double>>& rows) {
  std::vector<std::vector<double>> cells(data.classes, std::vector<double>(data.levels, 0.0));
  return expect(data, rows, cells);
}

LevelData joined(const LevelData& data, std::span<const std::size_t> row_of) {
  LevelData out{data.levels, 0, data.level, {}, data.count};
  for (std::size_t r : row_of) out.classes = std::max(out.classes, r + 1);
  out.weight.assign(data.level.size() * out.classes, 0.0);
  for (std::size_t i = 0; i < data.level.size(); ++i) {
    for (std::size_t c = 0; c < data.classes; ++c) {
      out.weight[i * out.classes + row_of[c]] += data.weight[i * data.classes + c];
    }
  }
  return out;
}

LevelData at_cut(const LevelData& data, std::size_t cut) {
  LevelData out = data;
  out.levels = 2;
  for (std::size_t& level : out.level) level = level >= cut ? 1 : 0;
  return out;
}

LevelFit fit_levels(const LevelData& given, double added) {
  const LevelData data = collapsed(given);
  constexpr std::size_t most_steps = 5000;
  constexpr double tolerance = 1e-11;
  const double each = added / static_cast<double>(data.levels);
  const std::vector<std::vector<double>> prior(data.classes,
                                               std::vector<double>(data.levels, each));
  LevelFit out;
  // The first step counts every animal by its weights alone.
  out.rows.assign(data.classes,
                  std::vector<double>(data.levels, 1 / static_cast<double>(data.levels)));
  double before = -std::numeric_limits<double>::infinity();
  for (std::size_t step = 0; step < most_steps; ++step) {
    auto cells = prior;
    out.log_likelihood = expect(data, out.rows, cells);
    double penalty = 0;
    for (const auto& row : out.rows) {
      for (double p : row) penalty += each > 0 ? each * std::log(p) : 0.0;
    }
    const double height = out.log_likelihood + penalty;
    if (std::abs(height - before) <= tolerance * (1 + std::abs(height))) break;
    before = height;
    for (std::size_t c = 0; c < data.classes; ++c) out.rows[c] = row_of(cells[c]);
  }
  return out;
}

double likelihood_ratio_p(double larger, double smaller, double degrees) {
  const double statistic = 2 * (larger - smaller);
  if (!(statistic > 0) || degrees < 1) return 1;
  return chi_squared_p(statistic, degrees);
}

double degrees_between(const LevelData& data, std::size_t rows, std::size_t fewer) {
  const std::set<std::size_t> used(data.level.begin(), data.level.end());
  const double levels = used.empty() ? 0 : static_cast<double>(used.size() - 1);
  return levels * static_cast<double>(rows - fewer);
}

namespace {

// Second derivatives of the log-likelihood in the two logits, sign changed.
void set_covariance(const LevelData& data, double added, CutFit& fit) {
  const double q[2] = {fit.high_in_others, fit.high_in_carriers};
  double information[2][2] = {{added * q[0] * (1 - q[0]), 0}, {0, added * q[1] * (1 - q[1])}};
  for (std::size_t i = 0; i < data.level.size(); ++i) {
    const double high = data.level[i] == 1 ? 1.0 : 0.0;
    double f = 0;
    double first[2];
    double second[2];
    for (int c = 0; c < 2; ++c) {
      const double p =
          data.weight[2 * i + static_cast<std::size_t>(c)] * (high > 0 ? q[c] : 1 - q[c]);
      const double slope = high - q[c];
      f += p;
      first[c] = p * slope;
      second[c] = p * (slope * slope - q[c] * (1 - q[c]));
    }
    if (!(f > 0)) continue;
    const double count = data.count.empty() ? 1 : data.count[i];
    for (int a = 0; a < 2; ++a) {
      information[a][a] -= count * second[a] / f;
      for (int b = 0; b < 2; ++b) information[a][b] += count * first[a] * first[b] / (f * f);
    }
  }
  const double determinant =
      information[0][0] * information[1][1] - information[0][1] * information[1][0];
  if (!(determinant > 1e-12) || !(information[0][0] > 0)) {
    // Nothing tells the classes apart: as wide as a logit is ever taken to be.
    constexpr double unknown = 100;
    fit.variance_carriers = fit.variance_others = unknown;
    return;
  }
  fit.variance_others = information[1][1] / determinant;
  fit.variance_carriers = information[0][0] / determinant;
  fit.covariance = -information[0][1] / determinant;
}

}  // namespace

CutFit fit_cut(const LevelData& given) {
  const LevelData data = collapsed(given);
  constexpr double half = 0.5;
  double added = 0;
  LevelFit levels = fit_levels(data);
  std::vector<std::vector<double>> cells(2, std::vector<double>(2, 0.0));
  expect(data, levels.rows, cells);
  const bool thin = std::any_of(cells.begin(), cells.end(),
                                [](const auto& row) { return row[0] < half || row[1] < half; });
  if (thin) {
    added = 2 * half;
    levels = fit_levels(data, added);
  }
  CutFit out;
  out.high_in_others = levels.rows[0][1];
  out.high_in_carriers = levels.rows[1][1];
  set_covariance(data, added, out);
  return out;
}

Estimate CutFit::sensitivity() const {
  return on_logit_scale(high_in_carriers, variance_carriers);
}

Estimate CutFit::specificity() const {
  return on_logit_scale(1 - high_in_others, variance_others);
}

Estimate CutFit::positive_ratio() const {
  const double a = 1 - high_in_carriers;  // d ln q / d logit q
  const double b = 1 - high_in_others;
  return on_log_scale(std::log(high_in_carriers / high_in_others),
                      a * a * variance_carriers + b * b * variance_others - 2 * a * b * covariance);
}

Estimate CutFit::negative_ratio() const {
  const double a = high_in_carriers;
  const double b = high_in_others;
  return on_log_scale(std::log((1 - a) / (1 - b)),
                      a * a * variance_carriers + b * b * variance_others - 2 * a * b * covariance);
}

double CutFit::log_odds_ratio() const {
  return base::logit(high_in_carriers) - base::logit(high_in_others);
}

double CutFit::log_odds_ratio_variance() const {
  return variance_carriers + variance_others - 2 * covariance;
}

Estimate CutFit::odds_ratio() const {
  return on_log_scale(log_odds_ratio(), log_odds_ratio_variance());
}

}  // namespace likelihet::audit
