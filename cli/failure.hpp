// A command that ends without its result: the status to exit with, and the faults to tell.
#pragma once

#include <exception>
#include <string>

#include "exit_status.hpp"

#include <likelihet/colony/fault.hpp>

namespace likelihet::cli {

/// Thrown by commands and caught in main alone, which prints the faults on standard error. Its
/// what() is no message: the faults are.
class Failure : public std::exception {
 public:
  Failure(ExitStatus status, colony::Faults faults);
  /// With a single fault.
  Failure(ExitStatus status, std::string place, std::string what, std::string mend);

  [[nodiscard]] ExitStatus status() const { return status_; }
  [[nodiscard]] const colony::Faults& faults() const { return faults_; }
  [[nodiscard]] const char* what() const noexcept override { return "a command failed"; }

 private:
  ExitStatus status_;
  colony::Faults faults_;
};

/// The failure that the exception being handled amounts to (a BookError, no memory, anything else);
/// call it within a catch block. What it does not know is reported as a fault of the program.
Failure failure_of_current_exception();

/// The failure as it is told where the command had written `recorded` into the book before: that
/// comes first, lest it is entered twice. The same failure where that is empty.
Failure after_recording(const std::string& recorded, Failure failure);

/// For people: "error: PLACE: WHAT" and "fix: HOW" a fault, the first fifty of them. Safe
/// for a terminal, whatever the faults quote. Ends in a line end.
std::string failure_text(const Failure& failure);

/// For programs: the "likelihet-error" document, on one line, with every fault. Ill-formed UTF-8 in
/// a fault becomes U+FFFD.
std::string failure_json(const Failure& failure);

}  // namespace likelihet::cli
