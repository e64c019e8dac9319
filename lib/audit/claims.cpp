// Claims to outcomes, and outcomes to bands.
#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include <likelihet/audit/claims.hpp>
#include <likelihet/audit/score.hpp>

namespace likelihet::audit {

namespace {

std::vector<Band> bands_of(const std::vector<Claimed>& claims, const ClaimCheck& check,
                           const std::vector<Truth>& truths) {
  BandCounts counts;
  std::set<std::pair<std::size_t, std::size_t>> counted;  // band, truth
  for (const ClaimResolved& one : check.resolved) {
    const std::size_t band = BandCounts::band_of(claims[one.claim].probability());
    if (counted.insert({band, one.truth}).second) counts.add(band, truths[one.truth].so());
  }
  return counts.bands();
}

}  // namespace

ClaimCheck check_claims(const std::vector<Claimed>& claims, const Forecasts& forecasts) {
  std::map<Event, std::size_t> truth_of;
  for (std::size_t t = 0; t < forecasts.truths.size(); ++t) {
    truth_of.emplace(forecasts.truths[t].event, t);
  }
  ClaimCheck check;
  check.made = claims.size();
  std::vector<Case> cases;
  for (std::size_t c = 0; c < claims.size(); ++c) {
    const auto found = truth_of.find(claims[c].event);
    if (found == truth_of.end()) {
      ++check.open;
      continue;
    }
    const Truth& truth = forecasts.truths[found->second];
    if (!truth.known_on || *truth.known_on <= claims[c].on) {
      ++check.known_already;
      continue;
    }
    check.resolved.push_back({c, found->second});
    check.expected += claims[c].probability();
    check.observed += truth.probability;
    cases.push_back({claims[c].probability(), truth.probability, 0});
  }
  std::stable_sort(check.resolved.begin(), check.resolved.end(),
                   [&](const ClaimResolved& a, const ClaimResolved& b) {
                     const Claimed& first = claims[a.claim];
                     const Claimed& second = claims[b.claim];
                     return std::tie(first.on, first.code, first.event) <
                            std::tie(second.on, second.code, second.event);
                   });
  if (!cases.empty()) check.brier = brier(cases);
  check.bands = bands_of(claims, check, forecasts.truths);
  return check;
}

}  // namespace likelihet::audit
