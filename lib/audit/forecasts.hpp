// Forecasts as they stood, and with the clutch left out; never by what taught them the truth.
#pragma once

#include <variant>

#include <likelihet/audit/forecast.hpp>
#include <likelihet/audit/truths.hpp>

namespace likelihet::audit {

/// Both forecasts, on both bases, of every truth that was open before it was known.
///
/// As it stood: from the observations known at the end of the day before `known_on`, averaged over
/// tables drawn from what those teach (learned_draws.hpp), each day's chain starting where that of
/// the day before ended. Pedigree: the same observations without scores, at the model's own tables.
///
/// Clutch left out: tables from all observations but those on the clutch's hatchlings and their
/// descendants; the forecast then takes in the scores, and looks, that were recorded of the
/// hatchlings before each one's own truth was known. A founder is left out alone, with its
/// descendants.
///
/// A truth is refused where it was known before any dated record, before the animal hatched, or
/// (clutch left out) where the rest of the book makes it known: such a forecast would score what it
/// was told. The same records in another order give the same numbers.
std::variant<Forecasts, odds::Contradiction, odds::TooLarge> forecasts(
    const colony::Colony& colony, const TruthSettings& settings);

}  // namespace likelihet::audit
