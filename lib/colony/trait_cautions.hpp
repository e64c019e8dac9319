// The cautions that a model gives its traits, each text once.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include <likelihet/colony/model.hpp>

namespace likelihet::colony {

/// One caution and the traits that it is given for.
struct TraitCaution {
  std::string traits;  ///< ids, as in "tarnbrook, brackmoor"
  std::string text;
};

/// Of these loci, positions in the model's; those without a caution are left out. In the order in
/// which the texts first come.
std::vector<TraitCaution> trait_cautions(const Model& model, const std::vector<std::size_t>& loci);

}  // namespace likelihet::colony
