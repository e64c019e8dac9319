// Which animals and loci a command is to show.
#pragma once

#include <cstddef>
#include <vector>

#include <likelihet/colony/colony.hpp>

namespace likelihet::cli {

/// Positions in the colony, ascending. Chooses what is shown, not what is computed: odds are always
/// those of the whole colony.
struct Lens {
  std::vector<std::size_t> animals;
  std::vector<std::size_t> loci;
};

/// Everything. In the order of the records.
Lens lens_of_all(const colony::Colony& colony);

}  // namespace likelihet::cli
