// From what an animal shows to a likelihood.
#pragma once

#include <cstddef>
#include <vector>

#include <likelihet/genetics/locus.hpp>

namespace likelihet::odds {

/// P(shows | genotype) for each genotype in state order: the penetrance of the appearance.
std::vector<double> appearance_likelihood(const genetics::Locus& locus, std::size_t appearance);

}  // namespace likelihet::odds
