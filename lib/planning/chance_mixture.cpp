// Mixtures of binomial distributions.
#include <algorithm>
#include <cmath>

#include <boost/math/distributions/binomial.hpp>

#include <likelihet/planning/chance_mixture.hpp>

namespace likelihet::planning {

namespace {

double entropy_in_bits(const std::vector<double>& probabilities) {
  double sum = 0;
  for (double p : probabilities) {
    if (p > 0) sum -= p * std::log2(p);
  }
  return sum;
}

}  // namespace

std::vector<double> binomial(std::size_t n, double p) {
  std::vector<double> out(n + 1, 0.0);
  if (p <= 0 || p >= 1) {
    out[p <= 0 ? 0 : n] = 1;
    return out;
  }
  const boost::math::binomial_distribution<> of(static_cast<double>(n), p);
  for (std::size_t k = 0; k <= n; ++k) out[k] = boost::math::pdf(of, static_cast<double>(k));
  return out;
}

void ChanceMixture::add(const ChanceMixture& other, double share) {
  for (const auto& [p, weight] : other.weights_) weights_[p] += share * weight;
}

double ChanceMixture::total() const {
  double sum = 0;
  for (const auto& [p, weight] : weights_) sum += weight;
  return sum;
}

void ChanceMixture::normalise() {
  const double sum = total();
  if (!(sum > 0)) return;
  for (auto& [p, weight] : weights_) weight /= sum;
}

double ChanceMixture::chance() const {
  double sum = 0;
  for (const auto& [p, weight] : weights_) sum += p * weight;
  return std::min(sum, 1.0);
}

double ChanceMixture::at_least_one(std::size_t n) const {
  if (n == 0) return 0;
  double sum = 0;
  for (const auto& [p, weight] : weights_) {
    sum += weight * (p < 1 ? -std::expm1(static_cast<double>(n) * std::log1p(-p)) : 1.0);
  }
  return std::min(sum, 1.0);
}

std::vector<double> ChanceMixture::counts(std::size_t n) const {
  std::vector<double> out(n + 1, 0.0);
  for (const auto& [p, weight] : weights_) {
    const auto of = binomial(n, p);
    for (std::size_t k = 0; k <= n; ++k) out[k] += weight * of[k];
  }
  for (double& p : out) p = std::min(p, 1.0);
  return out;
}

double ChanceMixture::information(std::size_t n) const {
  if (weights_.size() < 2) return 0;
  std::vector<double> whole(n + 1, 0.0);
  double known = 0;
  for (const auto& [p, weight] : weights_) {
    const auto of = binomial(n, p);
    for (std::size_t k = 0; k <= n; ++k) whole[k] += weight * of[k];
    known += weight * entropy_in_bits(of);
  }
  return std::max(entropy_in_bits(whole) - known, 0.0);
}

ChanceMixture both(const ChanceMixture& one, const ChanceMixture& other) {
  ChanceMixture out;
  for (const auto& [p, weight] : one.weights()) {
    for (const auto& [q, of_q] : other.weights()) out.add(p * q, weight * of_q);
  }
  return out;
}

}  // namespace likelihet::planning
