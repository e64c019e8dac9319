// Clusters drawn with replacement.
#include <algorithm>
#include <cmath>
#include <map>
#include <random>
#include <stdexcept>
#include <vector>

#include <likelihet/audit/bootstrap.hpp>
#include <likelihet/audit/distributions.hpp>
#include <likelihet/audit/draw.hpp>
#include <likelihet/odds/quantiles.hpp>

namespace likelihet::audit {

namespace {

// Positions of the cases of each cluster.
std::vector<std::vector<std::size_t>> clusters_of(std::span<const Case> cases) {
  std::map<std::size_t, std::vector<std::size_t>> by_number;
  for (std::size_t i = 0; i < cases.size(); ++i) by_number[cases[i].cluster].push_back(i);
  std::vector<std::vector<std::size_t>> out;
  out.reserve(by_number.size());
  for (auto& [number, members] : by_number) out.push_back(std::move(members));
  return out;
}

struct Drawn {
  std::size_t position = 0;
  std::size_t cluster = 0;  // its new number
};

// `statistic` takes the drawn positions.
template <class Statistic>
std::optional<Interval> percentiles(std::span<const Case> cases, std::size_t resamples,
                                    std::uint64_t seed, double level, Statistic statistic) {
  normal_width(level);  // refuses a level that is none
  if (resamples == 0) throw std::invalid_argument("a bootstrap takes one resample or more");
  const auto clusters = clusters_of(cases);
  if (clusters.size() < 2) return std::nullopt;
  std::mt19937_64 random(seed);
  std::vector<double> values;
  std::vector<Drawn> drawn;
  for (std::size_t r = 0; r < resamples; ++r) {
    drawn.clear();
    for (std::size_t k = 0; k < clusters.size(); ++k) {
      for (std::size_t i : clusters[below(random, clusters.size())]) drawn.push_back({i, k});
    }
    const std::optional<double> value = statistic(drawn);
    if (value && std::isfinite(*value)) values.push_back(*value);
  }
  if (2 * values.size() < resamples) return std::nullopt;
  std::sort(values.begin(), values.end());
  return Interval{odds::quantile_of_sorted(values, (1 - level) / 2),
                  odds::quantile_of_sorted(values, (1 + level) / 2)};
}

std::vector<Case> picked(std::span<const Case> cases, const std::vector<Drawn>& drawn) {
  std::vector<Case> out;
  out.reserve(drawn.size());
  for (const Drawn& one : drawn) {
    out.push_back(cases[one.position]);
    out.back().cluster = one.cluster;
  }
  return out;
}

}  // namespace

std::optional<Interval> bootstrap_by_cluster(
    std::span<const Case> cases, std::size_t resamples, std::uint64_t seed,
    const std::function<std::optional<double>(std::span<const Case>)>& statistic, double level) {
  return percentiles(cases, resamples, seed, level, [&](const std::vector<Drawn>& drawn) {
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
  return percentiles(first, resamples, seed, level, [&](const std::vector<Drawn>& drawn) {
    return statistic(picked(first, drawn), picked(second, drawn));
  });
}

}  // namespace likelihet::audit
