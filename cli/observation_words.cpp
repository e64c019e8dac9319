// Puts each kind of observation into words.
#include "observation_words.hpp"

#include <algorithm>
#include <string>
#include <variant>

#include "printable.hpp"
#include <fmt/format.h>

namespace likelihet::cli {
namespace {

constexpr std::size_t most_listed = 3;

/// One overload a kind of observation.
class Words {
 public:
  explicit Words(const colony::Colony& colony) : colony_(colony), model_(colony.model()) {}

  std::string operator()(const colony::AppearanceSeen& seen) const {
    const auto& locus = model_.loci()[seen.locus];
    return fmt::format("looks {} ({})", locus.appearances()[seen.appearance], locus.id());
  }

  std::string operator()(const colony::Score& score) const {
    const auto& marker = model_.markers()[score.marker];
    const std::string who = score.scorer ? model_.scorers()[*score.scorer].id + " read " : "";
    if (!score.level) return fmt::format("{}{}: could not be scored", who, marker.id);
    const std::string sure =
        score.sure < 1 ? fmt::format(" ({:.3g} % sure)", 100 * score.sure) : std::string{};
    return fmt::format("{}{}: {}{}", who, marker.id, marker.levels[*score.level], sure);
  }

  std::string operator()(const colony::Result& result) const {
    const auto& assay = model_.assays()[result.assay];
    const std::string sample =
        result.sample.empty() ? std::string{} : fmt::format(" (sample {})", result.sample);
    return fmt::format("{}: {}{}", assay.id, assay.reports[result.report], sample);
  }

  std::string operator()(const colony::Brood& brood) const {
    const auto& locus = model_.loci()[brood.locus];
    std::string counts;
    for (const auto& [appearance, count] : brood.offspring) {
      counts += fmt::format("{}{} {}", counts.empty() ? "" : ", ", count,
                            locus.appearances()[appearance]);
    }
    return fmt::format("brood with {}: {}", locus.key(brood.partner),
                       counts.empty() ? "none alive" : counts);
  }

  std::string operator()(const colony::Withdrawal& withdrawal) const {
    return fmt::format("{} withdrawn", colony_.observations()[withdrawal.of].id);
  }

 private:
  const colony::Colony& colony_;
  const colony::Model& model_;
};

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
    names += (i == 0 ? "" : ", ") + printable(colony.animals()[animals[i]].id);
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
  std::string words = std::visit(Words(colony), seen.what);
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
