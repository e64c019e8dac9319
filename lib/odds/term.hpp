// The pieces that a colony's numbers are products of, and the layers of evidence they count in.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include <likelihet/colony/colony.hpp>
#include <likelihet/odds/evidence_score.hpp>

namespace likelihet::odds {

/// Each layer holds the ones before it. `sexes` is what is taken as given: descent and sexes alone.
/// Compared with <: a term counts in its own layer and in all after it. `pedigree` adds appearances
/// and broods, `scored` the markers, `posterior` the results.
enum class Layer : std::uint8_t { sexes, pedigree, scored, posterior };

/// One piece of evidence or prior, as numbers over genotypes. Animals with the same evidence at a
/// locus have one between them; a brood has its own.
struct Term {
  /// All readings of one marker on one animal, since they look at one true level.
  struct Score {
    std::size_t marker = 0;
    std::size_t table = 0;            ///< as table_in_force() says
    std::vector<Reading> readings;    ///< of one true level
    std::vector<std::size_t> row_of;  ///< which row holds, by joint genotype of the term's loci
  };
  /// The prior is founder_prior() at the origin's frequencies, mixed with what the animal was sold
  /// as: trust x odds + (1 - trust) x prior, within each sex on a sex chromosome.
  struct Founder {
    std::size_t locus = 0;
    /// Empty: all copies are of the first allele.
    std::optional<std::size_t> origin;
    /// Points into the colony; nothing where the seller said nothing of this locus.
    const colony::BoughtAs* bought_as = nullptr;
    /// Every genotype alike, whatever the origin: for asking whether a recorded descent is wrong.
    bool unplaced = false;
  };
  Layer layer = Layer::sexes;
  std::vector<double> fixed;  ///< the numbers, where no table of the model is behind them
  /// One marker, or several of a group that share the animal's strength of expression.
  std::vector<Score> scores;
  std::optional<Founder> founder;
  /// Where not 0: no likelihood, but the factor that was taken out of that of these scores, as so
  /// many equal factors of which this is one. One number, whatever the genotypes.
  std::size_t scale_parts = 0;
};

}  // namespace likelihet::odds
