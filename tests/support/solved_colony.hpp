// A small colony and its odds, asked for by ids and genotype keys.
#pragma once

#include <cstddef>
#include <stdexcept>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include <support/small_model.hpp>

#include <likelihet/odds/odds.hpp>
#include <likelihet/odds/options.hpp>

namespace likelihet::support {

/// Odds alone: no intervals, no surprises.
inline odds::Options only_odds() {
  odds::Options options;
  options.draws = 0;
  options.surprises = false;
  return options;
}

/// The colony of records that fit the model.
inline colony::Colony colony_of(const colony::ModelDescription& model,
                                const RecordsBuilder& builder) {
  return colony_of(made(model), builder.records);
}

/// The odds of records that do not contradict each other; throws with what is wrong otherwise.
class SolvedColony {
 public:
  SolvedColony(const colony::ModelDescription& model, const RecordsBuilder& builder,
               const odds::Options& options = only_odds())
      : colony_(colony_of(model, builder)) {
    auto outcome = odds::compute(colony_, options);
    if (const auto* clash = std::get_if<odds::Contradiction>(&outcome)) {
      throw std::runtime_error(clash->what);
    }
    if (const auto* large = std::get_if<odds::TooLarge>(&outcome)) {
      throw std::runtime_error(large->what);
    }
    odds_ = std::get<odds::ColonyOdds>(std::move(outcome));
  }

  [[nodiscard]] const colony::Colony& colony() const { return colony_; }
  [[nodiscard]] const odds::ColonyOdds& odds() const { return odds_; }
  [[nodiscard]] const odds::LocusOdds& at(const std::string& animal,
                                          const std::string& locus = "tarnbrook") const {
    return odds_.animals[colony_.find_animal(animal).value()]
        .loci[colony_.model().find_locus(locus).value()];
  }
  [[nodiscard]] double pedigree(const std::string& animal, const std::string& key,
                                const std::string& locus = "tarnbrook") const {
    return at(animal, locus).pedigree[number(key, locus)];
  }
  [[nodiscard]] double scored(const std::string& animal, const std::string& key,
                              const std::string& locus = "tarnbrook") const {
    return at(animal, locus).scored[number(key, locus)];
  }
  [[nodiscard]] double posterior(const std::string& animal, const std::string& key,
                                 const std::string& locus = "tarnbrook") const {
    return at(animal, locus).posterior[number(key, locus)];
  }

 private:
  [[nodiscard]] std::size_t number(const std::string& key, const std::string& locus) const {
    return colony_.model().loci()[colony_.model().find_locus(locus).value()].find(key).value();
  }

  colony::Colony colony_;
  odds::ColonyOdds odds_;
};

/// The clash of records that cannot all be true; throws if they can.
inline odds::Contradiction clash_of(const colony::Colony& colony,
                                    const odds::Options& options = only_odds()) {
  auto outcome = odds::compute(colony, options);
  if (!std::holds_alternative<odds::Contradiction>(outcome)) {
    throw std::runtime_error("the records do not clash");
  }
  return std::get<odds::Contradiction>(std::move(outcome));
}

/// Their ids, in the order given.
inline std::vector<std::string> ids_of(const colony::Colony& colony,
                                       const std::vector<std::size_t>& observations) {
  std::vector<std::string> ids;
  for (const std::size_t o : observations) ids.push_back(colony.observations()[o].id);
  return ids;
}

}  // namespace likelihet::support
