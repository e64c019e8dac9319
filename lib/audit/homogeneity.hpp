// Whether a marker is worth the same in every group of animals.
#pragma once

#include <span>

#include <likelihet/audit/level_mixture.hpp>

namespace likelihet::audit {

/// P(χ² with groups - 1 degrees of freedom > 2 (ln L of an odds ratio for each group - ln L of one
/// for all)), each group with its own share of high levels among animals that are not het: a
/// likelihood ratio test (Wilks 1938, Annals of Mathematical Statistics 9:60) of what Woolf (1955)
/// tests by sums, which fails in small groups. Groups have two levels and two classes as fit_cut()
/// takes them. 1 with fewer than two groups.
double homogeneity_p(std::span<const LevelData> groups);

}  // namespace likelihet::audit
