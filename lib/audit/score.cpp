// Means over cases.
#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

#include <likelihet/audit/case_checks.hpp>
#include <likelihet/audit/score.hpp>

namespace likelihet::audit {

namespace {

constexpr double least_probability = 1e-15;

double surprisal_bits(double probability) {
  return -std::log2(std::max(probability, least_probability));
}

}  // namespace

void check(std::span<const Case> cases) {
  for (const Case& one : cases) {
    if (!(one.probability >= 0 && one.probability <= 1 && one.outcome >= 0 && one.outcome <= 1)) {
      throw std::invalid_argument("probabilities and outcomes lie in [0, 1]");
    }
  }
}

void check_some(std::span<const Case> cases) {
  if (cases.empty()) throw std::invalid_argument("there are no cases to score");
  check(cases);
}

double brier(std::span<const Case> cases) {
  check_some(cases);
  double sum = 0;
  for (const Case& one : cases) {
    const double p = one.probability;
    sum += one.outcome * (1 - p) * (1 - p) + (1 - one.outcome) * p * p;
  }
  return sum / static_cast<double>(cases.size());
}

double log_score(std::span<const Case> cases) {
  check_some(cases);
  double sum = 0;
  for (const Case& one : cases) {
    sum += one.outcome * surprisal_bits(one.probability) +
           (1 - one.outcome) * surprisal_bits(1 - one.probability);
  }
  return sum / static_cast<double>(cases.size());
}

double skill(std::span<const Case> cases, std::span<const Case> baseline) {
  if (cases.size() != baseline.size()) {
    throw std::invalid_argument("skill takes a baseline for each case");
  }
  const double ours = brier(cases);
  const double theirs = brier(baseline);
  if (theirs > 0) return 1 - ours / theirs;
  return ours > 0 ? -std::numeric_limits<double>::infinity() : 0.0;
}

std::optional<double> observed_expected(std::span<const Case> cases) {
  check(cases);
  double observed = 0;
  double expected = 0;
  for (const Case& one : cases) {
    observed += one.outcome;
    expected += one.probability;
  }
  if (!(expected > 0)) return std::nullopt;
  return observed / expected;
}

}  // namespace likelihet::audit
