// Scenarios from a colony.
#include <likelihet/colony/counting.hpp>
#include <likelihet/odds/scenario.hpp>

namespace likelihet::odds {

Scenario scenario(const colony::Colony& colony, const std::optional<colony::Date>& as_of) {
  Scenario out;
  out.colony = &colony;
  for (std::size_t o : colony::counting(colony, as_of)) {
    out.observations.push_back(&colony.observations()[o]);
  }
  for (const colony::Animal& animal : colony.animals()) {
    out.sexes.push_back(animal.sex);
    out.clutches.push_back(animal.clutch);
  }
  out.unplaced.assign(colony.animals().size(), false);
  return out;
}

Scenario without(const Scenario& whole, const colony::Observation* skipped) {
  Scenario out = whole;
  std::erase(out.observations, skipped);
  return out;
}

}  // namespace likelihet::odds
