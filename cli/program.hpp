// The whole command line: reading it, helping with it, saying what is wrong with it.
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "arguments.hpp"
#include "failure.hpp"

namespace likelihet::cli {

/// Help or the version, asked for. Goes to standard output, with exit 0.
struct Information {
  std::string text;
};

/// What the arguments (without the program's name) ask for, or Failure{usage} that names the
/// nearest known command or option. Opens nothing and never exits. A command that was chosen owns
/// what it was asked, so the arguments may go.
std::variant<CommandLine, Information, Failure> read_command_line(
    const std::vector<std::string>& arguments);

}  // namespace likelihet::cli
