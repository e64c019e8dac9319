// Records of generated animals: clutches out of equal parents, one mark, one scorer.
#include "bench/recorded_herd.hpp"

#include <memory>
#include <string>

#include "bench/pedigree.hpp"
#include "support/small_model.hpp"

namespace likelihet::bench {
namespace {

std::shared_ptr<const colony::Model> model() {
  auto made = colony::Model::make(support::recessive_model());
  return std::make_shared<const colony::Model>(std::get<colony::Model>(std::move(made)));
}

colony::Records records(const std::vector<PedigreeAnimal>& animals) {
  colony::Records out;
  std::size_t next = 0;
  const auto name = [](std::size_t a) { return "A" + std::to_string(a); };
  for (std::size_t a = 0; a < animals.size(); ++a) {
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
    colony::ObservationRecord shown;
    shown.id = "o" + std::to_string(next++);
    shown.what =
        colony::AppearanceRecord{name(a), "ember", animals[a].copies == 2 ? "ember" : "plain"};
    out.observations.push_back(std::move(shown));
    colony::ObservationRecord score;
    score.id = "o" + std::to_string(next++);
    const char* levels[3] = {"absent", "faint", "clear"};
    score.what = colony::ScoreRecord{name(a),      "crown-fleck", levels[animals[a].mark],
                                     std::nullopt, "ana",         std::nullopt,
                                     std::nullopt};
    out.observations.push_back(std::move(score));
  }
  return out;
}

}  // namespace

colony::Colony recorded_herd(std::size_t animals, double related) {
  auto made = colony::Colony::make(model(), records(pedigree(animals, related, 753)));
  return std::get<colony::Colony>(std::move(made));
}

}  // namespace likelihet::bench
