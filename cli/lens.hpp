// Which animals and loci a command is to show.
#pragma once

#include <cstddef>
#include <vector>

#include <likelihet/colony/colony.hpp>

namespace likelihet::cli {

/// Positions in the colony, ascending.
struct Lens {
  std::vector<std::size_t> animals;
  std::vector<std::size_t> loci;
};

/// Everything.
Lens lens_of_all(const colony::Colony& colony);

}  // namespace likelihet::cli
