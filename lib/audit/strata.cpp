// Sums over strata.
#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <vector>

#include <likelihet/audit/distributions.hpp>
#include <likelihet/audit/strata.hpp>

namespace likelihet::audit {

namespace {

// A stratum by its cells in the usual letters, rows the sign and columns what is so.
struct Cells {
  double a = 0, b = 0, c = 0, d = 0;

  explicit Cells(const TwoByTwo& of)
      : a(of.true_positive), b(of.false_positive), c(of.false_negative), d(of.true_negative) {
    for (double cell : {a, b, c, d}) {
      if (!(cell >= 0 && std::isfinite(cell))) {
        throw std::invalid_argument("strata take counts of 0 or more");
      }
    }
  }
  [[nodiscard]] double n() const { return a + b + c + d; }
  /// Product of the four margins: 0 where the stratum can't tell.
  [[nodiscard]] double margins() const { return (a + b) * (c + d) * (a + c) * (b + d); }
};

std::vector<Cells> that_tell(std::span<const TwoByTwo> strata) {
  std::vector<Cells> out;
  for (const TwoByTwo& stratum : strata) {
    const Cells cells(stratum);
    if (cells.margins() > 0 && cells.n() > 1) out.push_back(cells);
  }
  return out;
}

std::optional<Estimate> common_odds_ratio(const std::vector<Cells>& strata) {
  double r = 0, s = 0, pr = 0, ps_qr = 0, qs = 0;  // in the letters of Robins et al. (1986)
  for (const Cells& of : strata) {
    const double n = of.n();
    const double p = (of.a + of.d) / n;
    const double q = (of.b + of.c) / n;
    const double rk = of.a * of.d / n;
    const double sk = of.b * of.c / n;
    r += rk;
    s += sk;
    pr += p * rk;
    ps_qr += p * sk + q * rk;
    qs += q * sk;
  }
  if (!(r > 0 && s > 0)) return std::nullopt;
  const double variance = pr / (2 * r * r) + ps_qr / (2 * r * s) + qs / (2 * s * s);
  const double factor = std::exp(normal_width(0.95) * std::sqrt(variance));
  return Estimate{r / s, {r / s / factor, r / s * factor}};
}

Homogeneity homogeneity(double chi_squared, std::size_t strata) {
  const double value = std::max(0.0, chi_squared);
  return {value, strata - 1, chi_squared_p(value, static_cast<double>(strata - 1))};
}

// The first cell of a table with the margins of `of` and this odds ratio: the root of Breslow and
// Day's quadratic that leaves no cell negative, written so that it holds at odds ratio 1 too.
double fitted(const Cells& of, double odds_ratio) {
  const double row = of.a + of.b;
  const double column = of.a + of.c;
  const double square = 1 - odds_ratio;
  const double linear = of.n() - square * (row + column);
  const double constant = odds_ratio * row * column;
  const double root = std::sqrt(std::max(0.0, linear * linear + 4 * square * constant));
  return 2 * constant / (linear + root);
}

}  // namespace

std::optional<MantelHaenszel> mantel_haenszel(std::span<const TwoByTwo> strata) {
  const auto tables = that_tell(strata);
  if (tables.empty()) return std::nullopt;
  double difference = 0;
  double variance = 0;
  for (const Cells& of : tables) {
    const double n = of.n();
    difference += of.a - (of.a + of.b) * (of.a + of.c) / n;
    variance += of.margins() / (n * n * (n - 1));
  }
  const auto squared = [&](double correction) {
    const double left = std::abs(difference) - std::min(correction, std::abs(difference));
    return left * left / variance;
  };
  MantelHaenszel out;
  out.odds_ratio = common_odds_ratio(tables);
  out.chi_squared = squared(0);
  out.p = chi_squared_p(out.chi_squared, 1);
  out.chi_squared_corrected = squared(0.5);
  out.p_corrected = chi_squared_p(out.chi_squared_corrected, 1);
  return out;
}

std::optional<Homogeneity> woolf_homogeneity(std::span<const TwoByTwo> strata) {
  std::vector<Cells> tables;
  bool empty = false;
  for (const TwoByTwo& stratum : strata) {
    const Cells of(stratum);
    if (!(of.n() > 0)) continue;
    empty = empty || !(of.a > 0 && of.b > 0 && of.c > 0 && of.d > 0);
    tables.push_back(of);
  }
  if (tables.size() < 2) return std::nullopt;
  const double added = empty ? 0.5 : 0;
  double weight = 0;
  double sum = 0;
  double squares = 0;
  for (const Cells& of : tables) {
    const double a = of.a + added, b = of.b + added, c = of.c + added, d = of.d + added;
    const double log_ratio = std::log(a / b * (d / c));
    const double precision = 1 / (1 / a + 1 / b + 1 / c + 1 / d);
    weight += precision;
    sum += precision * log_ratio;
    squares += precision * log_ratio * log_ratio;
  }
  return homogeneity(squares - sum * sum / weight, tables.size());
}

std::optional<BreslowDay> breslow_day(std::span<const TwoByTwo> strata) {
  const auto tables = that_tell(strata);
  const auto common = common_odds_ratio(tables);
  if (!common || tables.size() < 2) return std::nullopt;
  double chi_squared = 0;
  double difference = 0;
  double variance = 0;
  for (const Cells& of : tables) {
    const double a = fitted(of, common->value);
    const double b = of.a + of.b - a;
    const double c = of.a + of.c - a;
    const double d = of.b + of.d - b;
    const double spread = 1 / (1 / a + 1 / b + 1 / c + 1 / d);
    chi_squared += (of.a - a) * (of.a - a) / spread;
    difference += of.a - a;
    variance += spread;
  }
  return BreslowDay{homogeneity(chi_squared, tables.size()),
                    homogeneity(chi_squared - difference * difference / variance, tables.size())};
}

}  // namespace likelihet::audit
