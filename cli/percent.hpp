// Odds, factors and weights of evidence in words and figures.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include <likelihet/genetics/locus.hpp>
#include <likelihet/odds/percent.hpp>

namespace likelihet::cli {

using odds::Chance;
using odds::percent;
using odds::percent_range;

/// The chance of exactly so many copies of an allele, out of probabilities in state order.
Chance chance_of_copies(const genetics::Locus& locus, const std::vector<double>& probabilities,
                        std::uint16_t allele, unsigned copies);

/// Odds in favour, "2.00 : 1" or "1 : 3.00"; "certain" and "ruled out" at the ends.
std::string odds_in_words(double probability);

/// The same of odds given as a ratio.
std::string odds_ratio_in_words(double odds);

/// "×3.2", "×0.04"; "proves it" for infinity, "rules it out" for 0.
std::string factor_in_words(double factor);

/// "+5.1", "-13.9"; empty where the factor says it all (infinite).
std::string decibans_in_words(double decibans);

}  // namespace likelihet::cli
