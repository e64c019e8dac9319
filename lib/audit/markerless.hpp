// The odds of every event without any marker: the yardstick that markers are held against.
#pragma once

#include <cstddef>
#include <optional>
#include <variant>
#include <vector>

#include <likelihet/audit/forecast.hpp>
#include <likelihet/genetics/copies.hpp>
#include <likelihet/odds/layers.hpp>

namespace likelihet::audit {

/// Every event of a colony, in the order of animal, locus, allele.
std::vector<Event> events_of(const colony::Colony& colony);

/// The scenario without its scores.
odds::Scenario without_scores(const odds::Scenario& whole);

/// P(exactly one copy) of each event, in the order given, after all evidence of the scenario and
/// at these tables; empty where the evidence contradicts itself.
std::variant<std::vector<double>, odds::TooLarge> event_odds(const odds::Scenario& scenario,
                                                             const odds::Tables& tables,
                                                             const std::vector<Event>& events,
                                                             std::size_t memory_bytes);

/// Of each event, by everything but markers, as of a day, at the model's own tables.
std::variant<std::vector<genetics::CopyChances>, odds::TooLarge> markerless_copies(
    const odds::Scenario& whole, const std::vector<Event>& events, std::size_t memory_bytes);

}  // namespace likelihet::audit
