// Proofs by clear young, for people and for programs.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "planning_output.hpp"

#include <likelihet/planning/proof.hpp>

namespace likelihet::cli {

struct ProofShown {
  planning::ProofAsked asked;
  std::optional<colony::Date> as_of;
  TablesUsed tables = TablesUsed::belief;
  planning::Proof proof;
};

/// Where the table of clear young ends: at the largest number needed, between 10 and 60 young.
std::size_t last_row(const planning::ProofOdds& odds);

/// What is needed, what has been seen, what each young would say.
std::string proof_text(const colony::Colony& colony, const ProofShown& shown,
                       const Terminal& terminal);

/// The "likelihet-proof" document.
std::string proof_json(const colony::Colony& colony, const ProofShown& shown);

}  // namespace likelihet::cli
