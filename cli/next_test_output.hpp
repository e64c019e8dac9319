// A plan of tests, for people and for programs.
#pragma once

#include <string>

#include "terminal.hpp"

#include <likelihet/colony/colony.hpp>
#include <likelihet/planning/next_test.hpp>

namespace likelihet::cli {

/// What was planned, and what was asked for.
struct TestPlanTold {
  const colony::Colony* colony = nullptr;
  const colony::Policy* policy = nullptr;
  const planning::TestQuestion* question = nullptr;
  const planning::TestPlan* plan = nullptr;
};

/// The tests in order with what each adds, the bound, what each result would change, and cautions.
std::string next_test_text(const TestPlanTold& told, const Terminal& terminal);

/// The "likelihet-next-test" document: also every candidate with what it is worth alone.
std::string next_test_json(const TestPlanTold& told);

}  // namespace likelihet::cli
