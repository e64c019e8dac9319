// Clusters drawn with replacement.
#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <vector>

#include <likelihet/audit/bootstrap.hpp>
#include <likelihet/audit/cluster_sample.hpp>
#include <likelihet/audit/distributions.hpp>
#include <likelihet/inference/random_bits.hpp>
#include <likelihet/odds/quantiles.hpp>

namespace likelihet::audit {

namespace {

ClusterSampler sampler_of(std::span<const Case> cases) {
  std::vector<std::size_t> cluster;
  cluster.reserve(cases.size());
  for (const Case& one : cases) cluster.push_back(one.cluster);
  return ClusterSampler(cluster);
}

// `statistic` takes the drawn positions.
template <class Statistic>
std::optional<Interval> percentiles(std::span<const Case> cases, std::size_t resamples,
                                    std::uint64_t seed, double level, Statistic statistic) {
  normal_width(level);  // refuses a level that is none
  if (resamples == 0) throw std::invalid_argument("a bootstrap takes one resample or more");
  const ClusterSampler sampler = sampler_of(cases);
  if (sampler.clusters() < 2) return std::nullopt;
  inference::RandomBits random(seed);
  std::vector<double> values;
  for (std::size_t r = 0; r < resamples; ++r) {
    const std::vector<ClusterMember> drawn = sampler.draw(random);
    const std::optional<double> value = statistic(drawn);
    if (value && std::isfinite(*value)) values.push_back(*value);
  }
  if (2 * values.size() < resamples) return std::nullopt;
  std::sort(values.begin(), values.end());
  return Interval{odds::quantile_of_sorted(values, (1 - level) / 2),
                  odds::quantile_of_sorted(values, (1 + level) / 2)};
}

std::vector<Case> picked(std::span<const Case> cases, const std::vector<ClusterMember>& drawn) {
  std::vector<Case> out;
  out.reserve(drawn.size());
  for (const ClusterMember& one : drawn) {
    out.push_back(cases[one.position]);
    out.back().cluster = one.cluster;
  }
  return out;
}

}  // namespace

std::optional<Interval> bootstrap_by_cluster(
    std::span<const Case> cases, std::size_t resamples, std::uint64_t seed,
    const std::function<std::optional<double>(std::span<const Case>)>& statistic, double level) {
  return percentiles(cases, resamples, seed, level, [&](const std::vector<ClusterMember>& drawn) {
    return statistic(picked(cases, drawn));
  });
}

std::optional<Interval> bootstrap_by_cluster(
    std::span<const Case> first, std::span<const Case> second, std::size_t resamples,
    std::uint64_t seed,
    const std::function<std::optional<double>(std::span<const Case>, std::span<const Case>)>&
        statistic,
    double level) {
  const auto together = [](const Case& a, const Case& b) { return a.cluster == b.cluster; };
  if (!std::equal(first.begin(), first.end(), second.begin(), second.end(), together)) {
    throw std::invalid_argument("paired forecasts are of the same cases");
  }
  return percentiles(first, resamples, seed, level, [&](const std::vector<ClusterMember>& drawn) {
    return statistic(picked(first, drawn), picked(second, drawn));
  });
}

}  // namespace likelihet::audit
