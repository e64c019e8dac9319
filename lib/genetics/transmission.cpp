// Transmission tables from gametes, so that autosomes, X and Z share one path.
#include <utility>

#include <likelihet/genetics/gamete.hpp>
#include <likelihet/genetics/transmission.hpp>

namespace likelihet::genetics {

namespace {

bool can_be(const Genotype& genotype, Sex sex) {
  return !genotype.sex || *genotype.sex == sex;
}

// The child of two gametes; nothing where two partner chromosomes meet (both parents one-copy).
std::optional<Genotype> unite(const Gamete& a, const Gamete& b, const Locus& locus) {
  if (!a.allele && !b.allele) return std::nullopt;
  Genotype child;
  if (a.allele && b.allele) {
    child.first = std::min(*a.allele, *b.allele);
    child.second = std::max(*a.allele, *b.allele);
  } else {
    child.first = a.allele ? *a.allele : *b.allele;
  }
  if (locus.sex_linked()) {
    const Sex two_copies = two_copy_sex(locus.chromosome());
    child.sex = child.second ? two_copies : other_sex(two_copies);
  }
  return child;
}

std::size_t number_of(const Genotype& genotype, const Locus& locus) {
  std::size_t g = 0;
  while (!(locus.genotypes()[g] == genotype)) ++g;
  return g;
}

}  // namespace

Transmission::Transmission(const Locus& locus, Survival survival)
    : size_(locus.size()), table_(size_ * size_ * size_, 0.0) {
  for (std::size_t dam = 0; dam < size_; ++dam) {
    for (std::size_t sire = 0; sire < size_; ++sire) {
      const Genotype& mother = locus.genotypes()[dam];
      const Genotype& father = locus.genotypes()[sire];
      if (!can_be(mother, Sex::female) || !can_be(father, Sex::male)) continue;
      double* row = &table_[(dam * size_ + sire) * size_];
      for (const Gamete& egg : gametes(mother)) {
        for (const Gamete& sperm : gametes(father)) {
          if (const auto child = unite(egg, sperm, locus)) {
            row[number_of(*child, locus)] += egg.probability * sperm.probability;
          }
        }
      }
      if (survival == Survival::ignored) continue;
      double alive = 0;
      for (std::size_t child = 0; child < size_; ++child) {
        row[child] *= locus.viability(child);
        alive += row[child];
      }
      if (survival == Survival::weighted || alive <= 0) continue;
      for (std::size_t child = 0; child < size_; ++child) row[child] /= alive;
    }
  }
}

}  // namespace likelihet::genetics
