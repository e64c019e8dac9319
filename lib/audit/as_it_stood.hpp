// What the book said the day before each truth was known.
#pragma once

#include <optional>
#include <vector>

#include <likelihet/audit/forecast.hpp>
#include <likelihet/audit/truths.hpp>

namespace likelihet::audit {

/// Adds a forecast on each basis for the truths in `open`, which must have a day. Learns once for
/// each day that ends before one on which a truth became known, from where the day before ended.
/// Where the book of a day contradicts itself there is no forecast: the truth is refused as
/// others_tell, since the records that clash told of it. Something only where the memory is short.
std::optional<odds::TooLarge> forecast_as_it_stood(const colony::Colony& colony,
                                                   const TruthSettings& settings,
                                                   const std::vector<std::size_t>& open,
                                                   Forecasts& out);

}  // namespace likelihet::audit
