// One animal's alleles at one locus. Phase is not kept: which parent an allele came from is not
// part of a genotype.
#pragma once

#include <cstdint>
#include <optional>

#include <likelihet/genetics/sex.hpp>

namespace likelihet::genetics {

/// Alleles are numbered in the order in which the locus declares them. With two copies
/// `first <= *second`; with one copy `second` is empty. `sex` is set on a sex chromosome, where the
/// genotype tells the sex, and empty on an autosome.
struct Genotype {
  std::uint16_t first = 0;
  /// Empty where the other chromosome is the partner (Y or W), which carries no allele.
  std::optional<std::uint16_t> second;
  std::optional<Sex> sex;

  /// How many copies of `allele` (0, 1 or 2). An allele number that the locus does not have gives
  /// 0.
  [[nodiscard]] unsigned copies(std::uint16_t allele) const {
    return (first == allele ? 1U : 0U) + (second && *second == allele ? 1U : 0U);
  }
  friend bool operator==(const Genotype&, const Genotype&) = default;
};

}  // namespace likelihet::genetics
