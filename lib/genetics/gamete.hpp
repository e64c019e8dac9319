// What a parent passes on: one allele, or the partner sex chromosome.
#pragma once

#include <optional>
#include <vector>

#include <likelihet/genetics/genotype.hpp>

namespace likelihet::genetics {

/// One possible gamete. `allele` is empty where the gamete carries the partner chromosome (W or Y).
struct Gamete {
  std::optional<std::uint16_t> allele;
  double probability = 0;
};

/// The gametes of a genotype with their probabilities: each of the two chromosomes with 1/2
/// (Mendel's first law; Lange 2002, Mathematical and Statistical Methods for Genetic Analysis,
/// 2nd ed., section 2.4).
std::vector<Gamete> gametes(const Genotype& parent);

}  // namespace likelihet::genetics
