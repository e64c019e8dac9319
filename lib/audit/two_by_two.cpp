// Ratios on the logarithmic scale.
#include <cmath>
#include <stdexcept>

#include <likelihet/audit/distributions.hpp>
#include <likelihet/audit/proportion.hpp>
#include <likelihet/audit/two_by_two.hpp>

namespace likelihet::audit {

namespace {

void check(const TwoByTwo& table) {
  for (double cell :
       {table.true_positive, table.false_positive, table.false_negative, table.true_negative}) {
    if (!(cell >= 0 && std::isfinite(cell))) {
      throw std::invalid_argument("a two-by-two table takes counts of 0 or more");
    }
  }
}

Estimate proportion(double events, double others) {
  const double n = events + others;
  return {n > 0 ? events / n : 0.5, wilson(events, n)};
}

Estimate around(double ratio, double variance_of_log) {
  const double factor = std::exp(normal_width(0.95) * std::sqrt(variance_of_log));
  return {ratio, {ratio / factor, ratio * factor}};
}

// (a / (a + c)) / (b / (b + d)).
Estimate ratio_of_proportions(double a, double c, double b, double d) {
  const double variance = 1 / a - 1 / (a + c) + 1 / b - 1 / (b + d);
  return around(a / (a + c) / (b / (b + d)), variance);
}

}  // namespace

Estimate sensitivity(const TwoByTwo& table) {
  check(table);
  return proportion(table.true_positive, table.false_negative);
}

Estimate specificity(const TwoByTwo& table) {
  check(table);
  return proportion(table.true_negative, table.false_positive);
}

TwoByTwo without_empty_cells(const TwoByTwo& table) {
  check(table);
  const bool empty = !(table.true_positive > 0 && table.false_positive > 0 &&
                       table.false_negative > 0 && table.true_negative > 0);
  if (!empty) return table;
  return {table.true_positive + 0.5, table.false_positive + 0.5, table.false_negative + 0.5,
          table.true_negative + 0.5};
}

Estimate positive_ratio(const TwoByTwo& table) {
  const TwoByTwo full = without_empty_cells(table);
  return ratio_of_proportions(full.true_positive, full.false_negative, full.false_positive,
                              full.true_negative);
}

Estimate negative_ratio(const TwoByTwo& table) {
  const TwoByTwo full = without_empty_cells(table);
  return ratio_of_proportions(full.false_negative, full.true_positive, full.true_negative,
                              full.false_positive);
}

Estimate odds_ratio(const TwoByTwo& table) {
  const TwoByTwo full = without_empty_cells(table);
  const double ratio =
      full.true_positive / full.false_positive * (full.true_negative / full.false_negative);
  return around(ratio, 1 / full.true_positive + 1 / full.false_positive + 1 / full.false_negative +
                           1 / full.true_negative);
}

}  // namespace likelihet::audit
