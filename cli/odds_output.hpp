// The odds of a colony, for people and for programs.
#pragma once

#include <optional>
#include <string>

#include "learned_tables.hpp"
#include "lens.hpp"
#include "terminal.hpp"

#include <likelihet/colony/colony.hpp>
#include <likelihet/odds/odds.hpp>

namespace likelihet::cli {

/// Founders first, then a group a clutch, the newest last: pedigree, with markers, with results,
/// and the interval, of the chance of exactly one copy; then surprises and cautions. Where all
/// animals of a group have the same figures one line stands for them. A surprise is told only where
/// its animal and its locus are shown; cautions of every locus shown are.
std::string odds_text(const colony::Colony& colony, const odds::ColonyOdds& odds, const Lens& lens,
                      const std::optional<colony::Date>& as_of, TablesUsed tables,
                      const Terminal& terminal);

/// The "likelihet-odds" document (docs/documents.md). Probabilities unrounded, log evidence in
/// nats. `lens` chooses animals and loci; surprises are all there.
std::string odds_json(const colony::Colony& colony, const odds::ColonyOdds& odds, const Lens& lens,
                      const std::optional<colony::Date>& as_of, TablesUsed tables);

}  // namespace likelihet::cli
