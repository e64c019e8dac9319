// How closely animals are related by descent alone: coefficients of kinship and inbreeding.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include <likelihet/colony/colony.hpp>

namespace likelihet::planning {

/// Coefficients of kinship among some animals and all their recorded ancestors: the chance that an
/// allele drawn from each of the two is the same by descent. By the tabular method, parents before
/// offspring (Emik and Terrill 1949, Journal of Heredity 40:51; Henderson 1976, Biometrics 32:69,
/// from memory): on an autosome
///   k(i, j) = (k(dam, j) + k(sire, j)) / 2 for a j that is no descendant of i,
///   k(i, i) = (1 + k(dam, sire)) / 2, and 1/2 for a founder.
/// On a sex chromosome the sex with one copy has it from its parent of the other sex: k(i, j) =
/// k(that parent, j) and k(i, i) = 1; the other sex is as on an autosome (the rules that the manual
/// of the R package kinship2 gives for the X chromosome, turned round for Z; Sinnwell, Therneau and
/// Schaid 2014, Human Heredity 78:91, from memory).
///
/// Founders, and parents that nobody named (one for the whole clutch), are unrelated to all others.
/// A sire in doubt makes these the expected coefficients, exactly: with `single` paternity the
/// clutch has one sire, which is each candidate by its share; with `mixed` each hatchling has its
/// own. Shares are those of the pedigree: results and looks do not change them. An animal of
/// unknown sex is either sex with 1/2, which matters on a sex chromosome alone.
class Kinship {
 public:
  /// Numbers it will hold for these animals: square of the animals and their ancestors.
  static double numbers(const colony::Colony& colony, std::span<const std::size_t> animals);

  /// Time and memory grow with numbers().
  Kinship(const colony::Colony& colony, std::span<const std::size_t> animals,
          genetics::Chromosome chromosome = genetics::Chromosome::autosome);

  /// In [0, 1], symmetric. Both must be among the animals or their ancestors.
  [[nodiscard]] double between(std::size_t one, std::size_t other) const {
    return at(row_[one], row_[other]);
  }
  /// Coefficient of inbreeding of an animal: the chance that its two alleles are the same by
  /// descent, 2 k(i, i) - 1. On a sex chromosome it means nothing for the sex with one copy.
  [[nodiscard]] double inbreeding(std::size_t animal) const {
    return 2 * between(animal, animal) - 1;
  }

 private:
  // A parent in the table, or a mixture of candidates for one.
  struct Person;
  [[nodiscard]] double at(std::size_t one, std::size_t other) const {
    return table_[one * size_ + other];
  }
  void fill(const std::vector<Person>& people);

  std::vector<std::size_t> row_;  // by animal; SIZE_MAX outside
  std::size_t size_ = 0;
  std::vector<double> table_;
};

/// Coefficient of inbreeding that the offspring of these two would have: their kinship. Looks at
/// their ancestors alone.
double inbreeding_of_offspring(const colony::Colony& colony, std::size_t dam, std::size_t sire);

}  // namespace likelihet::planning
