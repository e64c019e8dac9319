// The two schemes of forecasting.
#include <algorithm>
#include <map>
#include <set>

#include <likelihet/audit/as_it_stood.hpp>
#include <likelihet/audit/clutch_left_out.hpp>
#include <likelihet/audit/forecasts.hpp>

namespace likelihet::audit {

namespace {

std::optional<Refusal> refusal(const colony::Colony& colony, const Truth& truth) {
  if (!truth.known_on) return Refusal::known_from_the_start;
  const auto& hatched = colony.animals()[truth.event.animal].hatched;
  if (hatched && *truth.known_on <= *hatched) return Refusal::known_before_hatching;
  return std::nullopt;
}

// Whether any level was read on the animal before the first of its truths was known.
std::vector<bool> scored_animals(const colony::Colony& colony, const std::vector<Truth>& truths,
                                 const std::optional<colony::Date>& as_of) {
  std::vector<std::optional<colony::Date>> first(colony.animals().size());
  for (const Truth& truth : truths) {
    auto& day = first[truth.event.animal];
    if (truth.known_on && (!day || *truth.known_on < *day)) day = truth.known_on;
  }
  std::vector<bool> out(colony.animals().size(), false);
  for (const colony::Observation* observation : odds::scenario(colony, as_of).observations) {
    const auto* score = std::get_if<colony::Score>(&observation->what);
    if (score == nullptr || !score->level) continue;
    const auto& day = first[score->animal];
    if (!day || !observation->known || *observation->known < *day) out[score->animal] = true;
  }
  return out;
}

}  // namespace

std::variant<Forecasts, odds::Contradiction, odds::TooLarge> forecasts(
    const colony::Colony& colony, const TruthSettings& settings) {
  auto found = truths(colony, settings);
  if (auto* clash = std::get_if<odds::Contradiction>(&found)) return std::move(*clash);
  if (auto* large = std::get_if<odds::TooLarge>(&found)) return std::move(*large);
  Forecasts out;
  out.truths = std::move(std::get<std::vector<Truth>>(found));
  out.scored = scored_animals(colony, out.truths, settings.as_of);
  std::vector<std::size_t> open;
  for (std::size_t t = 0; t < out.truths.size(); ++t) {
    if (const auto why = refusal(colony, out.truths[t])) {
      for (Scheme scheme : {Scheme::as_it_stood, Scheme::clutch_left_out}) {
        out.refused.push_back({t, scheme, *why});
      }
      continue;
    }
    open.push_back(t);
  }
  if (auto large = forecast_as_it_stood(colony, settings, open, out)) return std::move(*large);
  if (auto large = forecast_left_out(colony, settings, open, out)) return std::move(*large);
  std::sort(out.forecasts.begin(), out.forecasts.end(), [](const Forecast& a, const Forecast& b) {
    return std::tie(a.scheme, a.truth, a.basis) < std::tie(b.scheme, b.truth, b.basis);
  });
  return out;
}

}  // namespace likelihet::audit
