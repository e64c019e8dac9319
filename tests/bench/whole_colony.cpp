// Everything from a colony's records to odds, as a keeper's program does it.
#include <memory>
#include <string>

#include "bench/pedigree.hpp"
#include "support/small_model.hpp"
#include <benchmark/benchmark.h>

#include <likelihet/odds/odds.hpp>

namespace likelihet::bench {
namespace {

std::shared_ptr<const colony::Model> model() {
  auto made = colony::Model::make(support::recessive_model());
  return std::make_shared<const colony::Model>(std::get<colony::Model>(std::move(made)));
}

colony::Records records(const std::vector<PedigreeAnimal>& animals) {
  colony::Records out;
  std::size_t next = 0;
  const auto name = [](std::size_t a) { return "A" + std::to_string(a); };
  for (std::size_t a = 0; a < animals.size(); ++a) {
    colony::AnimalRecord animal;
    animal.id = name(a);
    if (!animals[a].dam) {
      animal.origin = "bought";
    } else {
      const bool same = a > 0 && animals[a - 1].dam == animals[a].dam &&
                        animals[a - 1].sire == animals[a].sire && !out.clutches.empty();
      if (!same) {
        colony::ClutchRecord clutch;
        clutch.id = "C" + std::to_string(out.clutches.size());
        clutch.dam = name(*animals[a].dam);
        clutch.sires = {{name(*animals[a].sire), 1.0}};
        out.clutches.push_back(std::move(clutch));
      }
      animal.clutch = out.clutches.back().id;
    }
    out.animals.push_back(std::move(animal));
    colony::ObservationRecord shown;
    shown.id = "o" + std::to_string(next++);
    shown.what =
        colony::AppearanceRecord{name(a), "ember", animals[a].copies == 2 ? "ember" : "plain"};
    out.observations.push_back(std::move(shown));
    colony::ObservationRecord score;
    score.id = "o" + std::to_string(next++);
    const char* levels[3] = {"absent", "faint", "clear"};
    score.what = colony::ScoreRecord{name(a),      "crown-fleck", levels[animals[a].mark],
                                     std::nullopt, "ana",         std::nullopt,
                                     std::nullopt};
    out.observations.push_back(std::move(score));
  }
  return out;
}

void whole_colony(benchmark::State& state) {
  const auto animals = pedigree(static_cast<std::size_t>(state.range(0)), 0.1, 753);
  const auto written = records(animals);
  auto made = colony::Colony::make(model(), written);
  const auto& colony = std::get<colony::Colony>(made);
  odds::Options options;
  options.draws = static_cast<unsigned>(state.range(1));
  options.surprises = state.range(2) != 0;
  for (auto _ : state) {
    const auto outcome = odds::compute(colony, options);
    if (!std::holds_alternative<odds::ColonyOdds>(outcome)) {
      state.SkipWithError("no odds");
      break;
    }
  }
  state.counters["animals"] = static_cast<double>(animals.size());
}

BENCHMARK(whole_colony)
    ->ArgNames({"animals", "draws", "surprises"})
    ->Args({200, 0, 0})
    ->Args({2000, 0, 0})
    ->Args({20000, 0, 0})
    ->Args({200000, 0, 0})
    ->Args({2000, 1000, 0})
    ->Args({2000, 0, 1})
    ->Args({20000, 0, 1})
    ->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace likelihet::bench
