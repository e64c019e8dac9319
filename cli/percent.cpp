// Writes probabilities for people.
#include "percent.hpp"

#include <cmath>
#include <cstddef>

#include <fmt/format.h>

namespace likelihet::cli {
namespace {

constexpr double least_shown = 0.001;

/// The figure without its sign: "66.7", "<0.1", ">99.9", "0", "100".
std::string figure(const Chance& chance) {
  if (chance.no == 0) return "100";
  if (chance.yes == 0) return "0";
  if (chance.yes < least_shown) return "<0.1";
  if (chance.yes > 1 - least_shown) return ">99.9";
  return fmt::format("{:.1f}", 100 * chance.yes);
}

}  // namespace

Chance chance_of_copies(const genetics::Locus& locus, const std::vector<double>& probabilities,
                        std::uint16_t allele, unsigned copies) {
  Chance chance;
  for (std::size_t g = 0; g < locus.size(); ++g) {
    (locus.genotypes()[g].copies(allele) == copies ? chance.yes : chance.no) += probabilities[g];
  }
  return chance;
}

std::string percent(const Chance& chance) {
  return figure(chance) + " %";
}

std::string percent(double probability) {
  return percent(Chance{probability, 1 - probability});
}

std::string percent_range(double low, double high) {
  const std::string from = figure({low, 1 - low});
  const std::string to = figure({high, 1 - high});
  return (from == to ? from : from + " – " + to) + " %";
}

std::string odds_in_words(double probability) {
  return odds_ratio_in_words(probability / (1 - probability));
}

std::string odds_ratio_in_words(double odds) {
  if (odds <= 0) return "ruled out";
  if (std::isinf(odds)) return "certain";
  return odds >= 1 ? fmt::format("{:.3g} : 1", odds) : fmt::format("1 : {:.3g}", 1 / odds);
}

std::string factor_in_words(double factor) {
  if (std::isinf(factor)) return "proves it";
  if (factor == 0) return "rules it out";
  return fmt::format("×{:.3g}", factor);
}

std::string decibans_in_words(double decibans) {
  if (!std::isfinite(decibans)) return "";
  // Adding 0 turns a negative zero, left by rounding, into a plain one.
  return fmt::format("{:+.1f}", std::round(decibans * 10) / 10 + 0.0);
}

}  // namespace likelihet::cli
