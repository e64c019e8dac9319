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
/// believed about the tables (Dirichlet rows, Dirichlet origin frequencies).
struct Het {
  double mean = 0;
  double low = 0;
  double high = 0;
};

/// Probabilities over the locus's genotypes in state order, each summing to 1.
struct LocusOdds {
  std::vector<double> pedigree;   ///< founders, bought_as, clutches, sexes, appearances, broods
  std::vector<double> scored;     ///< that and all scores
  std::vector<double> posterior;  ///< that and all results
  std::vector<Het> het;           ///< one an allele but the first, in declared order
};

struct AnimalOdds {
  std::vector<LocusOdds> loci;  ///< one a locus of the model, in its order
};

/// A reading of what may lie behind a surprise. `share` is its share of the weight of all readings
/// tried, the record being right as it stands among them (docs/method.md); in (0, 1].
struct Reason {
  std::string code;  ///< "right-as-it-stands", "samples-swapped", "sample-mixed-up",
                     ///< "test-erred", "wrong-animal", "wrong-sire" or "wrong-pedigree"
  std::string text;  ///< in a keeper's words
  double share = 0;
};

/// A result or appearance whose probability given everything else is below 1 %.
struct Surprise {
  std::size_t observation = 0;
  double probability = 0;
  std::string why;
  std::vector<Reason> reasons;  ///< most likely first
};

struct ColonyOdds {
  double log_evidence = 0;  ///< nats; log P(counting observations | animals, clutches, sexes)
  std::vector<AnimalOdds> animals;  ///< positions as in colony.animals()
  std::vector<Surprise> surprises;
};

/// The evidence contradicts itself. The smallest set found: leave out any one of it and the rest
/// can be true together.
struct Contradiction {
  std::vector<std::size_t> observations;
  std::vector<std::size_t> sexes;  ///< animals whose recorded sex is part of it
  std::string what;                ///< in a keeper's words
};

/// Exact inference would not fit the memory allowed; found before it starts.
struct TooLarge {
  double bytes = 0;              ///< what it would take
  std::size_t part_animals = 0;  ///< animals in the connected part
  std::vector<std::pair<std::size_t, std::size_t>>
      clique;        ///< (animal, locus) in the largest clique
  std::string what;  ///< names the part, its largest clique, and what to do
};

using Outcome = std::variant<ColonyOdds, Contradiction, TooLarge>;

/// Exact odds of the whole colony. The same colony gives the same numbers whatever the order of its
/// records. Throws std::bad_alloc alone.
Outcome compute(const colony::Colony& colony, const Options& options);

}  // namespace likelihet::odds
