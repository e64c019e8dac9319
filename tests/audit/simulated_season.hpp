// Invented seasons with known truth: clutches of proven hets, markers read at the first shed,
// and results on whomever the keeper chose to test.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "support/small_model.hpp"

namespace likelihet::audit {

/// What a hatchling is; markers and tests may depend on it.
struct Hatchling {
  bool carrier = false;        ///< of "tarnbrook" e, what is audited
  bool other_carrier = false;  ///< of "brackmoor" s, another trait
  bool shows_other = false;    ///< two copies of it: "thornwick"
  std::string line;
  bool blind = true;                ///< how its markers were read
  std::vector<std::size_t> levels;  ///< by marker
  std::size_t in_clutch = 0;        ///< its place among its siblings
};

struct SeasonMarker {
  std::string id;
  std::size_t levels = 3;
  /// P(level) for this hatchling.
  std::function<std::vector<double>(const Hatchling&)> shows;
  bool masked_by_other = false;  ///< the model says that "thornwick" animals cannot be read
};

struct SeasonSettings {
  std::size_t clutches = 12;
  std::size_t hatchlings = 8;  ///< of each clutch
  std::vector<SeasonMarker> markers;
  /// Chance that a hatchling is tested for tarnbrook; its levels are known by then.
  std::function<double(const Hatchling&)> tested = [](const Hatchling&) { return 0.5; };
  /// Whether the other trait is in the collection: half of the clutches are then of two hets.
  bool other_trait = false;
  bool other_tested = false;  ///< and whether all are tested for it
  /// Even clutches are of line north, odd ones of south.
  bool lines = false;
  /// Whether a clutch's markers are read blind.
  std::function<bool(std::size_t clutch)> blind = [](std::size_t) { return true; };
};

struct Season {
  std::shared_ptr<const colony::Model> model;
  colony::Records records;
  std::vector<Hatchling> truth;  ///< in the order of hatchlings
  [[nodiscard]] colony::Colony colony() const { return support::colony_of(model, records); }
};

/// A model with these markers, every row alike (a new marker is no evidence), and an assay that
/// errs in one sample of a thousand.
colony::ModelDescription season_model(const std::vector<SeasonMarker>& markers);

/// One season. Scores come ten days after hatching, results two months after and on.
Season simulated_season(const SeasonSettings& settings, std::uint64_t seed);

/// How many books a check of this file's kind draws: `whole` in a long run, else `part`, and fewer
/// in an instrumented build.
std::size_t books(std::size_t whole, std::size_t part);

}  // namespace likelihet::audit
