// Genotypes by what is asked of them.
#include <fmt/format.h>

#include <likelihet/colony/nearest.hpp>
#include <likelihet/planning/keep_goal.hpp>

namespace likelihet::planning {

namespace {

bool all_first(const genetics::Genotype& genotype) {
  return genotype.first == 0 && genotype.second.value_or(0) == 0;
}

}  // namespace

std::variant<KeepGoal, colony::Fault> keep_goal_named(const genetics::Locus& locus,
                                                      std::size_t position, std::string_view name) {
  KeepGoal out{position, std::string(name), std::vector<bool>(locus.size(), false)};
  const auto key = locus.find(name);
  std::vector<std::string> known{"carries", "visual"};
  for (std::size_t g = 0; g < locus.size(); ++g) {
    if (key) {
      out.meets[g] = g == *key;
    } else if (name == "carries") {
      out.meets[g] = !all_first(locus.genotypes()[g]);
    } else if (name == "visual") {
      out.meets[g] = genetics::looks_visual(locus, g);
    }
    known.push_back(locus.key(g));
  }
  if (!key && name != "carries" && name != "visual") {
    return colony::Fault{"--goal", fmt::format("trait {} has no genotype '{}'", locus.id(), name),
                         colony::suggestion(std::string(name), known)};
  }
  return out;
}

}  // namespace likelihet::planning
