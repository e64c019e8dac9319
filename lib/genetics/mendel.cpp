// Children from gametes, so that autosomes, X and Z share one path.
#include <algorithm>
#include <optional>

#include <likelihet/genetics/gamete.hpp>
#include <likelihet/genetics/mendel.hpp>

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

std::uint32_t number_of(const Genotype& genotype, const Locus& locus) {
  std::uint32_t g = 0;
  while (!(locus.genotypes()[g] == genotype)) ++g;
  return g;
}

std::vector<Child> children_of(const Locus& locus, const Genotype& mother, const Genotype& father) {
  std::vector<Child> out;
  if (!can_be(mother, Sex::female) || !can_be(father, Sex::male)) return out;
  for (const Gamete& egg : gametes(mother)) {
    for (const Gamete& sperm : gametes(father)) {
      const auto child = unite(egg, sperm, locus);
      if (!child) continue;
      const Child made{number_of(*child, locus), egg.probability * sperm.probability};
      const auto same = std::find_if(
          out.begin(), out.end(), [&](const Child& one) { return one.genotype == made.genotype; });
      if (same == out.end()) {
        out.push_back(made);
      } else {
        same->probability += made.probability;
      }
    }
  }
  std::sort(out.begin(), out.end(),
            [](const Child& a, const Child& b) { return a.genotype < b.genotype; });
  return out;
}

}  // namespace

Mendel::Mendel(const Locus& locus) : size_(locus.size()) {
  ends_.reserve(size_ * size_ + 1);
  for (std::size_t dam = 0; dam < size_; ++dam) {
    for (std::size_t sire = 0; sire < size_; ++sire) {
      const auto children = children_of(locus, locus.genotypes()[dam], locus.genotypes()[sire]);
      children_.insert(children_.end(), children.begin(), children.end());
      ends_.push_back(children_.size());
    }
  }
}

double Mendel::operator()(std::size_t dam, std::size_t sire, std::size_t child) const {
  for (const Child& one : children(dam, sire)) {
    if (one.genotype == child) return one.probability;
  }
  return 0;
}

std::vector<Child> living_children(const Locus& locus, const Mendel& mendel, std::size_t dam,
                                   std::size_t sire) {
  const auto all = mendel.children(dam, sire);
  std::vector<Child> out(all.begin(), all.end());
  double alive = 0;
  for (Child& child : out) {
    child.probability *= locus.viability(child.genotype);
    alive += child.probability;
  }
  if (!(alive > 0)) return {};
  for (Child& child : out) child.probability /= alive;
  return out;
}

}  // namespace likelihet::genetics
