// Records of generated animals: clutches out of equal parents, markers, one scorer.
#include "bench/recorded_herd.hpp"

#include <random>
#include <string>

#include "bench/pedigree.hpp"
#include "support/small_model.hpp"

namespace likelihet::bench {
namespace {

const char* const levels[3] = {"absent", "faint", "strong"};

std::string name(std::size_t animal) {
  return "A" + std::to_string(animal);
}

std::string marker_id(std::size_t m) {
  return m == 0 ? "crown-fleck" : "marker-" + std::to_string(m + 1);
}

void add_animal(const std::vector<PedigreeAnimal>& animals, std::size_t a, colony::Records& out) {
  colony::AnimalRecord animal;
  animal.id = name(a);
  if (!animals[a].dam) {
    animal.origin = "bought";
  } else {
    const bool same = a > 0 && animals[a - 1].dam == animals[a].dam &&
                      animals[a - 1].sire == animals[a].sire && !out.clutches.empty();
    if (!same) {
      colony::ClutchRecord clutch;
      clutch.id = "C" + std::to_string(out.clutches.size());
      clutch.dam = name(*animals[a].dam);
      clutch.sires = {{name(*animals[a].sire), 1.0}};
      out.clutches.push_back(std::move(clutch));
    }
    animal.clutch = out.clutches.back().id;
  }
  out.animals.push_back(std::move(animal));
}

template <class What>
void observe(What what, colony::Records& out) {
  colony::ObservationRecord record;
  record.id = "o" + std::to_string(out.observations.size());
  record.what = std::move(what);
  out.observations.push_back(std::move(record));
}

colony::ScoreRecord score(std::size_t animal, std::size_t m, std::size_t level, bool scorer) {
  colony::ScoreRecord out;
  out.animal = name(animal);
  out.marker = marker_id(m);
  out.level = levels[level];
  if (scorer) out.scorer = "ana";
  return out;
}

// P(level) of a marker for hets and for others: the first tell most, the last little.
std::vector<double> row(std::size_t m, bool carrier) {
  const double strength = 0.5 / static_cast<double>(m + 1);
  const double low = carrier ? 0.7 - strength : 0.7;
  return {low, 0.2, 0.8 - low};
}

}  // namespace

colony::ModelDescription herd_model(std::size_t markers) {
  auto description = support::recessive_model();
  for (std::size_t m = 1; m < markers; ++m) {
    auto marker = support::crown_fleck();
    marker.id = marker_id(m);
    marker.rows = {{{{"tarnbrook", "+/e"}}, row(m, true), 8.0}, {{}, row(m, false), 8.0}};
    description.markers.push_back(std::move(marker));
  }
  return description;
}

colony::Records herd_records(const HerdShape& shape) {
  const auto animals = pedigree(shape.animals, shape.related, shape.seed);
  std::mt19937_64 random(shape.seed + 1);
  colony::Records out;
  for (std::size_t a = 0; a < animals.size(); ++a) {
    add_animal(animals, a, out);
    const std::size_t copies = animals[a].copies;
    observe(colony::AppearanceRecord{name(a), "tarnbrook", copies == 2 ? "tarnbrook" : "plain"},
            out);
    observe(score(a, 0, animals[a].marker, shape.scorer), out);
    for (std::size_t m = 1; m < shape.markers; ++m) {
      const auto chances = row(m, copies == 1);
      std::discrete_distribution<std::size_t> level(chances.begin(), chances.end());
      observe(score(a, m, level(random), shape.scorer), out);
    }
    if (!shape.results || !animals[a].result) continue;
    const char* const reports[3] = {"clear", "carrier", "affected"};
    observe(colony::ResultRecord{name(a), "shed-pcr", reports[*animals[a].result], std::nullopt},
            out);
  }
  return out;
}

colony::Colony recorded_herd(const HerdShape& shape) {
  return support::colony_of(support::made(herd_model(shape.markers)), herd_records(shape));
}

colony::Colony recorded_herd(std::size_t animals, double related) {
  return recorded_herd(HerdShape{animals, related});
}

}  // namespace likelihet::bench
