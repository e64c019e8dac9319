// Genotype order, keys and lookups of a locus.
#include <cmath>
#include <stdexcept>

#include <likelihet/genetics/locus.hpp>

namespace likelihet::genetics {

namespace {

template <class Container>
std::optional<std::size_t> position(const Container& names, std::string_view name) {
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (names[i] == name) return i;
  }
  return std::nullopt;
}

void require(bool condition, const char* what) {
  if (!condition) throw std::invalid_argument(what);
}

}  // namespace

std::vector<Genotype> Locus::genotypes_of(std::size_t alleles, Chromosome chromosome) {
  const bool sex_linked = chromosome != Chromosome::autosome;
  std::vector<Genotype> genotypes;
  for (std::size_t a = 0; a < alleles; ++a) {
    for (std::size_t b = a; b < alleles; ++b) {
      Genotype pair{static_cast<std::uint16_t>(a), static_cast<std::uint16_t>(b), std::nullopt};
      if (sex_linked) pair.sex = two_copy_sex(chromosome);
      genotypes.push_back(pair);
    }
  }
  for (std::size_t a = 0; sex_linked && a < alleles; ++a) {
    genotypes.push_back(
        {static_cast<std::uint16_t>(a), std::nullopt, other_sex(two_copy_sex(chromosome))});
  }
  return genotypes;
}

std::string Locus::key_of(const Genotype& genotype, const std::vector<std::string>& alleles,
                          Chromosome chromosome) {
  std::string key = alleles[genotype.first] + '/';
  if (genotype.second) return key + alleles[*genotype.second];
  return key + partner_letter(chromosome);
}

Locus::Locus(Parts parts) : parts_(std::move(parts)) {
  require(parts_.alleles.size() >= 2, "a locus has two or more alleles");
  genotypes_ = genotypes_of(parts_.alleles.size(), parts_.chromosome);
  for (const Genotype& genotype : genotypes_) {
    keys_.push_back(key_of(genotype, parts_.alleles, parts_.chromosome));
  }
  require(parts_.appearance.size() == genotypes_.size(), "one appearance row a genotype");
  require(parts_.viability.size() == genotypes_.size(), "one viability a genotype");
  for (const auto& row : parts_.appearance) {
    require(row.size() == parts_.appearances.size(), "one probability an appearance");
    double total = 0;
    for (double p : row) {
      require(p >= 0 && p <= 1 + 1e-9, "appearance probabilities lie in [0, 1]");
      total += p;
    }
    require(std::abs(total - 1) <= 1e-9, "an appearance row sums to 1");
  }
  for (double v : parts_.viability) require(std::isfinite(v) && v >= 0, "viability is 0 or more");
}

std::optional<std::size_t> Locus::find(std::string_view key) const {
  return position(keys_, key);
}

std::optional<std::uint16_t> Locus::find_allele(std::string_view name) const {
  const auto found = position(parts_.alleles, name);
  if (!found) return std::nullopt;
  return static_cast<std::uint16_t>(*found);
}

std::optional<std::size_t> Locus::find_appearance(std::string_view name) const {
  return position(parts_.appearances, name);
}

bool Locus::viability_matters() const {
  for (double v : parts_.viability) {
    if (v != 1.0) return true;
  }
  return false;
}

}  // namespace likelihet::genetics
