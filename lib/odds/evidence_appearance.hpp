// From what an animal shows to a likelihood.
#pragma once

#include <cstddef>
#include <vector>

#include <likelihet/genetics/locus.hpp>

namespace likelihet::odds {

/// P(shows | genotype) for each genotype in state order: the penetrance of the appearance, as in
/// the likelihood of Elston and Stewart 1971, Human Heredity 21:523. In [0, 1]; over genotypes it
/// need not sum to 1.
std::vector<double> appearance_likelihood(const genetics::Locus& locus, std::size_t appearance);

}  // namespace likelihet::odds
