// P(child's genotype | both parents' genotypes) before survival, as lists of the few children that
// a pair can have: at most four of however many genotypes there are.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include <likelihet/genetics/locus.hpp>

namespace likelihet::genetics {

/// A genotype that a pair's child may have.
struct Child {
  std::uint32_t genotype = 0;  ///< number of the locus
  double probability = 0;      ///< before survival, in (0, 1]
};

/// The children of every pair, from the gametes of both parents (Elston and Stewart 1971, Human
/// Heredity 21:523). On a sex chromosome the child's sex is part of its genotype, each sex 1/2, and
/// a parent of the wrong sex has none. Memory grows with the square of the genotypes, where a whole
/// table (transmission.hpp) takes the cube.
class Mendel {
 public:
  /// The locus is only read; it need not outlive this.
  explicit Mendel(const Locus& locus);

  /// Ascending genotypes; their probabilities sum to 1 where there are any.
  [[nodiscard]] std::span<const Child> children(std::size_t dam, std::size_t sire) const {
    const std::size_t pair = dam * size_ + sire;
    return {children_.data() + ends_[pair], children_.data() + ends_[pair + 1]};
  }
  /// P(child | dam, sire).
  [[nodiscard]] double operator()(std::size_t dam, std::size_t sire, std::size_t child) const;

 private:
  std::size_t size_;
  std::vector<Child> children_;
  std::vector<std::size_t> ends_{0};  // by pair, from 0
};

/// The children of a pair that are alive when recorded: times viability, renormalised over
/// genotypes and both sexes. None where no child can be alive.
std::vector<Child> living_children(const Locus& locus, const Mendel& mendel, std::size_t dam,
                                   std::size_t sire);

}  // namespace likelihet::genetics
