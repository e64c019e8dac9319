// How many offspring without the trait it takes. Private to the layer.
#pragma once

#include <cstddef>

namespace likelihet::publishing {

/// A non-visual offspring by a visual partner has chance 1/2 of a het parent, and by a het partner
/// 3/4 (Mendel), against 1 of a clear one. On a sex chromosome the partner of a het has one copy or
/// none, and without it the chance is 3/4 too: half of the offspring with its other chromosome are
/// visual.
inline constexpr double by_a_visual = 0.5;
inline constexpr double by_a_het = 0.75;

/// The fewest non-visual offspring, each of chance `factor` where the parent is het, after which
/// its chance falls below `goal`: p f^n / (p f^n + 1 - p) < goal (Bayes). `probability` in (0, 1),
/// `goal` in (0, 1), `factor` in (0, 1). 0 where it is below already.
std::size_t non_visual_offspring_needed(double probability, double factor, double goal);

}  // namespace likelihet::publishing
