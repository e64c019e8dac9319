// How far the odds move over what is not known of the tables.
#pragma once

#include <vector>

#include <likelihet/odds/layers.hpp>
#include <likelihet/odds/options.hpp>

namespace likelihet::odds {

/// Puts [mean, mean] for each `het`, its mean out of the posterior.
void set_means(const colony::Model& model, std::vector<AnimalOdds>& animals);

/// Fills the `het` intervals of `animals` (means and [mean, mean] are there): the central 95 % of
/// the exact posterior over draws of the tables from their beliefs, quantiles by linear
/// interpolation (Hyndman and Fan 1996, American Statistician 50:361, type 7). All draws go through
/// one plan. Where the draws of all animals together would pass a quarter of `options.memory_bytes`
/// fewer are made, but never under 200 of those asked for. Equal tails of 2.5 %. These are
/// intervals of the probability over what the tables may be, not of the animal's genotype. Nothing
/// is done without draws or where nothing is uncertain. Draws come from one generator in their
/// order, so the seed fixes them all; eight go through the plan side by side, in eight times its
/// memory.
void fill_intervals(const Prepared& prepared, const colony::Model& model, const Options& options,
                    std::vector<AnimalOdds>& animals);

/// Odds with learned tables: in each layer the average over `options.learned` of exact posteriors,
/// and the `het` intervals as the central 95 % of its probability over them (Vehtari and Ojanen
/// 2012, Statistics Surveys 6:142, on predictions averaged over the posterior). Returns ln of the
/// average of P(evidence | tables), nats.
double average_over(const Prepared& prepared, const colony::Model& model, const Options& options,
                    std::vector<AnimalOdds>& animals);

}  // namespace likelihet::odds
