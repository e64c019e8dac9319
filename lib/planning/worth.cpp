// Kept or sold, whichever is more.
#include <algorithm>

#include <likelihet/planning/worth.hpp>

namespace likelihet::planning {

Worth::Worth(const colony::Policy& policy, const colony::Model& model)
    : loci_(model.loci().size()), given_(!policy.worth.empty()) {
  for (const colony::WorthPolicy& worth : policy.worth) {
    const std::size_t l = model.find_locus(worth.locus).value();
    AtLocus& at = loci_[l].emplace();
    at.kept.assign(model.loci()[l].size(), 0.0);
    for (const auto& [key, value] : worth.kept) {
      at.kept[model.loci()[l].find(key).value()] = value;
    }
    at.sold = worth.sold;
  }
}

double Worth::of(std::size_t locus, std::span<const double> genotypes) const {
  if (!loci_[locus]) return 0;
  double kept = 0;
  for (std::size_t g = 0; g < genotypes.size(); ++g) kept += genotypes[g] * loci_[locus]->kept[g];
  return std::max(kept, loci_[locus]->sold);
}

}  // namespace likelihet::planning
