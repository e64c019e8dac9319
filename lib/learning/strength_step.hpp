// The M-step for markers that share an animal's strength of expression.
#pragma once

#include <likelihet/learning/counts.hpp>
#include <likelihet/odds/strength.hpp>

namespace likelihet::learning {

/// Moves the rows and loadings of markers that come together uphill from `from`, given expected
/// counts by strength: first each row in its softmax coordinates, then each loading, a Newton step
/// each. Nothing in closed form here, so a generalised EM (Dempster, Laird and Rubin 1977, section
/// 1): the evidence still cannot fall. Writes into `to`, whose other tables stay as they are.
void step_strengths(const colony::Model& model, const odds::StrengthPoints& points,
                    const Counts& prior, const Counts& seen, const odds::Tables& from,
                    odds::Tables& to);

}  // namespace likelihet::learning
