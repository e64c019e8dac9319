// Many sets of tables through one plan.
#pragma once

#include <cstddef>
#include <functional>

#include <likelihet/odds/number_sets.hpp>

namespace likelihet::odds {

/// Runs `draws` sets of tables, in order, over the evidence up to `layer`. `next` gives each set;
/// `visit` gets each target's posterior, over its locus's genotypes, lane by lane, and `step` what
/// goes for the whole step, before its targets. A set of tables at which nothing is possible by
/// rounding counts as the believed ones. One by one where eight together would pass `memory_bytes`.
void run_draws(const Prepared& prepared, const colony::Model& model, Layer layer,
               const DrawTargets& targets, std::size_t draws, std::size_t memory_bytes,
               const std::function<const Tables&()>& next, const StepVisitor& step,
               const TargetVisitor& visit);

}  // namespace likelihet::odds
