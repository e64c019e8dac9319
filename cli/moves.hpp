// Which animals' odds a new observation moved, and by how much.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "terminal.hpp"

#include <likelihet/colony/colony.hpp>
#include <likelihet/odds/odds.hpp>

namespace likelihet::cli {

/// The chance of exactly one copy of an allele, before and after. Probabilities of the posterior.
/// All alleles but the first are looked at.
struct Move {
  std::string animal, locus, allele;
  double before = 0;
  double after = 0;
  bool certain_before = false;  ///< no other number of copies is possible
  bool certain_after = false;
};

/// Nothing in either means that the observation changed no figure.
struct MovesTold {
  std::vector<Move> moves;  ///< largest first; those a figure with one decimal can show
  std::optional<odds::Surprise> surprise;  ///< that the new observation is
};

/// Compares the odds of one colony before and after `observation` was added to its records. Both
/// must hold every animal of `colony`, in its order; a move counts from 0.0005 on, half a step of
/// the last decimal. `observation` is a position in `colony`.
MovesTold moves_between(const colony::Colony& colony, const odds::ColonyOdds& before,
                        const odds::ColonyOdds& after, std::size_t observation);

/// "12 animals changed" and a table of them, the largest twenty. Animals are counted once, however
/// many loci moved.
std::string moves_text(const MovesTold& told, const Terminal& terminal);

}  // namespace likelihet::cli
