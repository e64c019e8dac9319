// Many tests at once.
#pragma once

#include <span>
#include <vector>

namespace likelihet::audit {

/// Adjusted p-values, in the order of `p`: those at or below q are the discoveries at a false
/// discovery rate of q (Benjamini and Hochberg 1995, J R Stat Soc B 57:289; Yekutieli and Benjamini
/// 1999, J Stat Plan Inference 82:171). Throws std::invalid_argument for a p
/// outside [0, 1].
std::vector<double> benjamini_hochberg(std::span<const double> p);

}  // namespace likelihet::audit
