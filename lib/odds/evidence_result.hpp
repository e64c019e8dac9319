// From an assay's report to a likelihood.
#pragma once

#include <cstddef>
#include <vector>

#include <likelihet/colony/model.hpp>

namespace likelihet::odds {

/// P(report | genotype) for each genotype in state order: (1 - mix_up) x the assay's row + mix_up x
/// the plain average of its rows, since a mixed-up sample is another animal's.
std::vector<double> result_likelihood(const colony::Assay& assay, std::size_t report);

}  // namespace likelihet::odds
