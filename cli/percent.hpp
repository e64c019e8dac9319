// Odds and weights of evidence in words and figures. Percentages and
// factors are those of odds/percent.hpp.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include <likelihet/genetics/locus.hpp>
#include <likelihet/odds/percent.hpp>

namespace likelihet::cli {

using odds::Chance;
using odds::factor_in_words;
using odds::percent;
using odds::percent_range;

/// The chance of exactly so many copies of an allele, out of probabilities in state order.
/// `probabilities` has an entry for each genotype of the locus.
Chance chance_of_copies(const genetics::Locus& locus, const std::vector<double>& probabilities,
                        std::uint16_t allele, unsigned copies);

/// Odds in favour, "2 : 1" or "1 : 3.25"; "certain" and "ruled out" at the ends. Three significant
/// digits. A probability of 0 is "ruled out", one of 1 "certain".
std::string odds_in_words(double probability);

/// The same of odds given as a ratio. In [0, infinity].
std::string odds_ratio_in_words(double odds);

/// "+5.1", "-13.9"; empty where the factor says it all (infinite). 10 log10 of a factor (Jaynes
/// 2003, Probability Theory, chapter 4, writes decibels). One decimal.
std::string decibans_in_words(double decibans);

}  // namespace likelihet::cli
