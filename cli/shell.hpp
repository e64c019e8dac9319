// What every command is given, and what it gives back.
#pragma once

#include <functional>
#include <optional>
#include <string>

#include "failure.hpp"
#include "terminal.hpp"

namespace likelihet::cli {

/// How the user wants to be answered.
struct Shell {
  bool json = false;  ///< for programs
  ColourWhen colour = ColourWhen::automatic;

  [[nodiscard]] Terminal terminal() const { return Terminal::of_standard_output(colour); }
};

/// What goes to standard output. `failure` is for commands that have a result and bad news as well,
/// such as a result recorded that contradicts the rest.
struct Reply {
  std::string output;
  std::optional<Failure> failure;
};

using Command = std::function<Reply(const Shell&)>;

}  // namespace likelihet::cli
