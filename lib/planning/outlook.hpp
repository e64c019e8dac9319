// What a pairing may give: each genotype and appearance of its offspring, from what is known of
// both parents together.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <variant>
#include <vector>

#include <likelihet/odds/joint.hpp>
#include <likelihet/odds/odds.hpp>
#include <likelihet/planning/chance_mixture.hpp>

namespace likelihet::planning {

struct Pair {
  std::size_t dam = 0;
  std::size_t sire = 0;
  friend bool operator==(const Pair&, const Pair&) = default;
};

/// One locus. The offspring are those that are alive when they are recorded.
struct LocusOutlook {
  /// Joint posterior of the parents, over (dam, sire), sire fastest.
  std::vector<double> parents;
  std::vector<ChanceMixture> genotypes;    ///< of an offspring, by genotype
  std::vector<ChanceMixture> appearances;  ///< by appearance
  /// P(an offspring is of that sex and shows it), females first: of a locus on a sex chromosome.
  std::array<std::vector<double>, 2> by_sex;
  std::vector<double> laid;  ///< P(an egg has the genotype), before survival
  double lost = 0;  ///< share of eggs lost, against offspring of the most viable genotype alone
};

/// What all loci show together.
struct Combined {
  std::vector<std::size_t> appearances;  ///< by locus
  ChanceMixture chance;
};

struct Outlook {
  std::vector<LocusOutlook> loci;  ///< as in the model
  /// Every combination of positive chance, likeliest first; empty where they are more than
  /// `most_combined`.
  std::vector<Combined> combined;
  bool combined_left_out = false;
  /// P(the parents are such that none of their offspring can live). All else is told of offspring
  /// that live, so it leaves such parents out; where it is 1 there is nothing else.
  double none_can_live = 0;
  double inbreeding = 0;   ///< coefficient of the clutch, by descent alone (kinship.hpp)
  std::size_t tables = 0;  ///< sets of learned tables averaged over; 0: the model's beliefs
};
inline constexpr std::size_t most_combined = 4096;

/// Why two animals cannot be paired, with what to do; nothing where they can.
std::optional<colony::Fault> pairing_fault(const colony::Colony& colony, Pair pair);

/// The outlook of a pair that has no pairing_fault(). Of unknown sex, the dam is taken as a female
/// and the sire as a male. From the joint posterior of both: offspring are drawn given the
/// genotypes of their parents, which they share, so chances are mixed over those first and eggs
/// counted after. Loci are unlinked; those that evidence, the sex chromosome or an uncertain sire
/// tie together are taken together. `learned` sets of tables are averaged over, where there are
/// any. Uses as_of and memory of the options.
std::variant<Outlook, odds::Contradiction, odds::TooLarge> outlook(
    const colony::Colony& colony, Pair pair, const odds::Options& options,
    std::span<const odds::Tables* const> learned);

/// The appearance that an animal with two first alleles (or its only one) shows most.
std::size_t usual_appearance(const genetics::Locus& locus);

}  // namespace likelihet::planning
