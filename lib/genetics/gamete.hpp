// What a parent passes on: one allele, or the partner sex chromosome. Segregation is the same at
// every locus; nothing here knows of linkage, so loci part freely.
#pragma once

#include <optional>
#include <vector>

#include <likelihet/genetics/genotype.hpp>

namespace likelihet::genetics {

/// One possible gamete. `allele` is empty where the gamete carries the partner chromosome (W or Y).
/// Its allele is a number of the locus, as in Genotype.
struct Gamete {
  std::optional<std::uint16_t> allele;
  /// In (0, 1]; the gametes of one parent sum to 1.
  double probability = 0;
};

/// The gametes of a genotype with their probabilities: each of the two chromosomes with 1/2
/// (Mendel's first law; Lange 2002, Mathematical and Statistical Methods for Genetic Analysis, 2nd
/// ed., section 2.4). One gamete where both chromosomes carry the same allele, else two. No
/// mutation, and no distortion of segregation: a parent never passes on what it does not carry.
std::vector<Gamete> gametes(const Genotype& parent);

}  // namespace likelihet::genetics
