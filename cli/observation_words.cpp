// Puts observations, alone and together, into words.
#include "observation_words.hpp"

#include <algorithm>
#include <string>

#include "printable.hpp"
#include <fmt/format.h>

#include <likelihet/odds/words.hpp>

namespace likelihet::cli {
namespace {

constexpr std::size_t most_listed = 3;

/// "12 observations of 23-C2-02, 23-C2-04, 23-C2-05 and 3 more animals".
std::string summary_of(const colony::Colony& colony, const std::vector<std::size_t>& observations) {
  std::vector<std::size_t> animals;
  for (const std::size_t position : observations) {
    const auto animal = colony::animal_of(colony.observations()[position]);
    if (animal && std::find(animals.begin(), animals.end(), *animal) == animals.end()) {
      animals.push_back(*animal);
    }
  }
  std::string names;
  for (std::size_t i = 0; i < animals.size() && i < most_listed; ++i) {
    names += (i == 0 ? "" : ", ") + printable_id(colony.animals()[animals[i]].id);
  }
  if (animals.size() > most_listed) {
    const std::size_t more = animals.size() - most_listed;
    names += fmt::format(" and {} more animal{}", more, more == 1 ? "" : "s");
  }
  return fmt::format("{} observations of {}", observations.size(), names);
}

}  // namespace

std::string words_of(const colony::Colony& colony, std::size_t observation, bool name) {
  const auto& seen = colony.observations()[observation];
  std::string words = odds::words_of(colony, seen);
  if (const auto animal = colony::animal_of(seen); name && animal) {
    words = colony.animals()[*animal].id + ": " + words;
  }
  return printable(words);
}

std::string words_of(const colony::Colony& colony, const std::vector<std::size_t>& observations,
                     bool name) {
  if (name && observations.size() > most_listed) return summary_of(colony, observations);
  std::string words;
  for (const std::size_t position : observations) {
    words += (words.empty() ? "" : "; ") + words_of(colony, position, name);
  }
  return words;
}

std::string day_in_words(const colony::Observation& observation) {
  if (observation.on) return observation.on->text();
  return observation.known ? observation.known->text() : "undated";
}

}  // namespace likelihet::cli
