// Notes beside the numbers.
#include "listing_notes.hpp"

#include "standing.hpp"
#include <fmt/format.h>

#include <likelihet/colony/trait_cautions.hpp>

namespace likelihet::publishing {

std::string markers_line(const colony::Colony& colony, const MarkersShown& markers) {
  const std::string& locus = colony.model().loci()[markers.locus].id();
  const std::string seen = markers.readings.empty()
                               ? std::string("none on the animal itself, some on relatives")
                               : fmt::format("{} score{}", markers.readings.size(),
                                             markers.readings.size() == 1 ? "" : "s");
  if (markers.count) {
    return fmt::format("Markers for {} counted ({}): the audit has earned it.", locus, seen);
  }
  if (markers.missing.empty()) {
    return fmt::format("Markers for {} seen ({}), and nothing left for them to tell.", locus, seen);
  }
  return fmt::format("Markers for {} seen ({}), not counted: {}.", locus, seen,
                     fmt::join(markers.missing, "; "));
}

std::vector<std::string> record_lines(const colony::Colony& colony,
                                      const std::vector<MarkersShown>& markers) {
  std::vector<std::string> out;
  for (const MarkersShown& one : markers) {
    if (one.record) out.push_back(record_in_words(colony, one.locus, *one.record));
  }
  if (out.empty()) {
    out.emplace_back("No past percentages have been checked for these numbers.");
  }
  return out;
}

std::vector<std::string> cautions_of(const colony::Model& model,
                                     const std::vector<std::size_t>& loci) {
  std::vector<std::string> out{
      "An estimate from the keeper's records, not a guarantee. Never read it as one.",
      "What may be said in selling is settled by consumer law, and keeping, breeding and trade by "
      "local law: both come first.",
      "On health and before pairing, ask a reptile veterinarian."};
  for (const auto& [traits, text] : colony::trait_cautions(model, loci)) {
    out.push_back(fmt::format("{}: {}", traits, text));
  }
  for (const std::size_t l : loci) {
    const genetics::Locus& locus = model.loci()[l];
    std::string lethal;
    for (std::size_t g = 0; g < locus.size(); ++g) {
      if (locus.viability(g) == 0) lethal += (lethal.empty() ? "" : ", ") + locus.key(g);
    }
    if (!lethal.empty()) {
      out.push_back(fmt::format(
          "{}: by the keeper's model, offspring of {} do not live. Do not pair two hets without a "
          "reptile veterinarian's advice.",
          locus.id(), lethal));
    }
  }
  return out;
}

std::string grade_word(colony::Grade grade) {
  switch (grade) {
    case colony::Grade::study:
      return "study";
    case colony::Grade::reports:
      return "reports";
    case colony::Grade::unknown:
      return "unknown";
  }
  return {};
}

std::string health_line(const colony::HealthPolicy& note) {
  const std::string grade = note.grade == colony::Grade::study     ? "a published study"
                            : note.grade == colony::Grade::reports ? "keepers' reports"
                                                                   : "unknown";
  return fmt::format("{}: {} (evidence: {}{})", note.locus, note.note, grade,
                     note.source ? ", " + *note.source : std::string(", no source given"));
}

}  // namespace likelihet::publishing
