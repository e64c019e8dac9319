// How far the odds move over what is not known of the tables.
#pragma once

#include <vector>

#include <likelihet/odds/layers.hpp>
#include <likelihet/odds/options.hpp>

namespace likelihet::odds {

/// Fills the `het` intervals of `animals` (means and [mean, mean] are there): the central 95 % of
/// the exact posterior over draws of the tables from their beliefs, quantiles by linear
/// interpolation (Hyndman and Fan 1996, American Statistician 50:361, type 7). All draws go through
/// one plan. Where the draws of all animals together would pass a quarter of `options.memory_bytes`
/// fewer are made, but never under 200 of those asked for.
void fill_intervals(const Prepared& prepared, const colony::Model& model, const Options& options,
                    std::vector<AnimalOdds>& animals);

}  // namespace likelihet::odds
