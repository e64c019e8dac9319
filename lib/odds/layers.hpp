// A scenario's exact beliefs, layer by layer.
#pragma once

#include <cstddef>
#include <memory>
#include <variant>
#include <vector>

#include <likelihet/inference/engine.hpp>
#include <likelihet/odds/colony_network.hpp>
#include <likelihet/odds/odds.hpp>

namespace likelihet::odds {

/// A scenario made ready to compute: its network and the plan through it. Not movable, since the
/// plan refers to the network.
class Prepared {
 public:
  Prepared(const Scenario& scenario, const Tables& tables)
      : net(colony_network(scenario, tables)) {}
  Prepared(const Prepared&) = delete;
  Prepared& operator=(const Prepared&) = delete;

  ColonyNetwork net;
  std::unique_ptr<inference::Plan> plan;
};

/// Ready to compute, or too large for `memory_bytes`, found before any table is made.
std::variant<std::unique_ptr<Prepared>, TooLarge> prepare(const Scenario& scenario,
                                                          const Tables& tables,
                                                          std::size_t memory_bytes);

/// The belief of one animal at one locus, in state order.
std::vector<double> genotype_odds(const Prepared& prepared, const inference::Beliefs& beliefs,
                                  std::size_t animal, std::size_t locus);

/// P(exactly one copy of `allele`).
double het_of(const genetics::Locus& locus, const std::vector<double>& odds, std::uint16_t allele);

/// ln P(observations | descent, recorded and implied sexes) up to `layer`, nats; -infinity where
/// they contradict each other.
std::variant<double, TooLarge> log_evidence(const Scenario& scenario, const Tables& tables,
                                            Layer layer, std::size_t memory_bytes);

/// ln P(sexes | descent) in the units of the scenario's networks.
std::variant<double, TooLarge> log_of_sexes(const Scenario& scenario, const Prepared& prepared,
                                            const Tables& tables, std::size_t memory_bytes);

/// One animal's odds in all layers; `het` intervals are [mean, mean]. Empty where the evidence
/// contradicts itself.
std::variant<AnimalOdds, TooLarge> odds_of(const Scenario& scenario, std::size_t animal,
                                           std::size_t memory_bytes);

}  // namespace likelihet::odds
