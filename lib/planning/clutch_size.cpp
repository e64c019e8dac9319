// Means over recorded clutches.
#include <cmath>

#include <likelihet/planning/clutch_size.hpp>

namespace likelihet::planning {

std::optional<double> mean_offspring(const colony::Colony& colony) {
  double clutches = 0, offspring = 0;
  for (const colony::Clutch& clutch : colony.clutches()) {
    if (clutch.hatchlings.empty()) continue;
    clutches += 1;
    offspring += static_cast<double>(clutch.hatchlings.size());
  }
  if (!(clutches > 0)) return std::nullopt;
  return offspring / clutches;
}

std::optional<double> clutches_for(std::size_t offspring, const std::optional<double>& per_clutch) {
  if (offspring == 0) return 0.0;
  if (!per_clutch || !(*per_clutch > 0)) return std::nullopt;
  return std::ceil(static_cast<double>(offspring) / *per_clutch);
}

}  // namespace likelihet::planning
