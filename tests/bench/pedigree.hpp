// A seeded breeder's colony of any size: overlapping seasons, few sires, backcrosses and half-sib
// matings.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

namespace likelihet::bench {

struct PedigreeAnimal {
  std::optional<std::size_t> dam, sire;  ///< both or neither
  bool female = false;
  std::size_t copies = 0;             ///< of the recessive allele, dropped down the pedigree
  std::size_t marker = 0;             ///< level read of a marker of three levels
  std::optional<std::size_t> result;  ///< copies that a test reported
};

/// Parents stand before their offspring. About one animal in ten breeds; each season's clutches of
/// about eight come from females of the last three seasons and from few males, one clutch in `1 /
/// related` from a backcross or a half-sib mating. `related` = 0 gives a colony without loops.
/// Large colonies are lines of 500 animals, each founded in part from the one before, as keepers
/// keep them: animals drawn at random from 200,000 would tie all of them together.
std::vector<PedigreeAnimal> pedigree(std::size_t animals, double related, std::uint64_t seed);

/// Independent loops of the marriage graph (animals and matings, an edge for each parent or child
/// of a mating): edges - nodes + connected parts (Euler). A male mated to many females makes none.
std::size_t loops(const std::vector<PedigreeAnimal>& animals);

}  // namespace likelihet::bench
