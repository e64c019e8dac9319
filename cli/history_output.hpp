// The course of an animal's odds, for people and for programs.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "lens.hpp"
#include "terminal.hpp"

#include <likelihet/colony/colony.hpp>
#include <likelihet/odds/why.hpp>

namespace likelihet::cli {

/// One line a day, with what was recorded of the animal itself; other days are its relatives'.
/// `lens.animals` holds the one animal. Figures are of the posterior; the first line is "before"
/// any record.
std::string history_text(const colony::Colony& colony, const std::vector<odds::Moment>& moments,
                         const Lens& lens, const std::optional<colony::Date>& as_of,
                         const Terminal& terminal);

/// The "likelihet-history" document. Posterior and `het` means of each day; without intervals,
/// which would take draws for each.
std::string history_json(const colony::Colony& colony, const std::vector<odds::Moment>& moments,
                         const Lens& lens, const std::optional<colony::Date>& as_of);

}  // namespace likelihet::cli
