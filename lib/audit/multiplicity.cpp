// From the largest p down.
#include <algorithm>
#include <numeric>
#include <stdexcept>

#include <likelihet/audit/multiplicity.hpp>

namespace likelihet::audit {

std::vector<double> benjamini_hochberg(std::span<const double> p) {
  for (double one : p) {
    if (!(one >= 0 && one <= 1)) throw std::invalid_argument("p-values lie in [0, 1]");
  }
  std::vector<std::size_t> order(p.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return p[a] < p[b]; });
  std::vector<double> out(p.size());
  double least = 1;
  for (std::size_t rank = p.size(); rank > 0; --rank) {
    const std::size_t i = order[rank - 1];
    least = std::min(least, p[i] * static_cast<double>(p.size()) / static_cast<double>(rank));
    out[i] = least;
  }
  return out;
}

}  // namespace likelihet::audit
