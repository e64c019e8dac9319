// Binomials by Boost.Random, whose numbers do not differ between standard libraries.
#include <algorithm>
#include <cstdint>

#include <boost/random/binomial_distribution.hpp>

#include <likelihet/inference/multinomial.hpp>
#include <likelihet/inference/pick.hpp>

namespace likelihet::inference {

namespace {

// Setting a binomial up costs about as much as so many draws of one.
constexpr std::size_t few = 8;

double sum(std::span<const double> weights) {
  double out = 0;
  for (double w : weights) out += w;
  return out;
}

std::size_t binomial(std::size_t n, double p, RandomBits& random) {
  if (!(p < 1)) return n;
  const auto most = static_cast<std::int64_t>(n);
  boost::random::binomial_distribution<std::int64_t> drawn(most, p);
  // Adding chances up, it may step past the last by rounding: about once in 10^15 draws.
  return static_cast<std::size_t>(std::clamp<std::int64_t>(drawn(random), 0, most));
}

}  // namespace

void multinomial(std::size_t n, std::span<const double> weights, RandomBits& random,
                 std::vector<std::size_t>& out) {
  out.assign(weights.size(), 0);
  if (n < few) {
    for (std::size_t i = 0; i < n; ++i) ++out[pick(weights, random)];
    return;
  }
  for (std::size_t i = 0; i < weights.size() && n > 0; ++i) {
    if (!(weights[i] > 0)) continue;
    out[i] = binomial(n, weights[i] / sum(weights.subspan(i)), random);
    n -= out[i];
  }
}

}  // namespace likelihet::inference
