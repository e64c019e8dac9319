// The slow, obvious answer: odds by adding up every joint state of every animal.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include <likelihet/colony/colony.hpp>
#include <likelihet/colony/date.hpp>

namespace likelihet::properties {

/// Probabilities over one animal's genotypes at one locus, in state order (docs/model.md).
struct EnumeratedLocus {
  std::vector<double> pedigree;
  std::vector<double> scored;
  std::vector<double> posterior;
  std::vector<double> het;  ///< P(exactly one copy), one an allele but the first
};

struct Enumerated {
  /// P(everything that counts) is 0: the evidence contradicts itself. The rest is empty then.
  bool contradiction = false;
  double log_evidence = 0;  ///< nats; log P(observations, sexes) - log P(sexes)
  std::vector<std::vector<EnumeratedLocus>> animals;  ///< [animal][locus]
};

/// Sums the definition of the model (docs/method.md) over every joint state: for each animal its
/// sex and its genotypes at all traits together, for each clutch who the sire was. Written from the
/// definition and not from the engine: its own gametes, founders, survival and likelihoods; it
/// takes from the library only values (records, tables of the model, the order of genotypes).
/// Branches of probability 0 are cut, and an animal without offspring is summed where it stands,
/// given its parents. Time grows exponentially with the animals that have offspring: meant for a
/// handful of them.
Enumerated enumerate(const colony::Colony& colony, const std::optional<colony::Date>& as_of);

/// The joint posterior of two animals over joint_states(), the first's slowest; empty where the
/// evidence contradicts itself. In the same slow way, and for colonies as small.
std::vector<double> enumerate_pair(const colony::Colony& colony,
                                   const std::optional<colony::Date>& as_of, std::size_t first,
                                   std::size_t second);

/// About how many joint states enumerate() would visit before cutting.
double enumeration_size(const colony::Colony& colony);

}  // namespace likelihet::properties
