// What the rest of the book would have said of each clutch.
#pragma once

#include <optional>
#include <vector>

#include <likelihet/audit/forecast.hpp>
#include <likelihet/audit/truths.hpp>
#include <likelihet/odds/scenario.hpp>

namespace likelihet::audit {

/// Adds a forecast on each basis for the truths in `open` that the rest of the book leaves open;
/// refuses the others. Learns once for all, and from there without each clutch. Something only
/// where the memory is short.
std::optional<odds::TooLarge> forecast_left_out(const colony::Colony& colony,
                                                const TruthSettings& settings,
                                                const std::vector<std::size_t>& open,
                                                Forecasts& out);

/// Whether an observation may inform the forecasts of a left-out group: it is of another animal, or
/// a look or score of one of the group that was recorded before that animal's own truth. By animal:
/// `family` the group and its descendants, `group` the group itself, `first` the first day of any
/// truth. A look or score without a day cannot be shown to be earlier where a truth is known.
bool may_inform(const colony::Observation& observation, const std::vector<bool>& family,
                const std::vector<bool>& group,
                const std::vector<std::optional<colony::Date>>& first);

}  // namespace likelihet::audit
