// ProveOuts by non-visual offspring, for people and for programs.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "planning_output.hpp"

#include <likelihet/planning/prove_out.hpp>

namespace likelihet::cli {

struct ProveOutShown {
  planning::ProveOutAsked asked;
  std::optional<colony::Date> as_of;
  TablesUsed tables = TablesUsed::belief;
  planning::ProveOut proof;
};

/// Where the table of non-visual offspring ends: at the largest number needed, between 10 and 60
/// offspring.
std::size_t last_row(const planning::ProveOutOdds& odds);

/// What is needed, what has been seen, what each offspring would say.
std::string prove_out_text(const colony::Colony& colony, const ProveOutShown& shown,
                           const Terminal& terminal);

/// The "likelihet-prove-out" document.
std::string prove_out_json(const colony::Colony& colony, const ProveOutShown& shown);

}  // namespace likelihet::cli
