// Why the records cannot all be true: a smallest set of them that clashes.
#pragma once

#include <likelihet/odds/odds.hpp>
#include <likelihet/odds/options.hpp>
#include <likelihet/odds/scenario.hpp>

namespace likelihet::odds {

/// A set of observations (and recorded sexes, where a locus is sex-linked) that contradict each
/// other under the pedigree, of which none can be left out: found by divide and conquer (Junker
/// 2004, QuickXplain, AAAI 167-172). The scenario must be contradictory.
Contradiction explain(const Scenario& scenario, const Options& options);

}  // namespace likelihet::odds
