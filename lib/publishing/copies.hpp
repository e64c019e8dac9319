// How many copies of an allele. Private to the layer.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include <likelihet/genetics/locus.hpp>

namespace likelihet::publishing {

/// Chances of no copy, of exactly one, and of all that the animal can have where that is more than
/// one. On a sex chromosome the sex with one chromosome has none or one. Each is summed by itself,
/// so that what is left of 1 keeps its digits.
struct CopyChances {
  double none = 0;
  double one = 0;
  double two = 0;

  [[nodiscard]] bool certainly_none() const;
  [[nodiscard]] bool certainly_one() const;
  [[nodiscard]] bool certainly_two() const;
  [[nodiscard]] bool certainly_some() const;
  /// One of the first three: nothing more can be learned.
  [[nodiscard]] bool settled() const;
};

/// `odds` over the locus's genotypes, in state order.
CopyChances copy_chances(const genetics::Locus& locus, const std::vector<double>& odds,
                         std::uint16_t allele);

/// By appearance: whether it proves two copies. Neither two first alleles nor one copy beside the
/// first ever show it, and two copies may. A visual's look (genetics::Looks) may prove less: one
/// copy where that is to be seen, nothing for sure where looks overlap.
std::vector<bool> proves_two(const genetics::Locus& locus, std::uint16_t allele);

/// Whether an animal of this sex has one chromosome only, so that it can't be het.
bool has_one_chromosome(const genetics::Locus& locus, const std::optional<genetics::Sex>& sex);

}  // namespace likelihet::publishing
