// Odds with and without markers.
#include "ground_odds.hpp"

#include <algorithm>
#include <cmath>

#include <likelihet/audit/markerless.hpp>
#include <likelihet/odds/contradiction.hpp>
#include <likelihet/odds/layers.hpp>

namespace likelihet::publishing {
namespace {

// What a marker must move to have told anything.
constexpr double least_told = 1e-9;

using Layers = std::vector<GroundOdds::Layer>;

GroundOdds::Layer read(const odds::Prepared& prepared, const inference::Beliefs& beliefs,
                       const colony::Colony& colony) {
  GroundOdds::Layer out(colony.animals().size());
  for (std::size_t a = 0; a < out.size(); ++a) {
    for (std::size_t l = 0; l < colony.model().loci().size(); ++l) {
      out[a].push_back(odds::genotype_odds(prepared, beliefs, a, l));
    }
  }
  return out;
}

// Each of the layers asked for; none where the evidence contradicts itself.
std::variant<Layers, odds::TooLarge> layers_of(const odds::Scenario& scenario,
                                               const std::vector<odds::Layer>& asked,
                                               std::size_t memory_bytes) {
  const auto tables = odds::believed(scenario.colony->model());
  auto made = odds::prepare(scenario, tables, memory_bytes);
  if (auto* large = std::get_if<odds::TooLarge>(&made)) return std::move(*large);
  const auto& prepared = *std::get<std::unique_ptr<odds::Prepared>>(made);
  Layers out;
  for (const odds::Layer layer : asked) {
    const auto beliefs = inference::infer(*prepared.plan, prepared.net.values(layer, tables));
    if (!beliefs.possible) return Layers{};
    out.push_back(read(prepared, beliefs, *scenario.colony));
  }
  return out;
}

}  // namespace

bool GroundOdds::markers_tell(std::size_t animal, std::size_t locus) const {
  const auto& without = markerless[animal][locus];
  const auto& with = all[animal][locus];
  for (std::size_t g = 0; g < with.size(); ++g) {
    if (std::abs(with[g] - without[g]) > least_told) return true;
  }
  return false;
}

std::optional<std::vector<double>> GroundOdds::markerless_without(
    const std::vector<std::size_t>& observations, std::size_t animal, std::size_t locus) const {
  odds::Scenario fewer = audit::without_scores(scenario);
  const colony::Observation* first = scenario.colony->observations().data();
  std::erase_if(fewer.observations, [&](const colony::Observation* one) {
    return std::find(observations.begin(), observations.end(),
                     static_cast<std::size_t>(one - first)) != observations.end();
  });
  const auto tables = odds::believed(scenario.colony->model());
  auto made = odds::prepare(fewer, tables, memory_bytes);
  if (std::holds_alternative<odds::TooLarge>(made)) return std::nullopt;
  const auto& prepared = *std::get<std::unique_ptr<odds::Prepared>>(made);
  // What is possible with a record is possible without it.
  const auto beliefs =
      inference::infer(*prepared.plan, prepared.net.values(odds::Layer::posterior, tables));
  return odds::genotype_odds(prepared, beliefs, animal, locus);
}

std::variant<GroundOdds, odds::Contradiction, odds::TooLarge> ground_odds(const Ground& ground) {
  GroundOdds out;
  out.memory_bytes = ground.memory_bytes;
  out.scenario = odds::scenario(*ground.colony, ground.as_of);
  const odds::Scenario bare = audit::without_scores(out.scenario);
  const auto clash = [&] {
    odds::Options options;
    options.as_of = ground.as_of;
    options.memory_bytes = ground.memory_bytes;
    return odds::explain(out.scenario, options);
  };
  auto unmarked =
      layers_of(bare, {odds::Layer::pedigree, odds::Layer::posterior}, ground.memory_bytes);
  if (auto* large = std::get_if<odds::TooLarge>(&unmarked)) return std::move(*large);
  auto& two = std::get<Layers>(unmarked);
  if (two.empty()) return clash();
  out.pedigree = std::move(two[0]);
  out.markerless = std::move(two[1]);
  if (bare.observations.size() == out.scenario.observations.size()) {
    out.all = out.markerless;
    return out;
  }
  auto marked = layers_of(out.scenario, {odds::Layer::posterior}, ground.memory_bytes);
  if (auto* large = std::get_if<odds::TooLarge>(&marked)) return std::move(*large);
  if (std::get<Layers>(marked).empty()) return clash();
  out.all = std::move(std::get<Layers>(marked)[0]);
  return out;
}

}  // namespace likelihet::publishing
