// Colonies of founders whose odds without markers are written down by hand, and looks at them.
#pragma once

#include <string>
#include <vector>

#include "support/small_model.hpp"

#include <likelihet/audit/marker_audit.hpp>

namespace likelihet::audit {

/// What everything but markers says of one animal.
struct HandAnimal {
  genetics::CopyChances tarnbrook;
  genetics::CopyChances brackmoor = {1, 0, 0};
  std::string line = {};
};

/// Loci "tarnbrook" and "brackmoor", three markers of levels absent, faint and clear, scorers ana,
/// ben, cleo.
inline colony::ModelDescription hand_model() {
  auto model = support::recessive_model();
  model.loci.push_back(support::masking_locus());
  for (const char* id : {"tail-tint", "chin-speck"}) {
    model.markers.push_back(support::crown_fleck());
    model.markers.back().id = id;
  }
  model.scorers = {{"ana", 0.95}, {"ben", std::nullopt}, {"cleo", std::nullopt}};
  return model;
}

/// Founders A0, A1, ... in their lines.
inline support::RecordsBuilder hand_records(const std::vector<HandAnimal>& animals) {
  support::RecordsBuilder out;
  for (std::size_t a = 0; a < animals.size(); ++a) {
    out.founder("A" + std::to_string(a));
    if (!animals[a].line.empty()) out.animal().line = animals[a].line;
  }
  return out;
}

inline colony::Colony hand_colony(const support::RecordsBuilder& records) {
  return support::colony_of(support::made(hand_model()), records.records);
}
inline colony::Colony hand_colony(const std::vector<HandAnimal>& animals) {
  return hand_colony(hand_records(animals));
}

inline MarkerlessTable hand_table(const colony::Colony& colony,
                                  const std::vector<HandAnimal>& animals) {
  std::vector<genetics::CopyChances> copies;
  for (const HandAnimal& one : animals) {
    copies.push_back(one.tarnbrook);
    copies.push_back(one.brackmoor);
  }
  return {colony, std::move(copies)};
}

inline LevelRead look(std::size_t animal, std::size_t level) {
  LevelRead out;
  out.animal = animal;
  out.level = level;
  return out;
}

/// Each animal's level of a marker, in the order of animals.
inline MarkerReadings hand_readings(std::size_t marker, const std::vector<std::size_t>& levels) {
  MarkerReadings out;
  out.marker = marker;
  for (std::size_t a = 0; a < levels.size(); ++a) out.by_animal.push_back(look(a, levels[a]));
  out.all = out.by_animal;
  return out;
}

}  // namespace likelihet::audit
