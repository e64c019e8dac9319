// Which samples to send out of a large book, and which hatchlings of one clutch to keep.
#include "bench/recorded_herd.hpp"
#include <benchmark/benchmark.h>

#include <likelihet/planning/holdbacks.hpp>
#include <likelihet/planning/next_test.hpp>

namespace likelihet::bench {
namespace {

// Reports are gone through where `sampled` is 0, else drawn.
void next_test(benchmark::State& state) {
  HerdShape shape{static_cast<std::size_t>(state.range(0)), 0.1};
  shape.results = true;
  const colony::Colony colony = recorded_herd(shape);
  planning::TestQuestion question;
  question.tests = static_cast<std::size_t>(state.range(1));
  for (auto _ : state) {
    const auto outcome = planning::next_test(colony, colony::Policy{}, question);
    const auto* plan = std::get_if<planning::TestPlan>(&outcome);
    if (plan == nullptr) {
      state.SkipWithError("no plan");
      break;
    }
    state.counters["bits"] = plan->bits.value;
    state.counters["sampled"] = plan->sampled ? 1 : 0;
  }
  state.counters["animals"] = static_cast<double>(state.range(0));
}
BENCHMARK(next_test)
    ->ArgNames({"animals", "tests"})
    ->Args({200, 5})
    ->Args({2000, 5})
    ->Args({2000, 10})
    ->Args({2000, 40})
    ->Args({20000, 5})
    ->Unit(benchmark::kMillisecond)
    ->Iterations(1);

void holdbacks(benchmark::State& state) {
  const colony::Colony colony = recorded_herd(static_cast<std::size_t>(state.range(0)), 0.1);
  planning::HoldbackQuestion question;
  question.keep = 5;
  question.goal = {0, "carrier", {false, true, true}};
  for (std::size_t c = 0; c < colony.clutches().size(); ++c) {
    const auto size = [&](std::size_t clutch) {
      return colony.clutches()[clutch].hatchlings.size();
    };
    if (size(c) > size(question.clutch)) question.clutch = c;
  }
  for (auto _ : state) {
    benchmark::DoNotOptimize(planning::holdbacks(colony, question));
  }
  state.counters["animals"] = static_cast<double>(state.range(0));
  state.counters["hatchlings"] =
      static_cast<double>(colony.clutches()[question.clutch].hatchlings.size());
}
BENCHMARK(holdbacks)
    ->ArgNames({"animals"})
    ->Args({2000})
    ->Unit(benchmark::kMillisecond)
    ->Iterations(1);

}  // namespace
}  // namespace likelihet::bench
