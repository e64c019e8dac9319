// P(child's genotype | both parents' genotypes) at one locus. The second of the two tables that a
// pedigree is computed from; founder.hpp has the first.
#pragma once

#include <cstddef>
#include <vector>

#include <likelihet/genetics/locus.hpp>

namespace likelihet::genetics {

/// How viability enters a transmission table.
enum class Survival {
  ignored,       ///< Mendelian probabilities alone
  weighted,      ///< times viability, not renormalised
  renormalised,  ///< times viability, renormalised over genotypes (and both sexes): odds among the
                 ///< animals that are alive when recorded
};

/// A table T[dam, sire, child] over the locus's genotypes in state order, child fastest. On a sex
/// chromosome a parent of the wrong sex gives zeros, and the child's sex is part of its genotype
/// (each sex 1/2 before viability). Where no child can be alive, `renormalised` gives zeros: such
/// parents cannot have the hatchling that is recorded. The transmission probabilities of Elston and
/// Stewart 1971, Human Heredity 21:523, from the gametes of both parents.
///
/// A row (dam, sire) sums to 1 with `ignored`, and with `renormalised` wherever a child can be
/// alive; with `weighted` it sums to the chance that a child is alive. Size cubed numbers, made in
/// O(size³): 27 for two alleles on an autosome.
class Transmission {
 public:
  /// The locus is only read; it need not outlive the table.
  Transmission(const Locus& locus, Survival survival);

  /// Genotypes of the locus, the extent of each of the three dimensions.
  [[nodiscard]] std::size_t size() const { return size_; }
  /// P(child | dam, sire), or its weighted form.
  [[nodiscard]] double operator()(std::size_t dam, std::size_t sire, std::size_t child) const {
    return table_[(dam * size_ + sire) * size_ + child];
  }
  /// All entries, child fastest, then sire, then dam.
  [[nodiscard]] const std::vector<double>& table() const { return table_; }

 private:
  std::size_t size_;
  std::vector<double> table_;
};

}  // namespace likelihet::genetics
