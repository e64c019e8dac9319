// What a pair of known genotypes gives: Mendel and survival at one locus, by the offspring's sex.
#pragma once

#include <cstddef>
#include <vector>

#include <likelihet/genetics/locus.hpp>
#include <likelihet/genetics/mendel.hpp>

namespace likelihet::planning {

/// Both sexes, in the order of arrays over them.
inline constexpr genetics::Sex both_sexes[] = {genetics::Sex::female, genetics::Sex::male};

/// Survival is in the units of the model's `viability`: relative, so only ratios mean anything.
class LocusOffspring {
 public:
  /// The locus must outlive it.
  explicit LocusOffspring(const genetics::Locus& locus);

  [[nodiscard]] const genetics::Locus& locus() const { return *locus_; }
  /// P(an offspring of this sex has the genotype) times its viability; 0 where a parent's genotype
  /// is not of its own sex.
  [[nodiscard]] double weight(std::size_t dam, std::size_t sire, genetics::Sex sex,
                              std::size_t genotype) const;
  /// The sum of weight() over genotypes.
  [[nodiscard]] double alive(std::size_t dam, std::size_t sire, genetics::Sex sex) const;
  /// P(an egg has the genotype), before survival; both sexes together.
  [[nodiscard]] double laid(std::size_t dam, std::size_t sire, std::size_t genotype) const {
    return mendel_(dam, sire, genotype);
  }
  /// The share of eggs lost at this locus, against a clutch of nothing but its most viable
  /// genotype; in [0, 1].
  [[nodiscard]] double lost(std::size_t dam, std::size_t sire) const;

 private:
  const genetics::Locus* locus_;
  genetics::Mendel mendel_;
  double most_viable_ = 0;
};

/// Loci at which a pair's offspring must be looked at together: all on the sex chromosome where
/// viability matters at any of them (each then shifts the sex ratio, and so the others), else each
/// locus alone. The locus asked for stands first.
std::vector<std::size_t> together_with(const std::vector<genetics::Locus>& loci, std::size_t locus);

}  // namespace likelihet::planning
