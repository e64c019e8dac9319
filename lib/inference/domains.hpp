// Which states can still be: zeros carried through the network until nothing more falls.
#pragma once

#include <cstdint>
#include <vector>

#include <likelihet/inference/leaf_families.hpp>
#include <likelihet/inference/network.hpp>

namespace likelihet::inference {

/// The states of each variable that some supported cell of each of its factors and leaves allows,
/// given the states left to the others: arc consistency, in pedigrees genotype elimination (Lange
/// and Goradia 1987, American Journal of Human Genetics 40:250). It never removes a state of
/// positive probability; in a network with loops it may keep one of probability 0.
struct Domains {
  std::vector<std::vector<std::uint32_t>> of;  ///< by variable, ascending
  bool impossible = false;  ///< some variable has no state left: the numbers contradict each other
};

Domains propagate(const Network& network, const LeafFamilies& leaves);

}  // namespace likelihet::inference
