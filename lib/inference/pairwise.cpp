// Pair beliefs by conditioning on one of the two.
#include <cstdint>
#include <stdexcept>

#include <likelihet/inference/engine.hpp>
#include <likelihet/inference/pairwise.hpp>

namespace likelihet::inference {

std::vector<double> pair_belief(const Plan& plan, std::span<const double> values, Variable a,
                                Variable b) {
  if (a == b) throw std::invalid_argument("a pair is two variables");
  const Beliefs beliefs = infer(plan, values);
  if (!beliefs.possible) return {};
  const Network& network = plan.network();
  if (plan.barren().variable[a] || plan.barren().variable[b]) {
    Network informed = network;
    std::vector<double> numbers(values.begin(), values.end());
    for (Variable v : {a, b}) {
      const std::vector<double> ones(network.states(v), 1.0);
      informed.add_factor(std::span(&v, 1), informed.add_table(ones));
      numbers.insert(numbers.end(), ones.begin(), ones.end());
    }
    const auto made = Plan::make(informed, SIZE_MAX);
    if (!std::holds_alternative<Plan>(made)) throw std::length_error("no table can hold this");
    return pair_belief(std::get<Plan>(made), numbers, a, b);
  }
  std::vector<double> joint(std::size_t{network.states(a)} * network.states(b), 0.0);
  const auto first = beliefs.variable(a);
  const auto bucket = plan.bucket_of(a);
  std::vector<Extended> wide;
  for (double value : values) wide.emplace_back(value);
  for (std::uint32_t i = 0; i < plan.domain(a).size(); ++i) {
    const std::uint32_t state = plan.domain(a)[i];
    if (!(first[state] > 0)) continue;
    // Held in a state of small probability the rest may be smaller than doubles reach.
    Pass<Extended> pass(plan);
    pass.collect(wide, bucket ? std::optional(Clamp{*bucket, i}) : std::nullopt);
    pass.distribute();
    std::vector<Extended> second(network.states(b));
    pass.marginal(b, second);
    for (std::uint32_t j = 0; j < network.states(b); ++j) {
      joint[std::size_t{state} * network.states(b) + j] = first[state] * as_double(second[j]);
    }
  }
  return joint;
}

}  // namespace likelihet::inference
