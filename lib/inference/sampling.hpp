// Joint states of everything, drawn from their posterior. For what no marginal tells: statements
// over several animals at once.
#pragma once

#include <cstdint>
#include <random>
#include <span>
#include <vector>

#include <likelihet/inference/pass.hpp>

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
/// independent draws from the exact joint posterior. `pass` must have
/// collected `values` and not distributed since, with total() > 0. Needs nothing from distribute().
/// The same seed gives the same draw with one standard library; std::uniform_real_distribution may
/// differ between two. A variable of one state left takes no random number.
Draw sample(const Plan& plan, const Pass<double>& pass, std::span<const double> values,
            std::mt19937_64& random);

/// The same into a draw whose memory is used again, out of doubles or of numbers without underflow.
/// `values` are the numbers of the pass as doubles.
template <class Number>
void sample(const Plan& plan, const Pass<Number>& pass, std::span<const double> values,
            std::mt19937_64& random, Draw& draw);

extern template void sample(const Plan&, const Pass<double>&, std::span<const double>,
                            std::mt19937_64&, Draw&);
extern template void sample(const Plan&, const Pass<Extended>&, std::span<const double>,
                            std::mt19937_64&, Draw&);

}  // namespace likelihet::inference
