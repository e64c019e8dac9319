// How many copies of an allele, from the chances of genotypes.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include <likelihet/genetics/locus.hpp>

namespace likelihet::genetics {

/// What is left to 1, or to 0, below which a probability counts as certain: what adding up exact
/// probabilities can lose.
inline constexpr double rounding_error = 1e-12;

/// Chances of no copy, of exactly one, and of two. On a sex chromosome the sex with one chromosome
/// has none or one. Each is summed by itself, so that what is left of 1 keeps its digits.
struct CopyChances {
  double none = 0;
  double one = 0;
  double two = 0;
  double not_one = 0;  ///< none or two

  [[nodiscard]] bool certainly_none() const { return one + two <= rounding_error; }
  [[nodiscard]] bool certainly_one() const { return none + two <= rounding_error; }
  [[nodiscard]] bool certainly_two() const { return none + one <= rounding_error; }
  [[nodiscard]] bool certainly_some() const { return none <= rounding_error; }
  /// One of the first three: nothing more can be learned.
  [[nodiscard]] bool settled() const {
    return certainly_none() || certainly_one() || certainly_two();
  }
};

/// `odds` over the locus's genotypes, in state order, summing to 1 but for rounding; no chance is
/// above 1.
CopyChances copy_chances(const Locus& locus, std::span<const double> odds, std::uint16_t allele);

/// By appearance: whether it proves two copies. Neither two first alleles nor one copy beside the
/// first ever show it, and two copies may. A visual's look (Looks) may prove less: one copy where
/// that is to be seen, nothing for sure where looks overlap.
std::vector<bool> proves_two(const Locus& locus, std::uint16_t allele);

/// Whether an animal of this sex has one chromosome only, so that it can't be het.
bool has_one_chromosome(const Locus& locus, const std::optional<Sex>& sex);

}  // namespace likelihet::genetics
