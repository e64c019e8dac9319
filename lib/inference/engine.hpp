// Beliefs about everything in a network, from one set of numbers or several side by side. The door
// to the layer: a Network and a Plan go in, probabilities come out. Loops in a pedigree only make
// tables larger, as in peeling (Cannings, Thompson and Skolnick 1978, Advances in Applied
// Probability 10:26).
#pragma once

#include <cstddef>
#include <memory>
#include <span>
#include <vector>

#include <likelihet/inference/pass.hpp>
#include <likelihet/inference/plan.hpp>

namespace likelihet::inference {

/// Marginals of all variables and leaves. `possible` is false where the numbers contradict each
/// other; then there is nothing else. Owns its numbers; the plan and the values may go.
struct Beliefs {
  bool possible = false;
  /// Every factor counts as it stands, so the caller must know what the network sums to without
  /// observations.
  double log_evidence = 0;        ///< ln Σ over all states of the product of everything, nats
  std::vector<double> variables;  ///< P(state), variable after variable
  std::vector<std::size_t> variable_begin;  ///< by variable, one more at the end
  /// P(state) of a leaf's run, run after run; LeafFamilies::run_of says which run a leaf is in.
  std::vector<double> leaves;  ///< by run of alike leaves
  std::vector<std::size_t> run_begin;

  /// Over all states of the variable, those that cannot be at 0; sums to 1. Valid while the Beliefs
  /// live; undefined where they are not `possible`.
  [[nodiscard]] std::span<const double> variable(Variable v) const {
    return {variables.data() + variable_begin[v], variables.data() + variable_begin[v + 1]};
  }
  /// The same for the leaves of one run, which share a posterior.
  [[nodiscard]] std::span<const double> run(std::uint32_t r) const {
    return {leaves.data() + run_begin[r], leaves.data() + run_begin[r + 1]};
  }
};

/// Exact beliefs. `values` has the layout of Network::values(). Runs in doubles, and again in
/// numbers without underflow where doubles were too small to trust. Each call allocates its working
/// memory; Runner keeps it. Throws std::bad_alloc alone.
Beliefs infer(const Plan& plan, std::span<const double> values);

/// ln of the whole sum alone, nats; -infinity where the numbers contradict each other. One pass
/// upwards: about half the work of infer().
double log_evidence(const Plan& plan, std::span<const double> values);

/// Runs sets of numbers through one plan, reusing its memory: all that infer() does, without
/// copies. One set after the other, and not from several threads at once. The plan must outlive it.
template <class Number>
class Runner {
 public:
  /// Throws std::invalid_argument if the plan is impossible(). `loops` as for Pass.
  explicit Runner(const Plan& plan, const Loops<Number>& loops = inference::loops<Number>());
  /// Upwards and, where the whole is above 0 and nothing was lost, downwards. False if in doubt.
  /// After false no belief may be read, and the same numbers should go through infer(). Extended
  /// numbers are never in doubt; there total() tells whether the whole is 0.
  bool run(std::span<const Number> values);
  /// Beliefs of the last run() that returned true; overwritten by the next.
  [[nodiscard]] const Pass<Number>& pass() const { return pass_; }

 private:
  void believe_outside(std::span<const Number> values);
  // False where it is in doubt.
  bool believe_below();

  const Plan* plan_;
  Pass<Number> pass_;
  std::unique_ptr<Pass<Number>> clamped_;  // only where pairs share no clique
  std::unique_ptr<Runner> lower_;          // only where variables are barren
  std::vector<Number> lower_values_;
};

extern template class Runner<double>;
extern template class Runner<Lanes<8>>;
extern template class Runner<Extended>;

}  // namespace likelihet::inference
