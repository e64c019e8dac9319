// Up and down the pedigree.
#include <cstdint>

#include <likelihet/colony/family.hpp>

namespace likelihet::colony {

std::vector<std::size_t> possible_parents(const Colony& colony, std::size_t animal) {
  std::vector<std::size_t> out;
  const auto clutch = colony.animals()[animal].clutch;
  if (!clutch) return out;
  const Clutch& of = colony.clutches()[*clutch];
  if (of.dam) out.push_back(*of.dam);
  for (const Sire& sire : of.sires) out.push_back(sire.animal);
  return out;
}

std::vector<std::vector<Offspring>> offspring_by_parent(const Colony& colony) {
  std::vector<std::vector<Offspring>> out(colony.animals().size());
  for (const Clutch& clutch : colony.clutches()) {
    const bool one_sire = clutch.sires.size() == 1;
    const auto partner = one_sire ? std::optional(clutch.sires[0].animal) : std::nullopt;
    for (const std::size_t hatchling : clutch.hatchlings) {
      if (clutch.dam) out[*clutch.dam].push_back({hatchling, partner, true});
      for (const Sire& sire : clutch.sires) {
        out[sire.animal].push_back({hatchling, clutch.dam, one_sire});
      }
    }
  }
  return out;
}

std::vector<bool> with_descendants(const Colony& colony, const std::vector<std::size_t>& roots) {
  const auto offspring = offspring_by_parent(colony);
  std::vector<bool> met(colony.animals().size(), false);
  std::vector<std::size_t> stack;
  const auto meet = [&](std::size_t animal) {
    if (met[animal]) return;
    met[animal] = true;
    stack.push_back(animal);
  };
  for (const std::size_t root : roots) meet(root);
  while (!stack.empty()) {
    const std::size_t animal = stack.back();
    stack.pop_back();
    for (const Offspring& one : offspring[animal]) meet(one.animal);
  }
  return met;
}

std::vector<std::size_t> with_ancestors(const Colony& colony,
                                        std::span<const std::size_t> animals) {
  enum class Visit : std::uint8_t { unseen, waiting, done };
  std::vector<Visit> visits(colony.animals().size(), Visit::unseen);
  std::vector<std::size_t> out, stack(animals.rbegin(), animals.rend());
  while (!stack.empty()) {
    const std::size_t animal = stack.back();
    const auto parents = possible_parents(colony, animal);
    if (visits[animal] == Visit::unseen && !parents.empty()) {
      visits[animal] = Visit::waiting;
      stack.insert(stack.end(), parents.begin(), parents.end());
      continue;
    }
    stack.pop_back();
    if (visits[animal] != Visit::done) out.push_back(animal);
    visits[animal] = Visit::done;
  }
  return out;
}

}  // namespace likelihet::colony
