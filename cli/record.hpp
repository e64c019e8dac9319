// Recording one observation, and telling what it changed.
#pragma once

#include <optional>
#include <string>

#include "arguments.hpp"
#include "shell.hpp"

#include <likelihet/colony/records.hpp>

namespace likelihet::cli {

/// What every recording command asks beside the observation itself. Options that were not given are
/// empty; without `on` the day is not known, not today.
struct RecordAsked {
  std::string book;
  std::string on;
  std::optional<std::string> id;
};

/// --on, --id and --json. The operand for the book is added by the command, which knows its place
/// among the others.
void add_record_options(CLI::App& command, CommandLine& line, RecordAsked& asked);

/// Whether odds are computed before and after, and the difference told.
enum class TellMoves {
  no,  ///< the scorer must stay blind to the odds
  yes,
};

/// Adds the observation to the book; without an id it gets the next free one ("o17"). Where the
/// odds contradict themselves with it, it is recorded all the same and the reply says so. The kind
/// of record is that of `what`. Nothing is told of the odds where they would take too much memory,
/// or where the same observation was there already. Throws Failure{input} with the book's faults.
Reply record(const RecordAsked& asked, const decltype(colony::ObservationRecord::what)& what,
             TellMoves tell, const Shell& shell);

}  // namespace likelihet::cli
