// Order statistics and what lies between them.
#include <algorithm>
#include <cmath>

#include <likelihet/odds/quantiles.hpp>

namespace likelihet::odds {

double quantile(std::span<double> values, double p) {
  const double at = p * static_cast<double>(values.size() - 1);
  const auto low = values.begin() + static_cast<std::ptrdiff_t>(std::floor(at));
  std::nth_element(values.begin(), low, values.end());
  if (low + 1 == values.end()) return *low;
  return *low + (at - std::floor(at)) * (*std::min_element(low + 1, values.end()) - *low);
}

double quantile_of_sorted(std::span<const double> sorted, double p) {
  const double at = p * static_cast<double>(sorted.size() - 1);
  const auto low = static_cast<std::size_t>(at);
  const std::size_t high = std::min(low + 1, sorted.size() - 1);
  if (sorted[low] == sorted[high]) return sorted[low];  // infinite ones too
  return sorted[low] + (at - static_cast<double>(low)) * (sorted[high] - sorted[low]);
}

}  // namespace likelihet::odds
