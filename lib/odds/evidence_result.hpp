// From an assay's report to a likelihood.
#pragma once

#include <cstddef>
#include <vector>

#include <likelihet/colony/model.hpp>

namespace likelihet::odds {

/// P(report | genotype) for each genotype in state order: (1 - mix_up) x the assay's row + mix_up x
/// the plain average of its rows, since a mixed-up sample is another animal's. In [0, 1]. With
/// `mix_up` above 0 no report rules a genotype out, unless no row gives it. The other animal is
/// taken to be of any genotype alike, whatever the colony holds. `report` is a number below
/// assay.reports.size().
std::vector<double> result_likelihood(const colony::Assay& assay, std::size_t report);

}  // namespace likelihet::odds
