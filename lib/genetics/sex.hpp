// Sexes, and which of them carries two different sex chromosomes.
#pragma once

#include <cstdint>

namespace likelihet::genetics {

/// Unknown is not a sex: where it may be unknown, std::optional<Sex> says so.
enum class Sex : std::uint8_t { female, male };

/// How a species settles sex. `none`: no sex chromosomes are known or used, so no locus may sit on
/// one. Never inferred from a family: turnover between XY and ZW is common among snakes
/// (Gamble et al. 2017, Current Biology 27:2148).
enum class SexSystem : std::uint8_t { none, xy, zw };

/// Where a locus sits. `x` needs SexSystem::xy, `z` needs SexSystem::zw.
enum class Chromosome : std::uint8_t { autosome, x, z };

/// The sex with two copies of a locus on the sex chromosome: female for X, male for Z. On an
/// autosome the answer (female) means nothing: both sexes have two copies.
constexpr Sex two_copy_sex(Chromosome chromosome) {
  return chromosome == Chromosome::z ? Sex::male : Sex::female;
}

/// Of a parent of this sex, the sex that the other parent must have.
constexpr Sex other_sex(Sex sex) {
  return sex == Sex::female ? Sex::male : Sex::female;
}

/// The letter that stands for the partner chromosome in a genotype key: `Y` for X, `W` for Z. Also
/// what a sex-linked allele may not be called, since a key would then be ambiguous.
constexpr char partner_letter(Chromosome chromosome) {
  return chromosome == Chromosome::z ? 'W' : 'Y';
}

}  // namespace likelihet::genetics
