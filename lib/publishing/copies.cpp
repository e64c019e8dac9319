// Counting copies.
#include "copies.hpp"

#include <algorithm>

#include "rounding.hpp"

namespace likelihet::publishing {

bool CopyChances::certainly_none() const {
  return one + two <= rounding_error;
}
bool CopyChances::certainly_one() const {
  return none + two <= rounding_error;
}
bool CopyChances::certainly_two() const {
  return none + one <= rounding_error;
}
bool CopyChances::certainly_some() const {
  return none <= rounding_error;
}

bool CopyChances::settled() const {
  return certainly_none() || certainly_one() || certainly_two();
}

CopyChances copy_chances(const genetics::Locus& locus, const std::vector<double>& odds,
                         std::uint16_t allele) {
  CopyChances out;
  for (std::size_t g = 0; g < odds.size(); ++g) {
    const unsigned copies = locus.genotypes()[g].copies(allele);
    (copies == 0 ? out.none : copies == 1 ? out.one : out.two) += odds[g];
  }
  out.none = std::min(out.none, 1.0);
  out.one = std::min(out.one, 1.0);
  out.two = std::min(out.two, 1.0);
  return out;
}

std::vector<bool> proves_two(const genetics::Locus& locus, std::uint16_t allele) {
  std::vector<bool> out(locus.appearances().size(), false);
  for (std::size_t g = 0; g < locus.size(); ++g) {
    const genetics::Genotype& genotype = locus.genotypes()[g];
    if (genotype.first != allele || genotype.second != allele) continue;
    for (std::size_t s = 0; s < out.size(); ++s) out[s] = locus.shows(g, s) > 0;
  }
  for (std::size_t g = 0; g < locus.size(); ++g) {
    const genetics::Genotype& genotype = locus.genotypes()[g];
    const bool none_or_one = genotype.first == 0 && genotype.second &&
                             (*genotype.second == 0 || *genotype.second == allele);
    for (std::size_t s = 0; none_or_one && s < out.size(); ++s) {
      if (locus.shows(g, s) > 0) out[s] = false;
    }
  }
  return out;
}

bool has_one_chromosome(const genetics::Locus& locus, const std::optional<genetics::Sex>& sex) {
  return locus.sex_linked() && sex && *sex != genetics::two_copy_sex(locus.chromosome());
}

}  // namespace likelihet::publishing
