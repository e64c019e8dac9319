// Chooses what to show.
#include "lens.hpp"

#include <numeric>

namespace likelihet::cli {

Lens lens_of_all(const colony::Colony& colony) {
  Lens lens{std::vector<std::size_t>(colony.animals().size()),
            std::vector<std::size_t>(colony.model().loci().size())};
  std::iota(lens.animals.begin(), lens.animals.end(), std::size_t{0});
  std::iota(lens.loci.begin(), lens.loci.end(), std::size_t{0});
  return lens;
}

}  // namespace likelihet::cli
