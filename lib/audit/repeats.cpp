// Pairs of markers within classes.
#include <algorithm>
#include <cmath>
#include <map>

#include <likelihet/audit/repeats.hpp>

namespace likelihet::audit {

namespace {

// Levels of known animals, by animal: class 0 others, class 1 hets.
struct Known {
  std::size_t level = 0;
  std::size_t stratum = 0;
};
using Levels = std::map<std::size_t, Known>;

Levels known_levels(const colony::Colony& colony, const MarkerBackground& background,
                    std::size_t marker, std::size_t locus, std::uint16_t allele) {
  Levels out;
  for (const MarkerReadings& readings : background.readings) {
    if (readings.marker != marker) continue;
    for (const Subject& one : subjects_of(colony, background.markerless, readings.by_animal, locus,
                                          allele, background.yes, background.no)) {
      if (one.known) out[one.read.animal] = {one.read.level, *one.known ? 1U : 0U};
    }
  }
  return out;
}

// Within strata, the strata's sums added up.
double correlation(const std::vector<Compared>& both) {
  double n[2] = {0, 0};
  double first[2] = {0, 0};
  double second[2] = {0, 0};
  for (const Compared& one : both) {
    n[one.stratum] += 1;
    first[one.stratum] += one.marker;
    second[one.stratum] += one.carrier;
  }
  double product = 0;
  double squares_first = 0;
  double squares_second = 0;
  for (const Compared& one : both) {
    const double a = one.marker - first[one.stratum] / n[one.stratum];
    const double b = one.carrier - second[one.stratum] / n[one.stratum];
    product += a * b;
    squares_first += a * a;
    squares_second += b * b;
  }
  const double scale = std::sqrt(squares_first * squares_second);
  return scale > 0 ? std::clamp(product / scale, -1.0, 1.0) : 0;
}

}  // namespace

std::vector<Repeat> repeats(const colony::Colony& colony, const MarkerBackground& background,
                            const std::vector<MarkerAudit>& markers) {
  std::vector<Repeat> out;
  std::map<std::pair<std::size_t, std::uint16_t>, std::map<std::size_t, Levels>> by_event;
  for (const MarkerAudit& audited : markers) {
    by_event[{audited.locus, audited.allele}].try_emplace(
        audited.marker,
        known_levels(colony, background, audited.marker, audited.locus, audited.allele));
  }
  for (const auto& [event, levels] : by_event) {
    for (auto a = levels.begin(); a != levels.end(); ++a) {
      for (auto b = std::next(a); b != levels.end(); ++b) {
        std::vector<Compared> both;
        for (const auto& [animal, known] : a->second) {
          const auto other = b->second.find(animal);
          if (other == b->second.end()) continue;
          both.push_back({static_cast<double>(known.level),
                          static_cast<double>(other->second.level), known.stratum});
        }
        if (both.size() < fewest_for_repeats) continue;
        const auto tested = stratified_test(both);
        out.push_back({a->first, b->first, event.first, event.second, both.size(),
                       correlation(both), tested.p});
      }
    }
  }
  std::sort(out.begin(), out.end(), [](const Repeat& a, const Repeat& b) {
    return std::tie(a.first, a.second, a.locus, a.allele) <
           std::tie(b.first, b.second, b.locus, b.allele);
  });
  return out;
}

}  // namespace likelihet::audit
