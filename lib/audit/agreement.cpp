// Two scorers.
#include <algorithm>
#include <cmath>
#include <stdexcept>

#include <likelihet/audit/agreement.hpp>
#include <likelihet/audit/distributions.hpp>
#include <likelihet/audit/kappa_interval.hpp>
#include <likelihet/audit/proportion.hpp>

namespace likelihet::audit {

namespace {

// Expected agreement within this of 1 is 1: no animal could have shown disagreement.
constexpr double certain = 1e-12;

template <class Weight>
std::vector<double> square(std::size_t categories, Weight weight) {
  std::vector<double> out;
  out.reserve(categories * categories);
  for (std::size_t i = 0; i < categories; ++i) {
    for (std::size_t j = 0; j < categories; ++j) out.push_back(weight(i, j));
  }
  return out;
}

// |i - j| / (k - 1), and 0 of one category.
double distance(std::size_t i, std::size_t j, std::size_t categories) {
  return i == j ? 0
                : static_cast<double>(i > j ? i - j : j - i) / static_cast<double>(categories - 1);
}

// The table as proportions.
struct Margins {
  std::size_t categories = 0;
  double n = 0;
  std::vector<double> p, weights, rows, columns;
  double observed = 0;

  Margins(std::span<const double> table, std::size_t k, std::span<const double> given)
      : categories(k),
        p(table.begin(), table.end()),
        weights(given.begin(), given.end()),
        rows(k),
        columns(k) {
    check();
    if (weights.empty()) weights = unweighted(k);
    for (double count : p) n += count;
    if (!(n > 0)) return;
    for (std::size_t cell = 0; cell < p.size(); ++cell) {
      p[cell] /= n;
      rows[cell / k] += p[cell];
      columns[cell % k] += p[cell];
      observed += weights[cell] * p[cell];
    }
  }

  [[nodiscard]] std::optional<std::size_t> only_category() const {
    for (std::size_t k = 0; k < categories; ++k) {
      if (p[k * categories + k] >= 1 - certain) return k;
    }
    return std::nullopt;
  }

 private:
  void check() const {
    if (categories == 0 || p.size() != categories * categories ||
        (!weights.empty() && weights.size() != p.size())) {
      throw std::invalid_argument("agreement takes a square table, and weights in its shape");
    }
    for (double count : p) {
      if (!(count >= 0 && std::isfinite(count))) {
        throw std::invalid_argument("agreement takes counts of 0 or more");
      }
    }
    for (double weight : weights) {
      if (!(weight >= 0 && weight <= 1)) {
        throw std::invalid_argument("agreement takes weights in [0, 1]");
      }
    }
  }
};

// Fleiss, Cohen and Everitt (1969), in proportions.
double variance_of_cohen(const Margins& of, double expected) {
  const std::size_t k = of.categories;
  std::vector<double> row_weight(k);  // mean weight of a row over the columns' margins
  std::vector<double> column_weight(k);
  for (std::size_t cell = 0; cell < of.p.size(); ++cell) {
    row_weight[cell / k] += of.weights[cell] * of.columns[cell % k];
    column_weight[cell % k] += of.weights[cell] * of.rows[cell / k];
  }
  const double by_chance = 1 - expected;
  double sum = 0;
  for (std::size_t cell = 0; cell < of.p.size(); ++cell) {
    const double term = of.weights[cell] * by_chance -
                        (row_weight[cell / k] + column_weight[cell % k]) * (1 - of.observed);
    sum += of.p[cell] * term * term;
  }
  const double mean = of.observed * expected - 2 * expected + of.observed;
  return (sum - mean * mean) / (of.n * std::pow(by_chance, 4));
}

// Gwet (2014), of two scorers and many animals.
double variance_of_gwet(const Margins& of, const std::vector<double>& mean_margin, double scale,
                        double expected) {
  const std::size_t k = of.categories;
  const double value = (of.observed - expected) / (1 - expected);
  double sum = 0;
  for (std::size_t cell = 0; cell < of.p.size(); ++cell) {
    const double other = 1 - (mean_margin[cell / k] + mean_margin[cell % k]) / 2;
    const double term = of.weights[cell] - 2 * (1 - value) * scale * other;
    sum += of.p[cell] * term * term;
  }
  const double mean = of.observed - 2 * (1 - value) * expected;
  return (sum - mean * mean) / (of.n * (1 - expected) * (1 - expected));
}

}  // namespace

std::vector<double> unweighted(std::size_t categories) {
  return square(categories, [](std::size_t i, std::size_t j) { return i == j ? 1.0 : 0.0; });
}

std::vector<double> linear_weights(std::size_t categories) {
  return square(categories,
                [&](std::size_t i, std::size_t j) { return 1 - distance(i, j, categories); });
}

std::vector<double> quadratic_weights(std::size_t categories) {
  return square(categories, [&](std::size_t i, std::size_t j) {
    return 1 - distance(i, j, categories) * distance(i, j, categories);
  });
}

std::vector<double> from_disagreement(std::span<const double> disagreement) {
  double most = 0;
  for (double d : disagreement) most = std::max(most, d);
  if (!(most > 0)) throw std::invalid_argument("no disagreement weighs anything");
  std::vector<double> out;
  out.reserve(disagreement.size());
  for (double d : disagreement) out.push_back(1 - d / most);
  return out;
}

Kappa no_kappa(double observed, double expected, std::string why) {
  Kappa out;
  out.observed = observed;
  out.expected = expected;
  out.undefined = std::move(why);
  return out;
}

Kappa kappa_of(double observed, double expected, double variance, double n) {
  const auto index = [&](double agreement) { return (agreement - expected) / (1 - expected); };
  Kappa out;
  out.observed = observed;
  out.expected = expected;
  out.value = index(observed);
  // What rounding leaves of a variance of 0 is far below that of any real one.
  const bool none = !(variance * n > 1e-14);
  out.standard_error = none ? 0 : std::sqrt(variance);
  Interval ends{index(std::clamp(observed, 0.0, 1.0)), 0};
  if (none) {
    const Interval agreement = wilson(std::clamp(observed, 0.0, 1.0) * n, n);
    ends = {index(agreement.low), index(agreement.high)};
  } else {
    const double half = normal_width(0.95) * out.standard_error;
    ends = {*out.value - half, *out.value + half};
  }
  out.interval = {std::clamp(ends.low, -1.0, 1.0), std::clamp(ends.high, -1.0, 1.0)};
  return out;
}

Kappa cohen_kappa(std::span<const double> table, std::size_t categories,
                  std::span<const double> weights) {
  const Margins of(table, categories, weights);
  if (!(of.n > 0)) return no_kappa(0, 0, "nothing was scored by both");
  double expected = 0;
  for (std::size_t cell = 0; cell < of.p.size(); ++cell) {
    expected += of.weights[cell] * of.rows[cell / categories] * of.columns[cell % categories];
  }
  Kappa out;
  if (1 - expected <= certain) {
    out = no_kappa(of.observed, expected,
                   of.only_category() ? "all were put in one category" : "chance agrees always");
  } else {
    out = kappa_of(of.observed, expected, variance_of_cohen(of, expected), of.n);
  }
  out.only_category = of.only_category();
  return out;
}

Kappa gwet(std::span<const double> table, std::size_t categories, std::span<const double> weights) {
  const Margins of(table, categories, weights);
  if (!(of.n > 0)) return no_kappa(0, 0, "nothing was scored by both");
  if (categories < 2) return no_kappa(1, 1, "there is one category");
  double whole = 0;
  for (double weight : of.weights) whole += weight;
  const double scale = whole / static_cast<double>(categories * (categories - 1));
  std::vector<double> mean_margin(categories);
  double expected = 0;
  for (std::size_t k = 0; k < categories; ++k) {
    mean_margin[k] = (of.rows[k] + of.columns[k]) / 2;
    expected += scale * mean_margin[k] * (1 - mean_margin[k]);
  }
  Kappa out;
  if (1 - expected <= certain) {
    out = no_kappa(of.observed, expected, "chance agrees always");
  } else {
    out = kappa_of(of.observed, expected, variance_of_gwet(of, mean_margin, scale, expected), of.n);
  }
  out.only_category = of.only_category();
  return out;
}

}  // namespace likelihet::audit
