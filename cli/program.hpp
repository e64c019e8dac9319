// The whole command line: reading it, helping with it, saying what is wrong with it.
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "arguments.hpp"
#include "failure.hpp"

namespace likelihet::cli {

/// Help or the version, asked for.
struct Information {
  std::string text;
};

/// What the arguments (without the program's name) ask for, or Failure{usage} that names the
/// nearest known command or option.
std::variant<CommandLine, Information, Failure> read_command_line(
    const std::vector<std::string>& arguments);

}  // namespace likelihet::cli
