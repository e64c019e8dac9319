// The shared options of planning.
#include "planning_options.hpp"

namespace likelihet::cli {

void add_planning(CLI::App& command, CommandLine& line, PlanningAsked& asked) {
  add_choice(command, "--tables", asked.tables, {"belief", "learned"},
             "the model's, or what the book taught; not given = learned if fresh");
  add_computation(command, asked.computation);
  add_json(command, line);
}

}  // namespace likelihet::cli
