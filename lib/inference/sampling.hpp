// Joint states of everything, drawn from their posterior. For what no marginal tells: statements
// over several animals at once.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include <likelihet/inference/leaf_sampler.hpp>
#include <likelihet/inference/pass.hpp>
#include <likelihet/inference/random_bits.hpp>

namespace likelihet::inference {

/// One joint draw: a state of each variable and of each leaf. States are full ones, not positions
/// among those left to a variable.
struct Draw {
  std::vector<std::uint32_t> variables;
  std::vector<std::uint32_t> leaves;
};

/// Draws backwards through the tree, each variable given the ones nearer the root (forward
/// filtering, backward sampling; Koller and Friedman 2009, section 12.3.1.3 discuss exact sampling
/// from a clique tree), then barren variables forwards, each given its parents, then leaves:
/// independent draws from the exact joint posterior. The same seed gives the same draws. A variable
/// of one state left takes no random number. What does not change from draw to draw is worked out
/// once, at construction; the plan must outlive it.
class Sampler {
 public:
  explicit Sampler(const Plan& plan);

  /// One draw into memory that is used again. `pass` is one through the same plan, out of doubles
  /// or of numbers without underflow, which must have collected `values` and not distributed since,
  /// with total() > 0; nothing of distribute() is needed. `values` are its numbers as doubles.
  template <class Number>
  void draw(const Pass<Number>& pass, std::span<const double> values, RandomBits& random,
            Draw& out);

 private:
  const Plan* plan_;
  LeafSampler leaves_;
  std::vector<std::uint32_t> positions_;  // of each variable's state in its domain, of this draw
};

extern template void Sampler::draw(const Pass<double>&, std::span<const double>, RandomBits&,
                                   Draw&);
extern template void Sampler::draw(const Pass<Extended>&, std::span<const double>, RandomBits&,
                                   Draw&);

}  // namespace likelihet::inference
