// Computations that a command needs, their troubles turned into failures.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "failure.hpp"

#include <likelihet/colony/colony.hpp>
#include <likelihet/odds/odds.hpp>

namespace likelihet::cli {

/// Exit 4: what contradicts what, and each observation and sex that takes part. The first fault is
/// the sentence; each record is a fault of its own after it, with its day and words.
Failure failure_of(const colony::Colony& colony, const odds::Contradiction& contradiction);
/// Exit 5: what it would take, and what to do. Suggests more memory, or a book for each part of the
/// colony.
Failure failure_of(const odds::TooLarge& too_large);

/// The value of a computation, or its trouble thrown as a Failure. The colony must be the one
/// computed on: positions are looked up in it.
template <class Value>
Value value_or_fail(const colony::Colony& colony,
                    std::variant<Value, odds::Contradiction, odds::TooLarge> outcome) {
  if (const auto* contradiction = std::get_if<odds::Contradiction>(&outcome)) {
    throw failure_of(colony, *contradiction);
  }
  if (const auto* too_large = std::get_if<odds::TooLarge>(&outcome)) throw failure_of(*too_large);
  return std::get<Value>(std::move(outcome));
}

/// The position of what the user names, or Failure{input} with the nearest id there is. Ids are
/// compared exactly; only the suggestion ignores letter case.
std::size_t animal_named(const colony::Colony& colony, const std::string& id);
std::size_t clutch_named(const colony::Colony& colony, const std::string& id);
std::size_t locus_named(const colony::Model& model, const std::string& id);
std::size_t assay_named(const colony::Model& model, const std::string& id);

/// Those named, then the clutch's hatchlings, each once. Failure{usage} where that is nobody.
std::vector<std::size_t> animals_of(const colony::Colony& colony,
                                    const std::vector<std::string>& ids,
                                    const std::optional<std::string>& clutch);

}  // namespace likelihet::cli
