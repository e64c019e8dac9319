// What if: evidence that nobody recorded, many sets of it through one plan.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include <likelihet/odds/number_sets.hpp>

namespace likelihet::odds {

/// A likelihood over the genotypes of one animal at one locus, one number a genotype in state
/// order, as if it had been seen: virtual evidence (Pearl 1988, Probabilistic Reasoning in
/// Intelligent Systems, section 2.2.2). Only ratios matter to beliefs.
struct Supposition {
  GenotypePlace place;  ///< one of Scenario::supposed
  std::vector<double> likelihood;
};

/// What is supposed together. Several of one place multiply.
using SupposedSet = std::vector<Supposition>;

/// Runs each set through the plan, on top of all that is recorded, at the believed tables. `step`
/// gets ln P(recorded and supposed | descent) in the units of inference::log_evidence(), so that
/// differences tell P(supposed | recorded) where likelihoods are chances; `visit` gets each of
/// `targets`. `prepared` must be of a scenario whose `supposed` holds every place
/// (std::out_of_range is thrown otherwise), and not impossible. Exact, whatever is supposed; a set
/// that the records rule out has a log evidence of -infinity and beliefs of 0.
void run_supposed(const Prepared& prepared, const colony::Model& model,
                  std::span<const DrawTarget> targets, std::span<const SupposedSet> sets,
                  std::size_t memory_bytes, const StepVisitor& step, const TargetVisitor& visit);

/// The parts of the network between which nothing passes, whatever is supposed: by animal x locus,
/// numbered from 0 in the order of the first of each. Evidence in one part changes nothing in
/// another.
std::vector<std::size_t> separate_parts(const ColonyNetwork& net, std::size_t animals,
                                        std::size_t loci);

}  // namespace likelihet::odds
