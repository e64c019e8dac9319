// An animal's odds day by day.
#include <cmath>

#include <likelihet/colony/counting.hpp>
#include <likelihet/odds/contradiction.hpp>
#include <likelihet/odds/layers.hpp>
#include <likelihet/odds/why.hpp>

namespace likelihet::odds {

namespace {

bool moved(const AnimalOdds& a, const AnimalOdds& b) {
  const auto differ = [](const std::vector<double>& x, const std::vector<double>& y) {
    for (std::size_t g = 0; g < x.size(); ++g) {
      if (std::abs(x[g] - y[g]) > 1e-12) return true;
    }
    return false;
  };
  for (std::size_t l = 0; l < a.loci.size(); ++l) {
    if (differ(a.loci[l].pedigree, b.loci[l].pedigree) ||
        differ(a.loci[l].scored, b.loci[l].scored) ||
        differ(a.loci[l].posterior, b.loci[l].posterior)) {
      return true;
    }
  }
  return false;
}

}  // namespace

std::variant<std::vector<Moment>, Contradiction, TooLarge> history(const colony::Colony& colony,
                                                                   std::size_t animal,
                                                                   const Options& options) {
  std::vector<Moment> out;
  Scenario bare = scenario(colony, options.as_of);
  bare.observations.clear();
  std::optional<TooLarge> large;
  const auto add = [&](const Scenario& then, const std::optional<colony::Date>& day) {
    auto odds = odds_of(then, animal, options.memory_bytes);
    if (auto* too = std::get_if<TooLarge>(&odds)) {
      large = std::move(*too);
      return false;
    }
    auto& now = std::get<AnimalOdds>(odds);
    const bool clash = now.loci.empty() && !colony.model().loci().empty();
    if (clash && out.empty()) return false;
    Moment moment{day, clash ? out.back().odds : std::move(now), {}, clash};
    for (const auto* observation : then.observations) {
      if (day && observation->known == day && colony::animal_of(*observation) == animal) {
        moment.observations.push_back(
            static_cast<std::size_t>(observation - colony.observations().data()));
      }
    }
    if (out.empty() || !moment.observations.empty() || clash != out.back().contradictory ||
        moved(out.back().odds, moment.odds)) {
      out.push_back(std::move(moment));
    }
    return true;
  };
  if (!add(bare, std::nullopt)) {
    if (large) return std::move(*large);
    return explain(bare, options);
  }
  for (const colony::Date& day : colony::days_of_change(colony)) {
    if (options.as_of && *options.as_of < day) break;
    const Scenario then = scenario(colony, day);
    if (!add(then, day)) return std::move(*large);
  }
  return out;
}

}  // namespace likelihet::odds
