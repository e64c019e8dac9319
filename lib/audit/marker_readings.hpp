// What was read of a marker, animal by animal, and what could not be.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include <likelihet/colony/colony.hpp>

namespace likelihet::audit {

/// One look at a marker by which a level was read.
struct LevelRead {
  std::size_t animal = 0;
  std::size_t level = 0;
  std::optional<std::size_t> scorer;
  std::optional<bool> blind;
  std::optional<colony::Date> on;  ///< the day it was read, else the day from which it counts
};

/// A marker in one context, or by its own rows where none fits.
struct MarkerReadings {
  std::size_t marker = 0;
  std::size_t table = 0;             ///< 0: its own rows; 1 + c: context c
  std::vector<LevelRead> by_animal;  ///< one an animal: the level that its readings make likeliest
  std::vector<LevelRead> all;        ///< each reading, by animal, day and id
  std::size_t not_scorable = 0;      ///< animals looked at without a level
  std::size_t too_late = 0;          ///< animals whose readings all came after their truth
  std::size_t masked = 0;            ///< animals where a context says it cannot be read
};

/// All markers in all contexts in which any level was read, by marker and table. Readings count up
/// to `as_of`, and only before the day `before[animal]` where there is one: who knows the truth
/// does not read blind. "Could not be scored" is never a level. Of several readings the level with
/// the largest product of odds/evidence_score.hpp counts, the higher of two alike; where sure
/// readings leave none possible, the highest that was read.
std::vector<MarkerReadings> marker_readings(const colony::Colony& colony,
                                            const std::optional<colony::Date>& as_of,
                                            const std::vector<std::optional<colony::Date>>& before);

}  // namespace likelihet::audit
