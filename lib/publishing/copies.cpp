// Counting copies.
#include "copies.hpp"

#include <algorithm>
#include <cmath>

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

Looks looks_of(const genetics::Locus& locus, std::uint16_t allele) {
  std::optional<std::size_t> clear;
  std::optional<std::size_t> het;
  std::optional<std::size_t> two;
  for (std::size_t g = 0; g < locus.size(); ++g) {
    const auto& genotype = locus.genotypes()[g];
    if (!genotype.second) continue;
    if (genotype.first == 0 && *genotype.second == 0) clear = g;
    if (genotype.first == 0 && *genotype.second == allele) het = g;
    if (genotype.first == allele && *genotype.second == allele) two = g;
  }
  Looks out;
  out.shown_by_two.assign(locus.appearances().size(), false);
  double distance = 0;
  for (std::size_t s = 0; s < out.shown_by_two.size(); ++s) {
    distance += std::abs(locus.shows(*clear, s) - locus.shows(*het, s)) / 2;
    out.shown_by_two[s] =
        locus.shows(*clear, s) == 0 && locus.shows(*het, s) == 0 && locus.shows(*two, s) > 0;
  }
  constexpr double half = 0.5;
  out.seen_in_one_copy = distance >= half;
  return out;
}

bool has_one_chromosome(const genetics::Locus& locus, const std::optional<genetics::Sex>& sex) {
  return locus.sex_linked() && sex && *sex != genetics::two_copy_sex(locus.chromosome());
}

}  // namespace likelihet::publishing
