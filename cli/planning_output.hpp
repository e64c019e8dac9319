// What the commands about pairings have in common: how their documents begin, how they warn.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "learned_tables.hpp"
#include "terminal.hpp"
#include <nlohmann/json.hpp>

#include <likelihet/planning/cautions.hpp>

namespace likelihet::cli {

/// Sets of learned tables that these commands average over, evenly out of all that are kept.
inline constexpr std::size_t planning_draws = 100;

/// "As known at the end of DAY." with a line end, or nothing.
std::string as_of_text(const std::optional<colony::Date>& as_of);
/// "Caution: ..." lines, wrapped; each ends in a line end.
std::string cautions_text(const std::vector<planning::Caution>& cautions, const Terminal& terminal);
/// Which tables, then `more`.
std::string basis_text(TablesUsed tables, std::size_t draws, const std::string& more,
                       const Terminal& terminal);

nlohmann::ordered_json cautions_json(const std::vector<planning::Caution>& cautions);
/// Format, version, as_of, tables and draws.
nlohmann::ordered_json planning_head(const char* format, const std::optional<colony::Date>& as_of,
                                     TablesUsed tables, std::size_t draws);

}  // namespace likelihet::cli
