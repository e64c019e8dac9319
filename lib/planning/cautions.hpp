// What a breeder should know before pairing: advice here can hurt an animal or a buyer.
#pragma once

#include <string>
#include <vector>

#include <likelihet/planning/outlook.hpp>
#include <likelihet/planning/prove_out.hpp>
#include <likelihet/planning/rank.hpp>

namespace likelihet::planning {

struct Caution {
  std::string code;  ///< stable, for programs: "lethal", "locus", "inbreeding", "none-can-live",
                     ///< "combination", "claims" or "law"
  std::string text;  ///< in a keeper's words
};

/// Inbreeding as of half-siblings' offspring: where the caution grows stronger. Common practice, no
/// source.
inline constexpr double close_kin = 0.125;

/// What a pairing calls for: genotypes that cannot live, loci that the model warns of where
/// offspring may carry them, relatedness, and what holds for every pairing. Never empty.
std::vector<Caution> cautions_of(const colony::Colony& colony, const Outlook& outlook);
/// The same of test matings; the partner's relatedness where it is in the book.
std::vector<Caution> cautions_of(const colony::Colony& colony, const ProveOutAsked& asked);
/// The same of a goal, whoever is paired for it.
std::vector<Caution> cautions_of(const colony::Colony& colony, const Goal& goal);

}  // namespace likelihet::planning
