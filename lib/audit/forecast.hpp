// What is audited: forecasts that an animal carries exactly one copy of an allele, and what came
// true.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include <likelihet/audit/kind.hpp>
#include <likelihet/colony/colony.hpp>

namespace likelihet::audit {

/// That an animal has exactly one copy of an allele: it is "het". Positions in the colony and its
/// model; the allele is one after the first.
struct Event {
  std::size_t animal = 0;
  std::size_t locus = 0;
  std::uint16_t allele = 1;
  friend auto operator<=>(const Event&, const Event&) = default;
};

/// An event whose truth became known: its probability from everything but markers went to the
/// threshold or beyond, and is there in the end.
struct Truth {
  Event event;
  /// P(exactly one copy) by all that counts but markers: near 0 or near 1. An outcome keeps its own
  /// probability.
  double probability = 0;
  /// The day whose records first made it known; empty where it was known before any dated record.
  std::optional<colony::Date> known_on;
  Kind kind = Kind::test;

  [[nodiscard]] bool so() const { return probability >= 0.5; }
};

/// `pedigree`: all that the book held but markers, with the model's own tables. `scored`: that and
/// the markers, with tables learned from what the scheme allows.
enum class Basis : std::uint8_t { pedigree, scored };

/// `as_it_stood`: the book as of the day before the truth became known, tables learned from that
/// alone (prequential: Dawid 1984, Journal of the Royal Statistical Society A 147:278).
/// `clutch_left_out`: the whole book, less what tells of the clutch's outcomes, with tables learned
/// without the clutch.
enum class Scheme : std::uint8_t { as_it_stood, clutch_left_out };

struct Forecast {
  std::size_t truth = 0;  ///< a position among the truths
  Basis basis = Basis::scored;
  Scheme scheme = Scheme::as_it_stood;
  double probability = 0;  ///< of exactly one copy, before the truth was known
};

/// Why a known truth has no forecast to be scored.
enum class Refusal : std::uint8_t {
  known_from_the_start,   ///< by records without a day, or by descent alone
  known_before_hatching,  ///< its parents made it certain
  others_tell             ///< without its clutch's records it is still known
};

/// A truth without a forecast under a scheme.
struct Refused {
  std::size_t truth = 0;
  Scheme scheme = Scheme::as_it_stood;
  Refusal why = Refusal::known_from_the_start;
};

/// Truths, and their forecasts under both schemes and on both bases.
struct Forecasts {
  std::vector<Truth> truths;        ///< by day, then animal, locus and allele
  std::vector<Forecast> forecasts;  ///< by scheme, then truth, then basis
  std::vector<Refused> refused;
  std::vector<bool> scored;  ///< by animal: whether any marker was read on it before its truth
};

/// Who is resampled together: the hatchlings of a clutch; a founder stands alone. Clutches are
/// numbered as in the colony, founders after them by animal.
inline std::size_t cluster_of(const colony::Colony& colony, std::size_t animal) {
  const auto clutch = colony.animals()[animal].clutch;
  return clutch ? *clutch : colony.clutches().size() + animal;
}

}  // namespace likelihet::audit
