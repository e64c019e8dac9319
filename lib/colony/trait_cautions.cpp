// Cautions by their text.
#include <algorithm>

#include <likelihet/colony/trait_cautions.hpp>

namespace likelihet::colony {

std::vector<TraitCaution> trait_cautions(const Model& model, const std::vector<std::size_t>& loci) {
  std::vector<TraitCaution> out;
  for (const std::size_t l : loci) {
    const genetics::Locus& locus = model.loci()[l];
    if (locus.caution().empty()) continue;
    const auto same = std::find_if(out.begin(), out.end(), [&](const TraitCaution& one) {
      return one.text == locus.caution();
    });
    if (same == out.end()) {
      out.push_back({locus.id(), locus.caution()});
    } else {
      same->traits += ", " + locus.id();
    }
  }
  return out;
}

}  // namespace likelihet::colony
