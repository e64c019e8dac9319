// Everything from a colony's records to odds, as a keeper's program does it.
#include "bench/recorded_herd.hpp"
#include <benchmark/benchmark.h>

#include <likelihet/odds/odds.hpp>

namespace likelihet::bench {
namespace {

void whole_colony(benchmark::State& state) {
  const colony::Colony colony = recorded_herd(static_cast<std::size_t>(state.range(0)), 0.1);
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
  state.counters["animals"] = static_cast<double>(state.range(0));
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
