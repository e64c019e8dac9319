// The joint belief of two variables, in one clique or far apart. A clique tree holds the joint of
// variables that share a clique; any other pair takes runs of its own (Koller and Friedman 2009,
// Probabilistic Graphical Models, chapter 10).
#pragma once

#include <span>
#include <vector>

#include <likelihet/inference/plan.hpp>

namespace likelihet::inference {

/// P(a, b | all), b fastest, over full states; empty where the numbers contradict each other. One
/// run for each state left to `a`, with `a` held there: P(a = i, b) ∝ (whole sum with a = i) P(b |
/// a = i). Throws std::invalid_argument if a == b. Sums to 1. States that were ruled out are at 0.
/// A pair of which one is barren is put in the tree of a plan made for it, of any size.
/// All runs but the first are in extended numbers, so this is for reports, not for inner loops.
std::vector<double> pair_belief(const Plan& plan, std::span<const double> values, Variable a,
                                Variable b);

}  // namespace likelihet::inference
