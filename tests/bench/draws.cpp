// Draws of all genotypes, and whole sweeps of a chain over tables and genotypes.
//
// Peer: JAGS on such a colony of 2,000 animals with 136 loops took 3.0 ms a draw at best, measured
// beforehand on this class of machine; the aim is a hundredth of it. draws_jags.py measures it anew
// on this very herd: 1.2 to 1.4 ms at known tables (beside draw_at_known_tables), where all that
// was seen of an animal is one likelihood, and 6.0 to 6.3 ms where it learns them (beside
// chain_sweep). Floors of the first day: a plain blocked sampler in C++ 0.067 ms, 0.032 ms with
// draws side by side.
#include "bench/recorded_herd.hpp"
#include <benchmark/benchmark.h>

#include <likelihet/inference/random_bits.hpp>
#include <likelihet/inference/sampling.hpp>
#include <likelihet/learning/chain.hpp>
#include <likelihet/odds/scenario.hpp>

namespace likelihet::bench {
namespace {

constexpr std::size_t markers = 8;

std::unique_ptr<odds::Prepared> prepared_of(const colony::Colony& colony) {
  auto made = odds::prepare(odds::scenario(colony, std::nullopt), odds::believed(colony.model()),
                            std::size_t{2} << 30U);
  return std::move(std::get<std::unique_ptr<odds::Prepared>>(made));
}

void count(benchmark::State& state) {
  state.counters["animals"] = static_cast<double>(state.range(0));
}

// Upwards through the tree, and one draw of every genotype: a chain's step, whose tables change.
void genotype_draw(benchmark::State& state) {
  const colony::Colony colony = recorded_herd(static_cast<std::size_t>(state.range(0)), 0.06);
  const auto prepared = prepared_of(colony);
  const auto values = prepared->net.values(odds::Layer::posterior, odds::believed(colony.model()));
  inference::Pass<double> pass(*prepared->plan);
  inference::Sampler sampler(*prepared->plan);
  inference::Draw draw;
  inference::RandomBits random(1);
  for (auto _ : state) {
    pass.collect(values);
    sampler.draw(pass, values, random, draw);
    benchmark::DoNotOptimize(draw.leaves.data());
  }
  count(state);
}

// Draws at tables that stay the same: upwards once for all of them.
void draw_at_known_tables(benchmark::State& state) {
  const colony::Colony colony = recorded_herd(static_cast<std::size_t>(state.range(0)), 0.06);
  const auto prepared = prepared_of(colony);
  const auto values = prepared->net.values(odds::Layer::posterior, odds::believed(colony.model()));
  inference::Pass<double> pass(*prepared->plan);
  pass.collect(values);
  inference::Sampler sampler(*prepared->plan);
  inference::Draw draw;
  inference::RandomBits random(1);
  for (auto _ : state) {
    sampler.draw(pass, values, random, draw);
    benchmark::DoNotOptimize(draw.leaves.data());
  }
  count(state);
}

void sweep(benchmark::State& state, const colony::Colony& colony) {
  const auto prepared = prepared_of(colony);
  learning::Chain chain(*prepared, colony.model(), odds::believed(colony.model()), 1, 0);
  for (auto _ : state) {
    if (!chain.step()) {
      state.SkipWithError("impossible");
      break;
    }
  }
  count(state);
}

// Genotypes, levels, rows, scorers and frequencies.
void chain_sweep(benchmark::State& state) {
  sweep(state, recorded_herd(static_cast<std::size_t>(state.range(0)), 0.06));
}

// The same with eight markers on each animal and tests on some, as in a book that is learned from.
void sweep_of_eight_markers(benchmark::State& state) {
  HerdShape shape{static_cast<std::size_t>(state.range(0)), 0.06};
  shape.markers = markers;
  shape.results = true;
  sweep(state, recorded_herd(shape));
}

// What a sweep cannot do without for as many readings: a random number, a level by it out of the
// row's, and a count of each, all in plain arrays. A floor beside genotype_draw's.
void floor_of_eight_markers(benchmark::State& state) {
  inference::RandomBits random(1);
  std::vector<std::uint8_t> cells(static_cast<std::size_t>(state.range(0)) * markers);
  for (auto& cell : cells) cell = static_cast<std::uint8_t>(random() % 6);  // row and level read
  double ends[6][2];
  for (auto& end : ends) {
    end[0] = 0.3;
    end[1] = 0.6;
  }
  benchmark::DoNotOptimize(ends);
  for (auto _ : state) {
    std::size_t counts[markers][6][3] = {};
    for (std::size_t i = 0; i < cells.size(); ++i) {
      const double u = static_cast<double>(random() >> 11U) * 0x1p-53;
      const double* end = ends[cells[i]];
      ++counts[i % markers][cells[i]][(u >= end[0] ? 1U : 0U) + (u >= end[1] ? 1U : 0U)];
    }
    benchmark::DoNotOptimize(counts);
  }
  count(state);
}

BENCHMARK(genotype_draw)->Arg(2000)->Arg(20000)->Unit(benchmark::kMillisecond);
BENCHMARK(draw_at_known_tables)->Arg(2000)->Arg(20000)->Unit(benchmark::kMillisecond);
BENCHMARK(chain_sweep)->Arg(2000)->Arg(20000)->Unit(benchmark::kMillisecond);
BENCHMARK(sweep_of_eight_markers)->Arg(20000)->Unit(benchmark::kMillisecond);
BENCHMARK(floor_of_eight_markers)->Arg(20000)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace likelihet::bench
