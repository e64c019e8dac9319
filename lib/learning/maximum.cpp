// Climbing, and sorting the places where climbs end.
#include <algorithm>
#include <cmath>

#include <likelihet/inference/random_bits.hpp>
#include <likelihet/learning/extrapolation.hpp>
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

namespace {

// A point of a climb, and where one step of EM leads from it.
struct Foothold {
  odds::Tables tables;
  double height = 0;  // ln(prior density) + ln P(evidence)
  odds::Tables next;
};

class Climber {
 public:
  Climber(Expecting& expecting, const colony::Model& model, const ClimbSettings& settings)
      : expecting_(expecting),
        model_(model),
        settings_(settings),
        prior_(prior_counts(model)),
        believed_(odds::believed(model)) {}

  // Nothing where the evidence contradicts itself at these tables.
  std::optional<Foothold> at(odds::Tables tables) {
    const auto expected = expecting_.at(tables);
    if (!expected) return std::nullopt;
    Foothold out{std::move(tables), expected->log_evidence,
                 mode_of(prior_, expected->counts, believed_)};
    out.height += log_prior(prior_, model_, out.tables);
    if (settings_.together) {
      step_strengths(model_, expecting_.strengths(), prior_, expected->counts, out.tables,
                     out.next);
    }
    return out;
  }

 private:
  Expecting& expecting_;
  const colony::Model& model_;
  const ClimbSettings& settings_;
  Counts prior_;
  odds::Tables believed_;
};

}  // namespace

std::optional<Climb> climb(Expecting& expecting, const colony::Model& model, odds::Tables start,
                           const ClimbSettings& settings) {
  Climber climber(expecting, model, settings);
  Climb out;
  auto here = climber.at(std::move(start));
  while (here) {
    if (settings.stop != nullptr && settings.stop->load()) return std::nullopt;
    out.trace.push_back(here->height);
    out.converged = distance(here->tables, here->next) <= settings.tolerance;
    if (out.converged || out.trace.size() >= settings.most_steps) break;
    auto second = climber.at(here->next);
    if (!second) return std::nullopt;
    out.trace.push_back(second->height);
    out.converged = distance(second->tables, second->next) <= settings.tolerance;
    if (out.converged) {
      here = std::move(second);
      break;
    }
    // A long step where it leads up, a plain one else.
    auto third = climber.at(extrapolated(model, here->tables, second->tables, second->next));
    if (!third || !(third->height >= second->height)) third = climber.at(second->next);
    here = std::move(third);
  }
  if (!here) return std::nullopt;
  out.tables = std::move(here->next);
  return out;
}

std::optional<Modes> modes(Expecting& expecting, const colony::Model& model,
                           std::size_t further_starts, std::uint64_t seed,
                           const ClimbSettings& settings) {
  inference::RandomBits random = random_stream(seed, Purpose::starts);
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
