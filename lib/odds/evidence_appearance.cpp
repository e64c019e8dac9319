// Penetrance, read off the locus.
#include <likelihet/odds/evidence_appearance.hpp>

namespace likelihet::odds {

std::vector<double> appearance_likelihood(const genetics::Locus& locus, std::size_t appearance) {
  std::vector<double> out(locus.size());
  for (std::size_t g = 0; g < out.size(); ++g) out[g] = locus.shows(g, appearance);
  return out;
}

}  // namespace likelihet::odds
