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
/// plan refers to the network. A plan that is impossible() is a value here: the evidence up to
/// Layer::pedigree contradicts itself.
class Prepared {
 public:
  Prepared(const Scenario& scenario, const Tables& tables)
      : net(colony_network(scenario, tables)) {}
  Prepared(const Prepared&) = delete;
  Prepared& operator=(const Prepared&) = delete;

  ColonyNetwork net;
  std::unique_ptr<inference::Plan> plan;
};

/// Ready to compute, or too large for `memory_bytes`, found before any table of the tree is made.
/// Tables of inheritance are made earlier, but only where they fit or are under 16 MiB: their size
/// is the cube of a locus's genotypes. The scenario's colony must outlive it; the scenario itself
/// and the tables need not.
std::variant<std::unique_ptr<Prepared>, TooLarge> prepare(const Scenario& scenario,
                                                          const Tables& tables,
                                                          std::size_t memory_bytes);

/// The belief of one animal at one locus, in state order. `beliefs` must be of this plan and
/// `possible`. Sums to 1.
std::vector<double> genotype_odds(const Prepared& prepared, const inference::Beliefs& beliefs,
                                  std::size_t animal, std::size_t locus);

/// ln P(observations | descent, recorded and implied sexes) up to `layer`, nats; -infinity where
/// they contradict each other. Makes a network and a plan each time; the reasons for a surprise are
/// weighed by differences of it.
std::variant<double, TooLarge> log_evidence(const Scenario& scenario, const Tables& tables,
                                            Layer layer, std::size_t memory_bytes);

/// ln P(sexes | descent) in the units of the scenario's networks. What log_evidence() takes off.
/// Without viability it is a count of halves; with it, a network without observations is run, since
/// being alive then tells of the parents.
std::variant<double, TooLarge> log_of_sexes(const Scenario& scenario, const Prepared& prepared,
                                            const Tables& tables, std::size_t memory_bytes);

/// One animal's odds in all layers; `het` intervals are [mean, mean]. Empty where the evidence
/// contradicts itself. Empty means no loci in it. Costs as much as the whole colony's odds without
/// intervals and surprises: every belief is worked out, one animal's read.
std::variant<AnimalOdds, TooLarge> odds_of(const Scenario& scenario, std::size_t animal,
                                           std::size_t memory_bytes);

}  // namespace likelihet::odds
