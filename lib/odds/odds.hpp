// Exact genotype odds of every animal, in three layers of evidence.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include <likelihet/colony/colony.hpp>
#include <likelihet/odds/options.hpp>

namespace likelihet::odds {

/// P(exactly one copy of an allele) after all evidence, with the central 95 % interval over what is
/// believed about the tables (Dirichlet rows, Dirichlet origin frequencies). Probabilities. `mean`
/// is computed at the believed tables, not averaged over draws.
struct Het {
  double mean = 0;
  double low = 0;
  double high = 0;
};

/// Probabilities over the locus's genotypes in state order, each summing to 1. Layers build on one
/// another and differ only by the evidence that they count.
struct LocusOdds {
  std::vector<double> pedigree;   ///< founders, bought_as, clutches, sexes, appearances, broods
  std::vector<double> scored;     ///< that and all scores
  std::vector<double> posterior;  ///< that and all results
  std::vector<Het> het;           ///< one an allele but the first, in declared order
};

/// What the colony gives for each animal, and history() for each day.
struct AnimalOdds {
  std::vector<LocusOdds> loci;  ///< one a locus of the model, in its order
};

/// A reading of what may lie behind a surprise. `share` is its share of the weight of all readings
/// tried, the record being right as it stands among them (docs/method.md); in (0, 1].
struct Reason {
  /// Stable, for programs; `text` may be reworded.
  std::string code;  ///< "right-as-it-stands", "samples-swapped", "sample-mixed-up",
                     ///< "test-erred", "wrong-animal", "wrong-sire" or "wrong-pedigree"
  std::string text;  ///< in a keeper's words
  double share = 0;
};

/// A result or appearance whose probability given everything else is below 1 %. Scores and broods
/// are not looked at: a marker is expected to mislead now and then.
struct Surprise {
  /// A position in colony.observations().
  std::size_t observation = 0;
  /// Of seeing just this, in [0, 0.01).
  double probability = 0;
  /// One paragraph: what, how unlikely, and up to four reasons.
  std::string why;
  /// Empty beyond the first eight surprises, and where none could be computed in the memory
  /// allowed.
  std::vector<Reason> reasons;  ///< most likely first
};

/// Owns all its numbers; refers to records by position only.
struct ColonyOdds {
  /// 0 without observations. Compares models or tables on the same records: a difference is a log
  /// Bayes factor (Kass and Raftery 1995, Journal of the American Statistical Association 90:773).
  double log_evidence = 0;  ///< nats; log P(counting observations | animals, clutches, sexes)
  std::vector<AnimalOdds> animals;  ///< positions as in colony.animals()
  std::vector<Surprise> surprises;
};

/// The evidence contradicts itself. The smallest set found: leave out any one of it and the rest
/// can be true together. Some record is wrong, or the model calls something impossible that
/// happens. No odds are given then: every number would be 0/0.
struct Contradiction {
  /// Positions in colony.observations().
  std::vector<std::size_t> observations;
  std::vector<std::size_t> sexes;  ///< animals whose recorded sex is part of it
  std::string what;                ///< in a keeper's words
};

/// Exact inference would not fit the memory allowed; found before it starts. An answer, not an
/// exception. Nothing is approximated in its place.
struct TooLarge {
  double bytes = 0;  ///< what it would take, or more
  /// In genotypes and sires left open; all animals of the colony where a locus's table of
  /// inheritance is what does not fit.
  std::size_t part_animals = 0;  ///< size of the connected part
  std::vector<std::pair<std::size_t, std::size_t>>
      clique;        ///< (animal, locus) in the largest clique
  std::string what;  ///< names the part, its largest clique, and what to do
};

using Outcome = std::variant<ColonyOdds, Contradiction, TooLarge>;

/// Exact odds of the whole colony. The same colony gives the same numbers whatever the order of its
/// records. Throws std::bad_alloc alone. Exact but for rounding and for the draws behind `het`;
/// surprises are looked for last. One thread. The result refers to nothing: the colony may go.
Outcome compute(const colony::Colony& colony, const Options& options);

}  // namespace likelihet::odds
