// Which states can still be: zeros carried through the network until nothing more falls. Pedigrees
// with results that never err have many states of probability 0; leaving them out makes tables
// smaller and finds contradictions early.
#pragma once

#include <cstdint>
#include <vector>

#include <likelihet/inference/leaf_families.hpp>
#include <likelihet/inference/network.hpp>

namespace likelihet::inference {

/// The states of each variable that some supported cell of each of its factors and leaves allows,
/// given the states left to the others: arc consistency, in pedigrees genotype elimination (Lange
/// and Goradia 1987, American Journal of Human Genetics 40:250). It never removes a state of
/// positive probability; in a network with loops it may keep one of probability 0. A work list of
/// constraints, as in AC-3 (Mackworth 1977, Artificial Intelligence 8:99), but over scopes of any
/// size.
struct Domains {
  std::vector<std::vector<std::uint32_t>> of;  ///< by variable, ascending
  /// `of` is then unfinished and must not be used.
  bool impossible = false;  ///< some variable has no state left: the numbers contradict each other
};

/// `leaves` must be those of `network`. Reads the network's own numbers, and only whether they are
/// 0; another set of numbers may have more zeros, never fewer. A factor over more than 2^20 cells
/// is not searched and removes nothing.
Domains propagate(const Network& network, const LeafFamilies& leaves);

}  // namespace likelihet::inference
