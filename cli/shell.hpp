// What every command is given, and what it gives back.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <utility>

#include "failure.hpp"
#include "terminal.hpp"

namespace likelihet::cli {

/// How the user wants to be answered. Choices only: commands return text and write nothing
/// themselves.
struct Shell {
  bool json = false;  ///< for programs
  ColourWhen colour = ColourWhen::automatic;

  /// Asks the system anew each time.
  [[nodiscard]] Terminal terminal() const { return Terminal::of_standard_output(colour); }

  /// What the book holds from now on: "observation o17", "2 claims". A command says so right after
  /// it was written, so that whatever fails later is not taken for a failure to write.
  void has_recorded(std::string what) const { *recorded_ = std::move(what); }
  /// Empty where nothing was written.
  [[nodiscard]] const std::string& recorded() const { return *recorded_; }

 private:
  std::shared_ptr<std::string> recorded_ = std::make_shared<std::string>();
};

/// What goes to standard output. `failure` is for commands that have a result and bad news as well,
/// such as a result recorded that contradicts the rest. The text ends in a line end or is empty.
/// With a failure its status is the exit status, and its faults go to standard error after the
/// output.
struct Reply {
  std::string output;
  std::optional<Failure> failure;
};

/// May throw Failure, BookError and what the library throws; main tells all of them.
using Command = std::function<Reply(const Shell&)>;

}  // namespace likelihet::cli
