// Whether summing a variable out leaves the same number whatever the others are: then it tells
// nothing of them.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <span>

namespace likelihet::inference {

/// Σ_x row[x] weight[x] over the rows of one conditional table or of several. Rows of zeros do not
/// count: what they stand for is ruled out elsewhere.
class CommonSum {
 public:
  /// `rows` is whole rows of `weights.size()` numbers, one after the other.
  void add(std::span<const double> rows, std::span<const double> weights) {
    for (std::size_t row = 0; row < rows.size(); row += weights.size()) {
      add_row(rows.subspan(row, weights.size()), weights);
    }
  }
  /// The sum where it is above 0 and the same for all rows; else 0.
  [[nodiscard]] double value() const { return same_ ? sum_ : 0.0; }

 private:
  void add_row(std::span<const double> row, std::span<const double> weights) {
    if (std::all_of(row.begin(), row.end(), [](double p) { return p <= 0; })) return;
    double sum = 0;
    for (std::size_t x = 0; x < row.size(); ++x) sum += row[x] * weights[x];
    if (first_) sum_ = sum;
    first_ = false;
    // Rounding of a few units in the last place is not information.
    same_ = same_ && std::abs(sum - sum_) <= 8e-16 * sum_;
  }

  double sum_ = 0;
  bool first_ = true;
  bool same_ = true;
};

}  // namespace likelihet::inference
