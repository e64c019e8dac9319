// The policy document ("likelihet-policy", version 1) in and out.
#pragma once

#include <string>
#include <string_view>
#include <variant>

#include <likelihet/colony/fault.hpp>
#include <likelihet/colony/policy.hpp>

namespace likelihet::documents {

/// Reads a policy document; faults of form as for read_model. Fields that are left out have the
/// defaults of colony::Policy. Whether it fits a model is for colony::policy_faults.
std::variant<colony::Policy, colony::Faults> read_policy(std::string_view text);

/// Writes it whole, defaults too, so that a change of a default in the program changes no policy
/// that a book holds. The same policy always gives the same text; it reads back equal.
std::string write_policy(const colony::Policy& policy);

}  // namespace likelihet::documents
