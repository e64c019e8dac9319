// A locus: its alleles, its genotypes in the one order used everywhere, what each looks like.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <likelihet/genetics/genotype.hpp>

namespace likelihet::genetics {

/// State order (docs/model.md): the two-copy genotypes first, `a/b` with a <= b in lexicographic
/// order of allele numbers (for two alleles `+/+`, `+/e`, `e/e`); on a sex chromosome the one-copy
/// genotypes follow (`+/W`, `e/W`). Every table over genotypes uses this order.
class Locus {
 public:
  /// `appearance[g][s]` is P(shows appearances[s] | genotype g), each row summing to 1 within 1e-9;
  /// `viability[g]` the relative chance of genotype g to be alive when recorded (>= 0).
  struct Parts {
    std::string id;
    Chromosome chromosome = Chromosome::autosome;
    std::vector<std::string> alleles;
    std::vector<std::string> appearances;
    std::vector<std::vector<double>> appearance;
    std::vector<double> viability;
    std::string caution;
  };

  /// Throws std::invalid_argument if there are fewer than two alleles, a table has the wrong shape,
  /// or a number is out of its range. Documents are checked before (colony/model.hpp).
  explicit Locus(Parts parts);

  /// The genotypes of a locus with so many alleles, in state order.
  static std::vector<Genotype> genotypes_of(std::size_t alleles, Chromosome chromosome);

  /// The key of a genotype, `+/e` or `e/W`, from allele names in declared order.
  static std::string key_of(const Genotype& genotype, const std::vector<std::string>& alleles,
                            Chromosome chromosome);

  [[nodiscard]] const std::string& id() const { return parts_.id; }
  [[nodiscard]] Chromosome chromosome() const { return parts_.chromosome; }
  [[nodiscard]] bool sex_linked() const { return parts_.chromosome != Chromosome::autosome; }
  [[nodiscard]] const std::vector<std::string>& alleles() const { return parts_.alleles; }
  [[nodiscard]] const std::vector<Genotype>& genotypes() const { return genotypes_; }
  [[nodiscard]] std::size_t size() const { return genotypes_.size(); }
  [[nodiscard]] const std::string& key(std::size_t genotype) const { return keys_[genotype]; }
  [[nodiscard]] const std::vector<std::string>& appearances() const { return parts_.appearances; }
  [[nodiscard]] const std::string& caution() const { return parts_.caution; }

  /// Number of the genotype with this key, or nothing.
  [[nodiscard]] std::optional<std::size_t> find(std::string_view key) const;
  /// Number of the allele or appearance of this name, or nothing.
  [[nodiscard]] std::optional<std::uint16_t> find_allele(std::string_view name) const;
  [[nodiscard]] std::optional<std::size_t> find_appearance(std::string_view name) const;

  /// P(shows `appearance` | `genotype`), a probability.
  [[nodiscard]] double shows(std::size_t genotype, std::size_t appearance) const {
    return parts_.appearance[genotype][appearance];
  }
  [[nodiscard]] double viability(std::size_t genotype) const { return parts_.viability[genotype]; }
  /// Whether any viability differs from 1.
  [[nodiscard]] bool viability_matters() const;
  /// Whether an animal of this sex can have the genotype (always, on an autosome).
  [[nodiscard]] bool possible(std::size_t genotype, Sex sex) const {
    return !genotypes_[genotype].sex || *genotypes_[genotype].sex == sex;
  }

 private:
  Parts parts_;
  std::vector<Genotype> genotypes_;
  std::vector<std::string> keys_;
};

}  // namespace likelihet::genetics
