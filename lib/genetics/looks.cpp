// What can be seen of an allele.
#include <algorithm>
#include <cmath>
#include <stdexcept>

#include <likelihet/genetics/locus.hpp>

namespace likelihet::genetics {

namespace {

constexpr double most_see_it = 0.5;

// The genotype of two copies, one of each allele.
std::size_t of_two(const Locus& locus, std::uint16_t first, std::uint16_t second) {
  for (std::size_t g = 0; g < locus.size(); ++g) {
    const Genotype& genotype = locus.genotypes()[g];
    if (genotype.first == first && genotype.second == second) return g;
  }
  throw std::out_of_range("the locus has no such allele");
}

// Where one copy of `other` beside the first allele gives the look, two unlike alleles owe it to
// that.
bool may_show(const Locus& locus, std::uint16_t allele, std::uint16_t other, std::size_t look) {
  const auto genotype = of_two(locus, std::min(allele, other), std::max(allele, other));
  if (!(locus.shows(genotype, look) > 0)) return false;
  return other == allele || !(locus.shows(of_two(locus, 0, other), look) > 0);
}

}  // namespace

std::size_t likeliest_appearance(const Locus& locus, std::size_t genotype) {
  std::size_t best = 0;
  for (std::size_t s = 1; s < locus.appearances().size(); ++s) {
    if (locus.shows(genotype, s) > locus.shows(genotype, best)) best = s;
  }
  return best;
}

Looks looks_of(const Locus& locus, std::uint16_t allele) {
  const std::size_t none = of_two(locus, 0, 0);
  const std::size_t one = of_two(locus, 0, allele);
  const std::size_t two = of_two(locus, allele, allele);
  const std::size_t looks = locus.appearances().size();
  Looks out;
  double distance = 0;
  for (std::size_t s = 0; s < looks; ++s) {
    distance += std::abs(locus.shows(none, s) - locus.shows(one, s)) / 2;
  }
  out.seen_in_one_copy = distance >= most_see_it;
  out.visual.assign(looks, false);
  for (std::size_t s = 0; s < looks; ++s) {
    if (locus.shows(none, s) > 0) continue;
    if (locus.shows(one, s) > 0) {
      out.visual[s] = out.seen_in_one_copy;
      continue;
    }
    for (std::size_t other = 1; other < locus.alleles().size(); ++other) {
      if (may_show(locus, allele, static_cast<std::uint16_t>(other), s)) out.visual[s] = true;
    }
  }
  const std::size_t usual = likeliest_appearance(locus, two);
  if (std::find(out.visual.begin(), out.visual.end(), true) == out.visual.end() &&
      usual != likeliest_appearance(locus, none)) {
    out.visual[usual] = true;
  }
  return out;
}

bool looks_visual(const Locus& locus, std::size_t genotype) {
  const Genotype& of = locus.genotypes()[genotype];
  const std::size_t look = likeliest_appearance(locus, genotype);
  const auto visual_of = [&](std::uint16_t allele) {
    return allele > 0 && looks_of(locus, allele).visual[look];
  };
  return visual_of(of.first) || (of.second && visual_of(*of.second));
}

}  // namespace likelihet::genetics
