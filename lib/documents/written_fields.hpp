// The words and values that every form of a record is written with.
#pragma once

#include <optional>

#include <likelihet/colony/records.hpp>

namespace likelihet::documents {

/// The words that the documents use, as the readers know them. English, lower case: part of the
/// format, not of the language of the program.
inline const char* word_for(genetics::Sex sex) {
  return sex == genetics::Sex::female ? "female" : "male";
}

inline const char* word_for(colony::Paternity paternity) {
  return paternity == colony::Paternity::single ? "single" : "mixed";
}

/// `recorded` as it is written: where nothing else dates the observation, the time of entry does,
/// so that `--as-of` gives the same answer in the book that reads it. A reference into the
/// observation.
inline const std::optional<colony::Timestamp>& written_recorded(
    const colony::ObservationRecord& observation) {
  return observation.on || observation.recorded ? observation.recorded : observation.entered;
}

}  // namespace likelihet::documents
