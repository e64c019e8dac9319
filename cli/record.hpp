// Recording one observation, and telling what it changed.
#pragma once

#include <optional>
#include <string>

#include "arguments.hpp"
#include "shell.hpp"

#include <likelihet/colony/records.hpp>

namespace likelihet::cli {

/// What every recording command asks beside the observation itself.
struct RecordAsked {
  std::string book;
  std::string on;
  std::optional<std::string> id;
};

/// --on, --id and --json.
void add_record_options(CLI::App& command, CommandLine& line, RecordAsked& asked);

enum class TellMoves {
  no,  ///< the scorer must stay blind to the odds
  yes,
};

/// Adds the observation to the book; without an id it gets the next free one ("o17"). Where the
/// odds contradict themselves with it, it is recorded all the same and the reply says so.
Reply record(const RecordAsked& asked, const decltype(colony::ObservationRecord::what)& what,
             TellMoves tell, const Shell& shell);

}  // namespace likelihet::cli
