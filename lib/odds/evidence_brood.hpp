// From counted offspring to likelihoods. A test cross: offspring that were only counted speak of
// one parent, given what the other is.
#pragma once

#include <cstddef>
#include <cstdint>
#include <utility>
#include <vector>

#include <likelihet/genetics/locus.hpp>

namespace likelihet::odds {

/// P(one offspring, alive when recorded, shows `appearance` | the animal's genotype) for each
/// genotype of the animal, with a partner of genotype `partner`. Zero where the two are of one sex.
/// Viability is that of the offspring, so lethal genotypes are not among what is counted.
std::vector<double> offspring_chance(const genetics::Locus& locus, std::size_t partner,
                                     std::size_t appearance);

/// P(this brood | genotype) as a product of tables over the genotypes: each offspring is an
/// independent draw, and thousands of them would underflow in one table, so the product is shared
/// out among as many tables as keep every positive entry above 1e-150. At least one. `offspring`
/// are (appearance, count > 0): a count of 0 beside a chance of 0 has no logarithm. The order of
/// the offspring is not part of it, so there is no multinomial coefficient; it cancels in the odds,
/// and the log evidence is without it. An empty list gives ones.
std::vector<std::vector<double>> brood_likelihood(
    const genetics::Locus& locus, std::size_t partner,
    const std::vector<std::pair<std::size_t, std::int64_t>>& offspring);

}  // namespace likelihet::odds
