// Random loci for properties: any number of alleles, any chromosome, any viability.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include <rapidcheck.h>

#include <likelihet/genetics/locus.hpp>

namespace likelihet::support {

/// A locus with alleles "a0", "a1", ..., one appearance, and the viability given (1 if empty).
inline genetics::Locus plain_locus(std::size_t alleles, genetics::Chromosome chromosome,
                                   std::vector<double> viability = {}) {
  const std::size_t size = genetics::Locus::genotypes_of(alleles, chromosome).size();
  genetics::Locus::Parts parts;
  parts.id = "locus";
  parts.chromosome = chromosome;
  for (std::size_t a = 0; a < alleles; ++a) parts.alleles.push_back("a" + std::to_string(a));
  parts.appearances = {"plain"};
  parts.appearance.assign(size, {1.0});
  parts.viability = viability.empty() ? std::vector<double>(size, 1.0) : std::move(viability);
  return genetics::Locus(std::move(parts));
}

/// Two to four alleles on any chromosome; viabilities are multiples of 1/4 from 0 to 2.
inline genetics::Locus random_locus() {
  const auto alleles = *rc::gen::inRange<std::size_t>(2, 5);
  const auto chromosome = *rc::gen::element(genetics::Chromosome::autosome, genetics::Chromosome::x,
                                            genetics::Chromosome::z);
  const std::size_t size = genetics::Locus::genotypes_of(alleles, chromosome).size();
  std::vector<double> viability;
  for (const int quarters : *rc::gen::container<std::vector<int>>(size, rc::gen::inRange(0, 9))) {
    viability.push_back(quarters / 4.0);
  }
  return plain_locus(alleles, chromosome, viability);
}

/// Allele frequencies that sum to 1.
inline std::vector<double> random_frequencies(std::size_t alleles) {
  const auto parts = *rc::gen::container<std::vector<int>>(alleles, rc::gen::inRange(0, 1000));
  double total = 1;
  for (const int part : parts) total += part;
  std::vector<double> frequencies;
  for (const int part : parts) frequencies.push_back(part / total);
  frequencies[0] += 1 / total;
  return frequencies;
}

}  // namespace likelihet::support
