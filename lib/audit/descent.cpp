// Down the pedigree, generation by generation.
#include <utility>

#include <likelihet/audit/descent.hpp>

namespace likelihet::audit {

std::vector<bool> with_descendants(const colony::Colony& colony,
                                   const std::vector<std::size_t>& roots) {
  std::vector<std::vector<std::size_t>> clutches_of(colony.animals().size());
  for (std::size_t c = 0; c < colony.clutches().size(); ++c) {
    const colony::Clutch& clutch = colony.clutches()[c];
    if (clutch.dam) clutches_of[*clutch.dam].push_back(c);
    for (const auto& sire : clutch.sires) clutches_of[sire.animal].push_back(c);
  }
  std::vector<bool> met(colony.animals().size(), false);
  std::vector<std::size_t> stack;
  const auto meet = [&](std::size_t animal) {
    if (met[animal]) return;
    met[animal] = true;
    stack.push_back(animal);
  };
  for (std::size_t root : roots) meet(root);
  while (!stack.empty()) {
    const std::size_t animal = stack.back();
    stack.pop_back();
    for (std::size_t c : clutches_of[animal]) {
      for (std::size_t offspring : colony.clutches()[c].hatchlings) meet(offspring);
    }
  }
  return met;
}

}  // namespace likelihet::audit
