// Writes odds and weights of evidence for people.
#include "percent.hpp"

#include <cmath>
#include <cstddef>

#include <fmt/format.h>

namespace likelihet::cli {

Chance chance_of_copies(const genetics::Locus& locus, const std::vector<double>& probabilities,
                        std::uint16_t allele, unsigned copies) {
  Chance chance;
  for (std::size_t g = 0; g < locus.size(); ++g) {
    (locus.genotypes()[g].copies(allele) == copies ? chance.yes : chance.no) += probabilities[g];
  }
  return chance;
}

std::string odds_in_words(double probability) {
  return odds_ratio_in_words(probability / (1 - probability));
}

std::string odds_ratio_in_words(double odds) {
  if (odds <= 0) return "ruled out";
  if (std::isinf(odds)) return "certain";
  return odds >= 1 ? fmt::format("{:.3g} : 1", odds) : fmt::format("1 : {:.3g}", 1 / odds);
}

std::string decibans_in_words(double decibans) {
  if (!std::isfinite(decibans)) return "";
  // Adding 0 turns a negative zero, left by rounding, into a plain one.
  return fmt::format("{:+.1f}", std::round(decibans * 10) / 10 + 0.0);
}

}  // namespace likelihet::cli
