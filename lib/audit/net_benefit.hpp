// What acting on the forecasts gains.
#pragma once

#include <span>

#include <likelihet/audit/score.hpp>

namespace likelihet::audit {

// Vickers and Elkin (2006, Medical Decision Making 26:565), in true positives a case: a
// threshold t says that a false positive costs t / (1 - t) of what a true one is worth. Treating no
// one gains 0. Outcomes between 0 and 1 count by their share. Throws std::invalid_argument unless
// 0 < threshold < 1 (at 1 a false positive costs without end, at 0 nothing), for no cases, and for
// a probability or an outcome outside [0, 1].

/// Acting on all cases given `threshold` or more: TP / n - FP / n t / (1 - t).
double net_benefit(std::span<const Case> cases, double threshold);

/// Acting on every case.
double net_benefit_of_all(std::span<const Case> cases, double threshold);

}  // namespace likelihet::audit
