// Pooling adjacent violators, and what is read off the curve.
#include <algorithm>
#include <cmath>
#include <stdexcept>

#include <likelihet/audit/case_checks.hpp>
#include <likelihet/audit/distributions.hpp>
#include <likelihet/audit/isotonic.hpp>
#include <likelihet/inference/random_bits.hpp>
#include <likelihet/odds/quantiles.hpp>

namespace likelihet::audit {

namespace {

// Different forecasts, ascending; `observed` the mean outcome.
std::vector<IsotonicStep> merged(std::span<const Case> cases) {
  std::vector<Case> sorted(cases.begin(), cases.end());
  std::stable_sort(sorted.begin(), sorted.end(),
                   [](const Case& a, const Case& b) { return a.probability < b.probability; });
  std::vector<IsotonicStep> out;
  for (const Case& one : sorted) {
    if (out.empty() || out.back().probability != one.probability) {
      out.push_back({one.probability, 0, 0});
    }
    out.back().observed += one.outcome;
    out.back().weight += 1;
  }
  for (IsotonicStep& step : out) step.observed /= step.weight;
  return out;
}

// Replaces means by the rising curve.
void pool(std::vector<IsotonicStep>& steps) {
  struct Block {
    double sum = 0, weight = 0;
    std::size_t end = 0;
    [[nodiscard]] double mean() const { return sum / weight; }
  };
  std::vector<Block> blocks;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    Block block{steps[i].observed * steps[i].weight, steps[i].weight, i + 1};
    while (!blocks.empty() && blocks.back().mean() >= block.mean()) {
      block.sum += blocks.back().sum;
      block.weight += blocks.back().weight;
      blocks.pop_back();
    }
    blocks.push_back(block);
  }
  std::size_t i = 0;
  for (const Block& block : blocks) {
    for (; i < block.end; ++i) steps[i].observed = std::clamp(block.mean(), 0.0, 1.0);
  }
}

}  // namespace

std::vector<IsotonicStep> isotonic(std::span<const Case> cases) {
  check(cases);
  auto steps = merged(cases);
  pool(steps);
  return steps;
}

Decomposition decompose(std::span<const Case> cases) {
  const double score = brier(cases);
  const auto curve = isotonic(cases);
  const auto n = static_cast<double>(cases.size());
  double mean = 0;
  for (const Case& one : cases) mean += one.outcome / n;
  // Each pool of the curve has its own mean outcome, so that the curve's score is less than that of
  // the overall mean by the variance of the curve.
  Decomposition out;
  for (const IsotonicStep& step : curve) {
    out.discrimination += step.weight / n * (step.observed - mean) * (step.observed - mean);
  }
  out.uncertainty = mean * (1 - mean);
  out.miscalibration = std::max(0.0, score - (out.uncertainty - out.discrimination));
  return out;
}

double integrated_calibration_index(std::span<const Case> cases) {
  check_some(cases);
  double sum = 0;
  for (const IsotonicStep& step : isotonic(cases)) {
    sum += step.weight * std::abs(step.probability - step.observed);
  }
  return sum / static_cast<double>(cases.size());
}

std::vector<BandPoint> consistency_band(std::span<const Case> cases, double level,
                                        std::size_t resamples, std::uint64_t seed) {
  check(cases);
  normal_width(level);  // refuses a level that is none
  if (resamples == 0) throw std::invalid_argument("a band takes one resample or more");
  const auto forecasts = merged(cases);
  std::vector<std::vector<double>> curves(forecasts.size());
  inference::RandomBits random(seed);
  for (std::size_t r = 0; r < resamples; ++r) {
    auto drawn = forecasts;
    for (IsotonicStep& step : drawn) {
      const auto number = static_cast<std::size_t>(step.weight);
      double events = 0;
      for (std::size_t i = 0; i < number; ++i) {
        events += random.uniform() < step.probability ? 1 : 0;
      }
      step.observed = events / step.weight;
    }
    pool(drawn);
    for (std::size_t i = 0; i < drawn.size(); ++i) curves[i].push_back(drawn[i].observed);
  }
  std::vector<BandPoint> out;
  for (std::size_t i = 0; i < forecasts.size(); ++i) {
    out.push_back({forecasts[i].probability, odds::quantile(curves[i], (1 - level) / 2),
                   odds::quantile(curves[i], (1 + level) / 2)});
  }
  return out;
}

}  // namespace likelihet::audit
