// The joint belief of two variables, in one clique or far apart.
#pragma once

#include <span>
#include <vector>

#include <likelihet/inference/plan.hpp>

namespace likelihet::inference {

/// P(a, b | all), b fastest, over full states; empty where the numbers contradict each other. One
/// run for each state left to `a`, with `a` held there: P(a = i, b) ∝ (whole sum with a = i) P(b |
/// a = i). Throws std::invalid_argument if a == b.
std::vector<double> pair_belief(const Plan& plan, std::span<const double> values, Variable a,
                                Variable b);

}  // namespace likelihet::inference
