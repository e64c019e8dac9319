// The audit of a season: 2,000 hatchlings, 300 of them tested, each day's forecasts learned from
// where the day before ended.
#include "audit/simulated_season.hpp"
#include <benchmark/benchmark.h>

#include <likelihet/audit/forecasts.hpp>

namespace likelihet::audit {
namespace {

SeasonSettings large_season() {
  SeasonSettings settings;
  settings.clutches = 250;
  settings.hatchlings = 8;
  settings.markers.resize(4);
  for (std::size_t m = 0; m < settings.markers.size(); ++m) {
    settings.markers[m] = {"marker-" + std::to_string(m), 3,
                           [m](const Hatchling& h) {
                             const double shift = h.carrier ? 0.1 * static_cast<double>(m) : 0;
                             return std::vector<double>{0.7 - shift, 0.2, 0.1 + shift};
                           },
                           false};
  }
  settings.tested = [](const Hatchling&) { return 0.15; };
  return settings;
}

void forecasts_of_a_season(benchmark::State& state) {
  const auto colony = simulated_season(large_season(), 1).colony();
  std::size_t outcomes = 0;
  for (auto _ : state) {
    const auto found = forecasts(colony, {});
    outcomes = std::get<Forecasts>(found).forecasts.size() / 4;
  }
  state.counters["animals"] = static_cast<double>(colony.animals().size());
  state.counters["outcomes"] = static_cast<double>(outcomes);
}
BENCHMARK(forecasts_of_a_season)->Unit(benchmark::kMillisecond)->Iterations(1);

void truths_of_a_season(benchmark::State& state) {
  const auto colony = simulated_season(large_season(), 1).colony();
  state.counters["animals"] = static_cast<double>(colony.animals().size());
  for (auto _ : state) benchmark::DoNotOptimize(truths(colony, {}));
}
BENCHMARK(truths_of_a_season)->Unit(benchmark::kMillisecond)->Iterations(1);

}  // namespace
}  // namespace likelihet::audit
