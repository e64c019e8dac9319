// Rank normalisation, split chains, R-hat and effective sizes.
#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <stdexcept>

#include <boost/math/distributions/normal.hpp>

#include <likelihet/learning/diagnostics.hpp>
#include <likelihet/odds/quantiles.hpp>

namespace likelihet::learning {

namespace {

using Chains = std::vector<std::vector<double>>;

double mean(const std::vector<double>& values) {
  return std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
}

// With n - 1 below.
double variance(const std::vector<double>& values) {
  const auto [least, largest] = std::minmax_element(values.begin(), values.end());
  if (*least == *largest) return 0;  // not a rounding of it
  const double centre = mean(values);
  double sum = 0;
  for (double value : values) sum += (value - centre) * (value - centre);
  return sum / static_cast<double>(values.size() - 1);
}

// The middle draw of an odd length is left out.
Chains split(std::span<const std::vector<double>> chains) {
  Chains out;
  for (const auto& chain : chains) {
    const auto half = static_cast<std::ptrdiff_t>(chain.size() / 2);
    out.emplace_back(chain.begin(), chain.begin() + half);
    out.emplace_back(chain.end() - half, chain.end());
  }
  return out;
}

// Average ranks to normal scores: quantile of (rank - 3/8) / (S + 1/4) (equation 14).
Chains normal_scores(Chains chains) {
  std::vector<std::pair<double, double*>> order;
  for (auto& chain : chains) {
    for (double& value : chain) order.emplace_back(value, &value);
  }
  std::sort(order.begin(), order.end(),
            [](const auto& a, const auto& b) { return a.first < b.first; });
  const boost::math::normal standard;
  const auto size = static_cast<double>(order.size());
  for (std::size_t first = 0; first < order.size();) {
    std::size_t end = first;
    while (end < order.size() && order[end].first == order[first].first) ++end;
    const double rank = 0.5 * static_cast<double>(first + 1 + end);
    const double score = boost::math::quantile(standard, (rank - 0.375) / (size + 0.25));
    for (std::size_t i = first; i < end; ++i) *order[i].second = score;
    first = end;
  }
  return chains;
}

std::vector<double> all_of(const Chains& chains) {
  std::vector<double> out;
  for (const auto& chain : chains) out.insert(out.end(), chain.begin(), chain.end());
  std::sort(out.begin(), out.end());
  return out;
}

template <class Change>
Chains changed(Chains chains, Change change) {
  for (auto& chain : chains) {
    for (double& value : chain) value = change(value);
  }
  return chains;
}

double autocovariance(const std::vector<double>& chain, double centre, std::size_t lag) {
  double sum = 0;
  for (std::size_t i = 0; i + lag < chain.size(); ++i) {
    sum += (chain[i] - centre) * (chain[i + lag] - centre);
  }
  return sum / static_cast<double>(chain.size());
}

// Within-chain variance and the pooled estimate (equations 1 to 3).
struct ChainVariance {
  double within = 0;
  double pooled = 0;
};

ChainVariance spread(std::span<const std::vector<double>> chains) {
  const auto n = static_cast<double>(chains.front().size());
  std::vector<double> means;
  ChainVariance out;
  for (const auto& chain : chains) {
    means.push_back(mean(chain));
    out.within += variance(chain) / static_cast<double>(chains.size());
  }
  const double between = chains.size() > 1 ? variance(means) : 0.0;
  out.pooled = (n - 1) / n * out.within + between;
  return out;
}

}  // namespace

double r_hat(std::span<const std::vector<double>> chains) {
  const ChainVariance of = spread(chains);
  if (of.within > 0) return std::sqrt(of.pooled / of.within);
  return of.pooled > 0 ? std::numeric_limits<double>::infinity() : 1.0;
}

double effective_size(std::span<const std::vector<double>> chains) {
  const std::size_t n = chains.front().size();
  const double draws = static_cast<double>(n * chains.size());
  const ChainVariance of = spread(chains);
  if (!(of.pooled > 0)) return draws;
  std::vector<double> centres;
  for (const auto& chain : chains) centres.push_back(mean(chain));
  const auto correlation = [&](std::size_t lag) {
    double covariance = 0;
    for (std::size_t m = 0; m < chains.size(); ++m) {
      covariance += autocovariance(chains[m], centres[m], lag);
    }
    covariance /= static_cast<double>(chains.size());
    return 1 - (of.within - covariance) / of.pooled;
  };
  // Sums of neighbours stay positive and fall in a reversible chain; noise begins where they do
  // not. The last even lag counts once, which helps where draws are anticorrelated.
  std::vector<double> pairs{1 + correlation(1)};
  double even = 1;
  std::size_t lag = 0;
  while (lag + 5 < n && pairs.back() > 0) {
    lag += 2;
    even = correlation(lag);
    pairs.push_back(even + correlation(lag + 1));
  }
  pairs.pop_back();  // the first that is not positive, or the last looked at
  double time = -1;
  double least = std::numeric_limits<double>::infinity();
  for (double pair : pairs) {
    least = std::min(least, pair);
    time += 2 * least;
  }
  time += std::max(even, 0.0);
  return draws / std::max(time, 1 / std::log10(draws));
}

Convergence convergence(std::span<const std::vector<double>> chains) {
  if (chains.empty() || chains.front().size() < 4) {
    throw std::invalid_argument("convergence takes chains of four draws or more");
  }
  for (const auto& chain : chains) {
    if (chain.size() != chains.front().size()) {
      throw std::invalid_argument("convergence takes chains of one length");
    }
  }
  // The median and the quantiles are of all draws, a middle one too that no half has.
  const Chains whole(chains.begin(), chains.end());
  const auto sorted = all_of(whole);
  const double middle = odds::quantile_of_sorted(sorted, 0.5);
  const Chains ranked = normal_scores(split(chains));
  const Chains folded =
      normal_scores(split(changed(whole, [&](double value) { return std::abs(value - middle); })));
  Convergence out;
  out.r_hat = std::max(r_hat(ranked), r_hat(folded));
  out.bulk = effective_size(ranked);
  out.tail = std::numeric_limits<double>::infinity();
  for (double p : {0.05, 0.95}) {
    const double end = odds::quantile_of_sorted(sorted, p);
    const Chains below = changed(whole, [&](double value) { return value <= end ? 1.0 : 0.0; });
    out.tail = std::min(out.tail, effective_size(split(below)));
  }
  return out;
}

}  // namespace likelihet::learning
