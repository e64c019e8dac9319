// What every statistic asks of its cases; internal to the layer.
#pragma once

#include <span>

#include <likelihet/audit/score.hpp>

namespace likelihet::audit {

/// Throws std::invalid_argument for a probability or an outcome outside [0, 1].
void check(std::span<const Case> cases);

/// The same, and for no cases.
void check_some(std::span<const Case> cases);

}  // namespace likelihet::audit
