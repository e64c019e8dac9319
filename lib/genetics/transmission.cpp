// The whole table from the few children of each pair.
#include <likelihet/genetics/mendel.hpp>
#include <likelihet/genetics/transmission.hpp>

namespace likelihet::genetics {

Transmission::Transmission(const Locus& locus, Survival survival)
    : size_(locus.size()), table_(size_ * size_ * size_, 0.0) {
  const Mendel mendel(locus);
  for (std::size_t dam = 0; dam < size_; ++dam) {
    for (std::size_t sire = 0; sire < size_; ++sire) {
      double* row = &table_[(dam * size_ + sire) * size_];
      if (survival == Survival::renormalised) {
        for (const Child& child : living_children(locus, mendel, dam, sire)) {
          row[child.genotype] = child.probability;
        }
        continue;
      }
      for (const Child& child : mendel.children(dam, sire)) {
        const bool dies = survival == Survival::weighted;
        row[child.genotype] = child.probability * (dies ? locus.viability(child.genotype) : 1.0);
      }
    }
  }
}

}  // namespace likelihet::genetics
