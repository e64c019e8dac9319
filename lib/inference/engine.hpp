// Beliefs about everything in a network, from one set of numbers or several side by side.
#pragma once

#include <cstddef>
#include <memory>
#include <span>
#include <vector>

#include <likelihet/inference/pass.hpp>
#include <likelihet/inference/plan.hpp>

namespace likelihet::inference {

/// Marginals of all variables and leaves. `possible` is false where the numbers contradict each
/// other; then there is nothing else.
struct Beliefs {
  bool possible = false;
  double log_evidence = 0;        ///< ln Σ over all states of the product of everything, nats
  std::vector<double> variables;  ///< P(state), variable after variable
  std::vector<std::size_t> variable_begin;  ///< by variable, one more at the end
  std::vector<double> leaves;               ///< by run of alike leaves
  std::vector<std::size_t> run_begin;

  [[nodiscard]] std::span<const double> variable(Variable v) const {
    return {variables.data() + variable_begin[v], variables.data() + variable_begin[v + 1]};
  }
  [[nodiscard]] std::span<const double> run(std::uint32_t r) const {
    return {leaves.data() + run_begin[r], leaves.data() + run_begin[r + 1]};
  }
};

/// Exact beliefs. `values` has the layout of Network::values(). Runs in doubles, and again in
/// numbers without underflow where doubles were too small to trust.
Beliefs infer(const Plan& plan, std::span<const double> values);

/// ln of the whole sum alone, nats; -infinity where the numbers contradict each other.
double log_evidence(const Plan& plan, std::span<const double> values);

/// Runs sets of numbers through one plan, reusing its memory: all that infer() does, without
/// copies.
template <class Number>
class Runner {
 public:
  /// Throws std::invalid_argument if the plan is impossible().
  explicit Runner(const Plan& plan);
  /// Upwards and, where the whole is above 0 and nothing was lost, downwards. False if in doubt.
  bool run(std::span<const Number> values);
  [[nodiscard]] const Pass<Number>& pass() const { return pass_; }

 private:
  void believe_outside(std::span<const Number> values);

  const Plan* plan_;
  Pass<Number> pass_;
  std::unique_ptr<Pass<Number>> clamped_;  // only where pairs share no clique
};

extern template class Runner<double>;
extern template class Runner<Lanes<8>>;
extern template class Runner<Extended>;

}  // namespace likelihet::inference
