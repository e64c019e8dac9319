// Options that the commands about pairings share.
#pragma once

#include <string>

#include "arguments.hpp"

namespace likelihet::cli {

struct PlanningAsked {
  std::string tables;  ///< "belief", "learned" or empty: whichever holds
  ComputationAsked computation;
};

/// --tables, --as-of, --memory and --json.
void add_planning(CLI::App& command, CommandLine& line, PlanningAsked& asked);

}  // namespace likelihet::cli
