// Mendelian weights by sex.
#include <algorithm>

#include <likelihet/planning/offspring.hpp>

namespace likelihet::planning {

LocusOffspring::LocusOffspring(const genetics::Locus& locus) : locus_(&locus), mendel_(locus) {
  for (std::size_t g = 0; g < locus.size(); ++g) {
    most_viable_ = std::max(most_viable_, locus.viability(g));
  }
}

double LocusOffspring::weight(std::size_t dam, std::size_t sire, genetics::Sex sex,
                              std::size_t genotype) const {
  if (!locus_->possible(genotype, sex)) return 0;
  // On a sex chromosome the 1/2 of the sex is in there too.
  return mendel_(dam, sire, genotype) * locus_->viability(genotype) *
         (locus_->sex_linked() ? 2.0 : 1.0);
}

double LocusOffspring::alive(std::size_t dam, std::size_t sire, genetics::Sex sex) const {
  double sum = 0;
  for (const genetics::Child& child : mendel_.children(dam, sire)) {
    sum += weight(dam, sire, sex, child.genotype);
  }
  return sum;
}

double LocusOffspring::lost(std::size_t dam, std::size_t sire) const {
  if (!locus_->viability_matters() || !(most_viable_ > 0)) return 0;
  double sum = 0;
  for (const genetics::Sex sex : both_sexes) sum += alive(dam, sire, sex) / 2;
  return std::clamp(1 - sum / most_viable_, 0.0, 1.0);
}

std::vector<std::size_t> together_with(const std::vector<genetics::Locus>& loci,
                                       std::size_t locus) {
  std::vector<std::size_t> out{locus};
  bool matters = false;
  for (const auto& l : loci) matters = matters || (l.sex_linked() && l.viability_matters());
  if (!loci[locus].sex_linked() || !matters) return out;
  for (std::size_t l = 0; l < loci.size(); ++l) {
    if (l != locus && loci[l].sex_linked()) out.push_back(l);
  }
  return out;
}

}  // namespace likelihet::planning
