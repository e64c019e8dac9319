// Accounts of an animal's odds, for people and for programs.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "terminal.hpp"

#include <likelihet/colony/colony.hpp>
#include <likelihet/odds/why.hpp>

namespace likelihet::cli {

/// The account of one allele of one locus; a command gives several of one animal.
struct Answer {
  odds::Question question;
  odds::Account account;
};

/// Step by step in the order the evidence came, the animal's own and its relatives' told apart; the
/// last line multiplies it out. Steps under 0.05 decibans are counted, not listed. Where evidence
/// proves or rules out, the last line says so in words instead of a product.
std::string why_text(const colony::Colony& colony, const std::vector<Answer>& answers,
                     const std::optional<colony::Date>& as_of, const Terminal& terminal);

/// The "likelihet-why" document. All steps, small ones too. `answers` is not empty and of one
/// animal. Infinite factors and decibans are the texts "infinity" and "-infinity", as JSON has no
/// number for them.
std::string why_json(const colony::Colony& colony, const std::vector<Answer>& answers,
                     const std::optional<colony::Date>& as_of);

}  // namespace likelihet::cli
