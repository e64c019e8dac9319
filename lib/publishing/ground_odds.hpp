// The odds that listings are made of, of every animal at once. Private to the layer.
#pragma once

#include <cstddef>
#include <optional>
#include <variant>
#include <vector>

#include <likelihet/odds/scenario.hpp>
#include <likelihet/publishing/listing.hpp>

namespace likelihet::publishing {

/// Probabilities over a locus's genotypes, by animal and locus, at the model's own tables.
struct GroundOdds {
  using Layer = std::vector<std::vector<std::vector<double>>>;
  odds::Scenario scenario;
  Layer pedigree;    ///< descent, the seller's description, sexes, appearances, broods
  Layer markerless;  ///< and results
  Layer all;         ///< and markers
  std::size_t memory_bytes = 0;

  /// Whether markers move this animal's odds at the locus at those tables: its own or those of
  /// relatives.
  [[nodiscard]] bool markers_tell(std::size_t animal, std::size_t locus) const;

  /// What `markerless` of an animal at a locus would be without these observations (positions in
  /// the colony); nothing where that would not fit the memory allowed. Computed anew at each call.
  [[nodiscard]] std::optional<std::vector<double>> markerless_without(
      const std::vector<std::size_t>& observations, std::size_t animal, std::size_t locus) const;
};

/// One plan with the markers and one without; without any marker the first is the second.
std::variant<GroundOdds, odds::Contradiction, odds::TooLarge> ground_odds(const Ground& ground);

}  // namespace likelihet::publishing
