// Probabilities in words and figures that never round up to certainty.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include <likelihet/genetics/locus.hpp>

namespace likelihet::cli {

/// A probability with that of its contrary, so that 1 - 1e-20 is not shown as certain.
struct Chance {
  double yes = 0;
  double no = 0;
};

/// The chance of exactly so many copies of an allele, out of probabilities in state order.
Chance chance_of_copies(const genetics::Locus& locus, const std::vector<double>& probabilities,
                        std::uint16_t allele, unsigned copies);

/// "66.7 %"; "<0.1 %" and ">99.9 %" beyond those; "0 %" and "100 %" only where it is certain.
std::string percent(const Chance& chance);
/// For a probability that comes without its contrary: "100 %" only where it is exactly 1.
std::string percent(double probability);

/// "97.0 – 99.5 %", in the same manner; "0 %" where both ends read the same.
std::string percent_range(double low, double high);

/// Odds in favour, "2.00 : 1" or "1 : 3.00"; "certain" and "ruled out" at the ends.
std::string odds_in_words(double probability);

/// The same of odds given as a ratio.
std::string odds_ratio_in_words(double odds);

/// "×3.2", "×0.04"; "proves it" for infinity, "rules it out" for 0.
std::string factor_in_words(double factor);

/// "+5.1", "-13.9"; empty where the factor says it all (infinite).
std::string decibans_in_words(double decibans);

}  // namespace likelihet::cli
