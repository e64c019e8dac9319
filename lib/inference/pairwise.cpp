// Pair beliefs by conditioning on one of the two.
#include <cmath>
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
      const double p = second[j].exponent < -1100
                           ? 0.0
                           : std::ldexp(second[j].mantissa, static_cast<int>(second[j].exponent));
      joint[std::size_t{state} * network.states(b) + j] = first[state] * p;
    }
  }
  return joint;
}

}  // namespace likelihet::inference
