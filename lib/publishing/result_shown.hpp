// What a listing says of a test's result. Private to the layer.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include <likelihet/odds/scenario.hpp>
#include <likelihet/publishing/listing.hpp>

namespace likelihet::publishing {

/// The result at this position, its chances of error out of the assay's rows and mix-ups (docs/
/// method.md). The genotype that it fits best is that of the largest P(report | genotype); among
/// equals the first.
ResultShown result_shown(const colony::Colony& colony, std::size_t observation);

/// The animal's own results that count, by day, those without one first, then by id.
std::vector<ResultShown> results_of(const odds::Scenario& scenario, std::size_t animal);

/// "shed-pcr reported carrier on 2024-07-02. Up to 0.8 % of ..."
std::string in_words(const colony::Colony& colony, const ResultShown& result);

}  // namespace likelihet::publishing
