// Which hatchlings to keep, for people and for programs.
#pragma once

#include <string>

#include "terminal.hpp"

#include <likelihet/colony/colony.hpp>
#include <likelihet/planning/holdbacks.hpp>

namespace likelihet::cli {

/// What was found, and what was asked for.
struct HoldbacksTold {
  const colony::Colony* colony = nullptr;
  const planning::HoldbackQuestion* question = nullptr;
  const planning::Holdbacks* found = nullptr;
};

/// The best set of each size with its chance, what independent animals would give, and cautions.
std::string holdbacks_text(const HoldbacksTold& told, const Terminal& terminal);

/// The "likelihet-holdbacks" document.
std::string holdbacks_json(const HoldbacksTold& told);

}  // namespace likelihet::cli
