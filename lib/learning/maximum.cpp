// Climbing, and sorting the places where climbs end.
#include <algorithm>
#include <cmath>
#include <random>

#include <likelihet/learning/maximum.hpp>
#include <likelihet/learning/parameters.hpp>
#include <likelihet/learning/random_stream.hpp>
#include <likelihet/learning/strength_step.hpp>

namespace likelihet::learning {

namespace {
constexpr double same_mode = 0.01;
}

double distance(const odds::Tables& a, const odds::Tables& b) {
  const auto one = flat(a);
  const auto two = flat(b);
  double largest = 0;
  for (std::size_t i = 0; i < one.size(); ++i) {
    largest = std::max(largest, std::abs(one[i] - two[i]));
  }
  return largest;
}

odds::Tables off_the_saddle(const colony::Model& model, odds::Tables start) {
  constexpr double least = 0.5;
  for (std::size_t g = 0; g < start.loadings.size(); ++g) {
    if (!open_group(model, g)) continue;
    for (double& loading : start.loadings[g]) loading = std::max(loading, least);
  }
  return start;
}

std::optional<Climb> climb(Expecting& expecting, const colony::Model& model, odds::Tables start,
                           const ClimbSettings& settings) {
  const Counts prior = prior_counts(model);
  const odds::Tables believed = odds::believed(model);
  Climb out;
  out.tables = std::move(start);
  for (std::size_t step = 0; step < settings.most_steps && !out.converged; ++step) {
    if (settings.stop != nullptr && settings.stop->load()) return std::nullopt;
    const auto expected = expecting.at(out.tables);
    if (!expected) return std::nullopt;
    out.trace.push_back(expected->log_evidence + log_prior(prior, model, out.tables));
    odds::Tables next = mode_of(prior, expected->counts, believed);
    if (settings.together)
      step_strengths(model, expecting.strengths(), prior, expected->counts, out.tables, next);
    out.converged = distance(out.tables, next) <= settings.tolerance;
    out.tables = std::move(next);
  }
  return out;
}

std::optional<Modes> modes(Expecting& expecting, const colony::Model& model,
                           std::size_t further_starts, std::uint64_t seed,
                           const ClimbSettings& settings) {
  std::mt19937_64 random = random_stream(seed, Purpose::starts);
  std::optional<Modes> out;
  for (std::size_t start = 0; start <= further_starts; ++start) {
    auto end = climb(
        expecting, model,
        off_the_saddle(model, start == 0 ? odds::believed(model) : drawn_belief(model, random, 1)),
        settings);
    // A climb that was cut short ended nowhere in particular.
    if (!end || (!end->converged && out)) continue;
    if (!out) out.emplace();
    const double height = end->trace.back();
    const auto known = std::find_if(out->found.begin(), out->found.end(), [&](const Mode& mode) {
      return distance(mode.tables, end->tables) < same_mode;
    });
    if (known != out->found.end()) {
      ++known->starts;
    } else {
      out->found.push_back({end->tables, height, 1});
    }
    if (out->best.trace.empty() || height > out->best.trace.back()) out->best = std::move(*end);
  }
  if (out) {
    std::sort(out->found.begin(), out->found.end(),
              [](const Mode& a, const Mode& b) { return a.log_posterior > b.log_posterior; });
  }
  return out;
}

}  // namespace likelihet::learning
