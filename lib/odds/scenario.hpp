// What an odds computation takes as given: a colony's pedigree and the observations that count, or
// a variation of them that asks "what if".
#pragma once

#include <compare>
#include <cstddef>
#include <map>
#include <memory>
#include <optional>
#include <unordered_set>
#include <vector>

#include <likelihet/colony/colony.hpp>

namespace likelihet::odds {

/// In place of 0: so small that two of them never matter beside one, yet far from underflow. A
/// genotype that a record rules out keeps a share of this size, which is divided out again.
inline constexpr double soft_zero = 1e-40;

/// An animal's genotype at one locus, by their positions.
struct GenotypePlace {
  std::size_t animal = 0;
  std::size_t locus = 0;
  auto operator<=>(const GenotypePlace&) const = default;
};

/// Points into a colony, which must outlive it. Copies are cheap enough to vary. Everything else,
/// ids and clutches and model, is the colony's own.
struct Scenario {
  const colony::Colony* colony = nullptr;
  std::vector<const colony::Observation*> observations;  ///< that count, withdrawals left out
  /// As recorded, or as its part in a clutch implies; empty: unknown.
  std::vector<std::optional<genetics::Sex>> sexes;   ///< by animal
  std::vector<std::optional<std::size_t>> clutches;  ///< by animal; empty: taken as a founder
  std::vector<bool> unplaced;  ///< by animal: of wholly unknown descent, every genotype alike
  /// Shares as in colony::Clutch: they sum to 1.
  std::map<std::size_t, std::vector<colony::Sire>> sires;  ///< by clutch, where not the colony's
  /// Shared between copies; `observations` points to them too.
  std::vector<std::shared_ptr<const colony::Observation>> altered;  ///< owned stand-ins
  /// Observations whose zeros are softened to `soft_zero`, so that what they exclude can be asked
  /// for.
  std::unordered_set<const colony::Observation*> softened;
  /// Genotypes that can be held at a state (joint.hpp): each gets a variable and a table of ones.
  /// No odds change by it, but for rounding.
  std::vector<GenotypePlace> held;
  /// Where evidence may be supposed that nobody recorded (supposed.hpp). Repeats are allowed.
  std::vector<GenotypePlace> supposed;

  [[nodiscard]] const std::vector<colony::Sire>& sires_of(std::size_t clutch) const {
    const auto found = sires.find(clutch);
    return found == sires.end() ? colony->clutches()[clutch].sires : found->second;
  }
};

/// The colony as it stood at the end of `as_of`, or as it stands. Animals and clutches have no days
/// of their own in this: all of them are there on any day. Only observations are left out.
Scenario scenario(const colony::Colony& colony, const std::optional<colony::Date>& as_of);

/// The same without one of its observations. By address; an observation that is not in it changes
/// nothing.
Scenario without(const Scenario& whole, const colony::Observation* skipped);

}  // namespace likelihet::odds
