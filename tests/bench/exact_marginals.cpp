// Exact marginals of every animal: the plan and one pass, and a pass with the plan ready.
//
// Floors, one thread, the same kind of colony on this class of machine, measured beforehand: a
// plain collapsed elimination in C++ took, in all and a pass, 2.7 ms and 0.10 ms at 2,000 animals
// with 136 loops, 48 ms and 1.7 ms at 20,000, 0.43 s and 22 ms at 200,000; a junction-tree library
// 0.24 s and 3.6 ms, 2.1 s and 46 ms, 24 s and 0.56 s.
#include "bench/pedigree.hpp"
#include <benchmark/benchmark.h>

#include <likelihet/inference/engine.hpp>

namespace likelihet::bench {
namespace {

using inference::Network;
using inference::Table;
using inference::Variable;

// P(child's copies | dam's, sire's), child fastest.
std::vector<double> mendel() {
  std::vector<double> table;
  for (int d = 0; d < 3; ++d) {
    for (int s = 0; s < 3; ++s) {
      const double a = d / 2.0;
      const double b = s / 2.0;
      table.insert(table.end(), {(1 - a) * (1 - b), a * (1 - b) + b * (1 - a), a * b});
    }
  }
  return table;
}

constexpr std::size_t line_size = 500;

class Builder {
 public:
  // Of each line of animals those from the `seen`th on have no records.
  explicit Builder(const std::vector<PedigreeAnimal>& animals, std::size_t seen = line_size)
      : animals_(animals) {
    const Table ones = network_.add_table(std::vector<double>{1, 1, 1});
    std::vector<bool> breeds(animals.size(), false);
    for (const auto& animal : animals) {
      if (animal.dam) breeds[*animal.dam] = breeds[*animal.sire] = true;
    }
    const Table passes = network_.add_table(mendel());
    const Table founder = network_.add_table(std::vector<double>{0.5625, 0.375, 0.0625});
    std::vector<Variable> variable(animals.size(), 0);
    for (std::size_t a = 0; a < animals.size(); ++a) {
      const auto& animal = animals[a];
      const bool records = a % line_size < seen;
      if (animal.dam && !breeds[a]) {
        network_.add_leaf(
            3, passes, records ? evidence(animal) : ones, !records,
            std::vector<inference::Branch>{
                {variable[*animal.dam], variable[*animal.sire], std::nullopt, 0, 1.0}});
        continue;
      }
      variable[a] = network_.add_variable(3);
      if (animal.dam) {
        network_.add_factor(
            std::vector<Variable>{variable[*animal.dam], variable[*animal.sire], variable[a]},
            passes, inference::Role::conditional);
      } else {
        network_.add_factor(std::vector<Variable>{variable[a]}, founder);
      }
      if (records) network_.add_factor(std::vector<Variable>{variable[a]}, evidence(animal));
    }
  }
  Network take() { return std::move(network_); }

 private:
  // What it shows, a marker, and for some a result; one table for each distinct combination.
  Table evidence(const PedigreeAnimal& animal) {
    const std::size_t key = (animal.copies == 2 ? 1U : 0U) + 2 * animal.marker +
                            6 * (animal.result ? *animal.result + 1 : 0);
    if (known_.size() <= key) known_.resize(key + 1);
    if (known_[key]) return *known_[key];
    const double marker[2][3] = {{0.8, 0.15, 0.05}, {0.3, 0.35, 0.35}};
    std::vector<double> table;
    for (std::size_t g = 0; g < 3; ++g) {
      const bool shows = (g == 2) == (animal.copies == 2);
      double p = shows ? marker[g == 1 ? 1 : 0][animal.marker] : 0.0;
      if (animal.result) p *= g == *animal.result ? 0.985 : 0.0075;
      table.push_back(p);
    }
    known_[key] = network_.add_table(table);
    return *known_[key];
  }

  const std::vector<PedigreeAnimal>& animals_;
  Network network_;
  std::vector<std::optional<Table>> known_;
};

// The share of pairings between relatives.
double related_of(const benchmark::State& state) {
  return static_cast<double>(state.range(1)) / 100;
}

void describe(benchmark::State& state, const std::vector<PedigreeAnimal>& animals) {
  state.counters["animals"] = static_cast<double>(animals.size());
  state.counters["loops"] = static_cast<double>(loops(animals));
  state.counters["ns_per_animal"] = benchmark::Counter(
      static_cast<double>(animals.size()) * 1e-9,
      benchmark::Counter::kIsIterationInvariantRate | benchmark::Counter::kInvert);
}

void planning_and_one_pass(benchmark::State& state) {
  const auto animals = pedigree(static_cast<std::size_t>(state.range(0)), related_of(state), 753);
  for (auto _ : state) {
    const Network network = Builder(animals).take();
    auto plan = inference::Plan::make(network, std::size_t{2} << 30U);
    benchmark::DoNotOptimize(
        inference::infer(std::get<inference::Plan>(plan), network.values()).log_evidence);
  }
  describe(state, animals);
}

void one_pass(benchmark::State& state) {
  const auto animals = pedigree(static_cast<std::size_t>(state.range(0)), related_of(state), 753);
  const Network network = Builder(animals).take();
  auto made = inference::Plan::make(network, std::size_t{2} << 30U);
  const auto& plan = std::get<inference::Plan>(made);
  inference::Runner<double> runner(plan);
  for (auto _ : state) {
    if (!runner.run(network.values())) {
      state.SkipWithError("in doubt");
      break;
    }
    benchmark::DoNotOptimize(runner.pass().total());
  }
  describe(state, animals);
  state.counters["largest_clique"] = static_cast<double>(plan.largest_clique());
}

// The younger half of each line without records, upwards alone and whole: of them only those enter
// the tree whose offspring are on record.
void half_seen(benchmark::State& state, bool down) {
  const auto animals = pedigree(static_cast<std::size_t>(state.range(0)), related_of(state), 753);
  const Network network = Builder(animals, line_size / 2).take();
  auto made = inference::Plan::make(network, std::size_t{2} << 30U);
  const auto& plan = std::get<inference::Plan>(made);
  inference::Runner<double> runner(plan);
  inference::Pass<double> pass(plan);
  for (auto _ : state) {
    down ? void(runner.run(network.values())) : pass.collect(network.values());
    benchmark::DoNotOptimize(down ? runner.pass().total() : pass.total());
  }
  describe(state, animals);
  state.counters["barren"] = static_cast<double>(plan.barren().order.size());
}

// Eight sets of numbers side by side; ns_per_animal is for one of them.
void run_eight(benchmark::State& state, const inference::Loops<inference::Lanes<8>>& loops) {
  const auto animals = pedigree(static_cast<std::size_t>(state.range(0)), related_of(state), 753);
  const Network network = Builder(animals).take();
  auto made = inference::Plan::make(network, std::size_t{2} << 30U);
  const auto& plan = std::get<inference::Plan>(made);
  std::vector<inference::Lanes<8>> values;
  for (double value : network.values()) values.emplace_back(value);
  inference::Runner<inference::Lanes<8>> runner(plan, loops);
  for (auto _ : state) {
    if (!runner.run(values)) {
      state.SkipWithError("in doubt");
      break;
    }
    benchmark::DoNotOptimize(runner.pass().total());
  }
  describe(state, animals);
  state.counters["ns_per_animal"] = benchmark::Counter(
      8 * static_cast<double>(animals.size()) * 1e-9,
      benchmark::Counter::kIsIterationInvariantRate | benchmark::Counter::kInvert);
}

void pass_of_eight(benchmark::State& state) {
  run_eight(state, inference::loops<inference::Lanes<8>>());
}

// The same on instructions that need not be the widest.
void pass_of_eight_on(benchmark::State& state, inference::Instructions instructions) {
  if (!inference::can_run(instructions)) return state.SkipWithError("not on this processor");
  run_eight(state, inference::lane_loops(instructions));
}

void sizes(benchmark::internal::Benchmark* benchmark) {
  benchmark->ArgNames({"animals", "related_percent"});
  for (int related : {0, 10}) {
    for (int animals : {200, 2000, 20000, 200000}) benchmark->Args({animals, related});
  }
  benchmark->Args({2000, 6});
  benchmark->Unit(benchmark::kMillisecond);
}

BENCHMARK(planning_and_one_pass)->Apply(sizes);
BENCHMARK(one_pass)->Apply(sizes);
BENCHMARK(pass_of_eight)->Apply(sizes);
BENCHMARK_CAPTURE(half_seen, up, false)->Apply(sizes);
BENCHMARK_CAPTURE(half_seen, up_and_down, true)->Apply(sizes);
BENCHMARK_CAPTURE(pass_of_eight_on, portable, inference::Instructions::portable)->Apply(sizes);
BENCHMARK_CAPTURE(pass_of_eight_on, avx2, inference::Instructions::avx2)->Apply(sizes);

}  // namespace
}  // namespace likelihet::bench
