// Accounts of an animal's odds, for people and for programs.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "terminal.hpp"

#include <likelihet/colony/colony.hpp>
#include <likelihet/odds/why.hpp>

namespace likelihet::cli {

struct Answer {
  odds::Question question;
  odds::Account account;
};

/// Step by step in the order the evidence came, the animal's own and its relatives' told apart; the
/// last line multiplies it out.
std::string why_text(const colony::Colony& colony, const std::vector<Answer>& answers,
                     const std::optional<colony::Date>& as_of, const Terminal& terminal);

/// The "likelihet-why" document.
std::string why_json(const colony::Colony& colony, const std::vector<Answer>& answers,
                     const std::optional<colony::Date>& as_of);

}  // namespace likelihet::cli
