// Counting copies.
#include <algorithm>

#include <likelihet/genetics/copies.hpp>

namespace likelihet::genetics {

CopyChances copy_chances(const Locus& locus, std::span<const double> odds, std::uint16_t allele) {
  CopyChances out;
  for (std::size_t g = 0; g < odds.size(); ++g) {
    const unsigned copies = locus.genotypes()[g].copies(allele);
    (copies == 0 ? out.none : copies == 1 ? out.one : out.two) += odds[g];
    if (copies != 1) out.not_one += odds[g];
  }
  for (double* chance : {&out.none, &out.one, &out.two, &out.not_one}) {
    *chance = std::min(*chance, 1.0);
  }
  return out;
}

std::vector<bool> proves_two(const Locus& locus, std::uint16_t allele) {
  std::vector<bool> out(locus.appearances().size(), false);
  for (std::size_t g = 0; g < locus.size(); ++g) {
    const Genotype& genotype = locus.genotypes()[g];
    if (genotype.first != allele || genotype.second != allele) continue;
    for (std::size_t s = 0; s < out.size(); ++s) out[s] = locus.shows(g, s) > 0;
  }
  for (std::size_t g = 0; g < locus.size(); ++g) {
    const Genotype& genotype = locus.genotypes()[g];
    const bool none_or_one = genotype.first == 0 && genotype.second &&
                             (*genotype.second == 0 || *genotype.second == allele);
    for (std::size_t s = 0; none_or_one && s < out.size(); ++s) {
      if (locus.shows(g, s) > 0) out[s] = false;
    }
  }
  return out;
}

bool has_one_chromosome(const Locus& locus, const std::optional<Sex>& sex) {
  return locus.sex_linked() && sex && *sex != two_copy_sex(locus.chromosome());
}

}  // namespace likelihet::genetics
