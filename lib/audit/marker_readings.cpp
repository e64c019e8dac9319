// Sorting scores by marker, context and animal.
#include <algorithm>
#include <map>
#include <tuple>

#include <likelihet/audit/marker_readings.hpp>
#include <likelihet/odds/evidence_score.hpp>
#include <likelihet/odds/scenario.hpp>

namespace likelihet::audit {

namespace {

using Shows = std::vector<std::vector<std::size_t>>;  // of one animal, by locus

std::vector<Shows> appearances(const colony::Colony& colony, const odds::Scenario& scenario) {
  std::vector<Shows> out(colony.animals().size(), Shows(colony.model().loci().size()));
  for (const colony::Observation* observation : scenario.observations) {
    const auto* seen = std::get_if<colony::AppearanceSeen>(&observation->what);
    if (seen != nullptr) out[seen->animal][seen->locus].push_back(seen->appearance);
  }
  return out;
}

// The readings of one marker on one animal.
struct Looked {
  std::vector<const colony::Observation*> levels;
  bool without_level = false;
  bool too_late = false;
};

std::size_t likeliest(const colony::Marker& marker, const std::vector<odds::Reading>& readings) {
  std::vector<double> odds;
  odds::scaled_reading_likelihood(marker.levels.size(), readings, odds);
  std::size_t best = 0;
  for (std::size_t level = 1; level < odds.size(); ++level) {
    if (odds[level] >= odds[best]) best = level;
  }
  if (odds[best] > 0) return best;
  return std::max_element(readings.begin(), readings.end())->level;  // the level orders first
}

void add_animal(const colony::Marker& marker, std::size_t animal, Looked looked,
                MarkerReadings& out) {
  if (looked.levels.empty()) {
    out.not_scorable += looked.without_level && !looked.too_late ? 1 : 0;
    out.too_late += looked.too_late ? 1 : 0;
    return;
  }
  const auto day = [](const colony::Observation& o) { return o.on ? o.on : o.known; };
  std::sort(looked.levels.begin(), looked.levels.end(), [&](const auto* a, const auto* b) {
    return std::make_pair(day(*a), a->id) < std::make_pair(day(*b), b->id);
  });
  std::vector<odds::Reading> readings;
  for (const colony::Observation* observation : looked.levels) {
    const auto& score = std::get<colony::Score>(observation->what);
    readings.push_back({*score.level, score.sure});
    out.all.push_back({animal, *score.level, score.scorer, score.blind, day(*observation)});
  }
  LevelRead whole = out.all.back();
  whole.level = likeliest(marker, readings);
  out.by_animal.push_back(whole);
}

}  // namespace

std::vector<MarkerReadings> marker_readings(
    const colony::Colony& colony, const std::optional<colony::Date>& as_of,
    const std::vector<std::optional<colony::Date>>& before) {
  const odds::Scenario scenario = odds::scenario(colony, as_of);
  std::map<std::pair<std::size_t, std::size_t>, Looked> looked;  // by marker and animal
  for (const colony::Observation* observation : scenario.observations) {
    const auto* score = std::get_if<colony::Score>(&observation->what);
    if (score == nullptr) continue;
    Looked& at = looked[{score->marker, score->animal}];
    const auto& day = before[score->animal];
    if (day && observation->known && *day <= *observation->known) {
      at.too_late = true;
    } else if (score->level) {
      at.levels.push_back(observation);
    } else {
      at.without_level = true;
    }
  }
  const auto shows = appearances(colony, scenario);
  std::map<std::pair<std::size_t, std::size_t>, MarkerReadings> found;  // by marker and table
  std::vector<std::size_t> masked(colony.model().markers().size(), 0);
  for (auto& [key, at] : looked) {
    const auto& [m, animal] = key;
    const colony::Marker& marker = colony.model().markers()[m];
    const auto table = odds::table_in_force(marker, shows[animal], colony.animals()[animal].line);
    if (!table) {
      ++masked[m];
      continue;
    }
    MarkerReadings& out = found[{m, *table}];
    out.marker = m;
    out.table = *table;
    add_animal(marker, animal, std::move(at), out);
  }
  std::vector<MarkerReadings> out;
  for (auto& [key, readings] : found) {
    if (readings.by_animal.empty()) continue;
    readings.masked = masked[key.first];
    out.push_back(std::move(readings));
  }
  return out;
}

}  // namespace likelihet::audit
