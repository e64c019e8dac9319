// Records by animal.
#include "kin.hpp"

#include <algorithm>

#include <likelihet/odds/evidence_score.hpp>

namespace likelihet::publishing {
namespace {

// Those of one kind that `of` accepts.
template <class What, class Accept>
std::vector<std::size_t> those(const colony::Colony& colony,
                               const std::vector<std::size_t>& observations, Accept accept) {
  std::vector<std::size_t> out;
  for (const std::size_t o : observations) {
    const auto* what = std::get_if<What>(&colony.observations()[o].what);
    if (what != nullptr && accept(*what)) out.push_back(o);
  }
  return out;
}

}  // namespace

Kin::Kin(const odds::Scenario& scenario)
    : scenario_(scenario),
      by_animal_(scenario.colony->animals().size()),
      offspring_(colony::offspring_by_parent(*scenario.colony)) {
  const auto& all = colony().observations();
  for (const colony::Observation* observation : scenario.observations) {
    if (const auto animal = colony::animal_of(*observation)) {
      by_animal_[*animal].push_back(static_cast<std::size_t>(observation - all.data()));
    }
  }
  for (auto& own : by_animal_) {
    std::sort(own.begin(), own.end(),
              [&](std::size_t a, std::size_t b) { return all[a].id < all[b].id; });
  }
  const auto& animals = colony().animals();
  for (auto& offspring : offspring_) {
    std::sort(offspring.begin(), offspring.end(),
              [&](const colony::Offspring& a, const colony::Offspring& b) {
                return animals[a.animal].id < animals[b.animal].id;
              });
  }
}

std::vector<std::size_t> Kin::looks(std::size_t animal, std::size_t locus) const {
  return those<colony::AppearanceSeen>(colony(), by_animal_[animal],
                                       [&](const auto& seen) { return seen.locus == locus; });
}

std::vector<std::size_t> Kin::results(std::size_t animal, std::size_t locus) const {
  return those<colony::Result>(colony(), by_animal_[animal], [&](const auto& result) {
    return colony().model().assays()[result.assay].locus == locus;
  });
}

std::vector<std::size_t> Kin::broods(std::size_t animal, std::size_t locus) const {
  return those<colony::Brood>(colony(), by_animal_[animal], [&](const auto& brood) {
    return brood.locus == locus && !brood.offspring.empty();
  });
}

std::vector<std::size_t> Kin::readings(std::size_t animal, std::size_t locus) const {
  const auto& model = colony().model();
  std::vector<std::vector<std::size_t>> shows(model.loci().size());
  for (std::size_t l = 0; l < shows.size(); ++l) {
    for (const std::size_t look : looks(animal, l)) shows[l].push_back(appearance(look));
  }
  return those<colony::Score>(colony(), by_animal_[animal], [&](const auto& score) {
    if (!score.level) return false;
    const auto& marker = model.markers()[score.marker];
    const auto table = odds::table_in_force(marker, shows, colony().animals()[animal].line);
    if (!table) return false;
    const auto read = odds::loci_read(odds::rows_of(marker, *table));
    return std::find(read.begin(), read.end(), locus) != read.end();
  });
}

std::size_t Kin::appearance(std::size_t look) const {
  return std::get<colony::AppearanceSeen>(colony().observations()[look].what).appearance;
}

}  // namespace likelihet::publishing
