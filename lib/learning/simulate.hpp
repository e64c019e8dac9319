// Books that the model itself would write: for power, and to check learning against what is known.
#pragma once

#include <cstdint>
#include <vector>

#include <likelihet/colony/records.hpp>
#include <likelihet/odds/odds.hpp>

namespace likelihet::learning {

/// Records like those given, with other outcomes, and the truth behind them.
struct Simulated {
  colony::Records records;
  odds::Tables tables;
  /// By animal x locus: a position among the locus's genotypes.
  std::vector<std::size_t> genotypes;
};

using SimulateOutcome = std::variant<Simulated, odds::Contradiction, odds::TooLarge>;

/// Draws tables from the model's beliefs (drawn_belief(): Dirichlet rows and origins, Beta scorers,
/// half-normal loadings), then every
/// genotype given descent and recorded sexes (exactly, backwards through the junction tree), then
/// what each observation would have shown: the same animals seen, scored, tested and bred as often
/// and by the same hands, with other outcomes. All readings of a marker on an animal look at one
/// level; contexts follow the appearances drawn; a report is another animal's with `mix_up`; a
/// brood keeps its size. Scores that could not be read, claims of sellers and withdrawals stay.
/// Simulated books are what simulation-based calibration compares with (Talts et al. 2018,
/// arXiv:1804.06788). `records` are those the colony was made of. A pedigree that is
/// impossible by itself, or too large, is told as for odds.
SimulateOutcome simulate(const colony::Colony& colony, const colony::Records& records,
                         std::uint64_t seed, std::size_t memory_bytes = std::size_t{2} << 30U);

}  // namespace likelihet::learning
