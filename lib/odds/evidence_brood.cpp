// Test breeding: independent offspring of a known partner.
#include <algorithm>
#include <cmath>
#include <limits>

#include <likelihet/genetics/mendel.hpp>
#include <likelihet/odds/evidence_brood.hpp>

namespace likelihet::odds {

namespace {
constexpr double least_log = -345.0;  // ln of about 1e-150
}

std::vector<double> offspring_chance(const genetics::Locus& locus, std::size_t partner,
                                     std::size_t appearance) {
  const genetics::Mendel mendel(locus);
  const auto partner_sex = locus.genotypes()[partner].sex;
  std::vector<double> chance(locus.size(), 0.0);
  for (std::size_t g = 0; g < locus.size(); ++g) {
    // Off the sex chromosome either way round gives the same; on it the partner's sex decides.
    const bool partner_is_dam = partner_sex == genetics::Sex::female;
    const std::size_t dam = partner_is_dam ? partner : g;
    const std::size_t sire = partner_is_dam ? g : partner;
    for (const auto& [child, passes] : genetics::living_children(locus, mendel, dam, sire)) {
      chance[g] += passes * locus.shows(child, appearance);
    }
  }
  return chance;
}

std::vector<std::vector<double>> brood_likelihood(
    const genetics::Locus& locus, std::size_t partner,
    const std::vector<std::pair<std::size_t, std::int64_t>>& offspring) {
  std::vector<double> logs(locus.size(), 0.0);
  for (const auto& [appearance, count] : offspring) {
    const auto chance = offspring_chance(locus, partner, appearance);
    for (std::size_t g = 0; g < logs.size(); ++g) {
      logs[g] += static_cast<double>(count) * std::log(chance[g]);
    }
  }
  double least = 0;
  for (double l : logs) {
    if (std::isfinite(l)) least = std::min(least, l);
  }
  const auto parts = static_cast<std::size_t>(std::ceil(least / least_log));
  const std::size_t tables = std::max<std::size_t>(parts, 1);
  std::vector<double> table(logs.size());
  for (std::size_t g = 0; g < logs.size(); ++g) {
    table[g] = std::exp(logs[g] / static_cast<double>(tables));
  }
  return std::vector<std::vector<double>>(tables, table);
}

}  // namespace likelihet::odds
