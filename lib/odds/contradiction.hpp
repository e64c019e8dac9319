// Why the records cannot all be true: a smallest set of them that clashes.
#pragma once

#include <likelihet/odds/odds.hpp>
#include <likelihet/odds/options.hpp>
#include <likelihet/odds/scenario.hpp>

namespace likelihet::odds {

/// A set of observations (and recorded sexes, where a locus is sex-linked) that contradict each
/// other under the pedigree, of which none can be left out: found by divide and conquer (Junker
/// 2004, QuickXplain, AAAI 167-172). The scenario must be contradictory. Smallest in that it has no
/// part that clashes by itself; another set with fewer records may exist. Asks for the whole sum
/// O(k log(n/k)) times, for k records of n. A part too large to compute counts as possible, so the
/// set may then be larger than needed, never wrong. Both lists are empty where the pedigree alone
/// is impossible. Deterministic: halves are tried in the order of the records.
Contradiction explain(const Scenario& scenario, const Options& options);

}  // namespace likelihet::odds
