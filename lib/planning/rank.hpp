// Which pairing may best give what is wanted, and what each would teach.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <variant>
#include <vector>

#include <likelihet/planning/goal.hpp>
#include <likelihet/planning/outlook.hpp>
#include <likelihet/planning/pair_cells.hpp>

namespace likelihet::planning {

struct RankedPair {
  Pair pair;
  ChanceMixture wanted;  ///< chance that a living offspring has what is wanted
  /// Bits that counting the goal's appearance among the offspring is expected to take off the
  /// entropy of the parents' genotypes at its locus, and at those on its sex chromosome that
  /// survival ties to it (ChanceMixture::information).
  double teaches = 0;
  double inbreeding = 0;  ///< coefficient of the offspring
  bool dam_of_unknown_sex = false, sire_of_unknown_sex = false;
  double lethal = 0;  ///< share of eggs with a genotype at this locus that never lives
};

struct Ranking {
  std::vector<RankedPair> pairs;  ///< best first, no more than were asked for
  std::size_t considered = 0;     ///< pairs that could be made
  std::size_t tables = 0;         ///< as in Outlook
};

/// Every female with every male of the book, `offspring` of each pair; animals of unknown sex take
/// both parts, each taken as of the sex that its part needs, but for a part that the records rule
/// out. By the chance of at least one, then by
/// inbreeding (less first), then by ids. One plan serves all pairs of known sex: a run for each
/// genotype of a dam gives what goes with it for all sires, a block of pairs at a time so that
/// memory does not grow with the pairs; `most` of them are kept. Pairs none of whose offspring
/// could live are left out. A book does not say who died or was sold: every animal counts as there.
std::variant<Ranking, odds::Contradiction, odds::TooLarge> rank(
    const colony::Colony& colony, const Goal& goal, std::size_t offspring,
    const odds::Options& options, std::span<const odds::Tables* const> learned,
    std::size_t most = SIZE_MAX);

}  // namespace likelihet::planning
