// likelihet add: the group of commands that add animals and clutches.
#include "commands.hpp"

namespace likelihet::cli {

void add_add(CLI::App& program, CommandLine& line) {
  CLI::App& add = new_command(program, line, "add", "Add an animal or a clutch, or complete one.",
                              "  likelihet add animal demo.book F01 --sex female\n"
                              "  likelihet add clutch demo.book C03 --dam F01 --sire M02\n");
  needs_command(add);
  add_add_animal(add, line);
  add_add_clutch(add, line);
}

}  // namespace likelihet::cli
