// Probabilities as percentages.
#include <cmath>

#include <fmt/format.h>

#include <likelihet/odds/percent.hpp>

namespace likelihet::odds {
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

std::string factor_in_words(double factor) {
  // What three digits round to a thousand is one.
  constexpr double thousand = 999.5;
  if (std::isinf(factor)) return "proves it";
  if (factor == 0) return "rules it out";
  if (factor > 1000) return "over ×1,000";
  if (factor >= thousand) return "×1,000";
  if (factor < 0.001) return "under ×0.001";
  return fmt::format("×{:.3g}", factor);
}

}  // namespace likelihet::odds
