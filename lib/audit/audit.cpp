// The parts of an audit, in turn.
#include <algorithm>
#include <cmath>
#include <map>

#include <fmt/format.h>

#include <likelihet/audit/audit.hpp>

namespace likelihet::audit {

namespace {

constexpr std::size_t most_misses = 10;
constexpr std::size_t most_waterfalls = 5;
constexpr std::size_t marker_resamples = 200;

// Animals whose markers moved their forecast most, and how.
std::vector<Waterfall> waterfalls(const colony::Colony& colony, const Forecasts& forecasts,
                                  std::size_t memory_bytes) {
  struct Moved {
    double by;
    std::size_t truth;
  };
  std::vector<Moved> moved;
  const auto& all = forecasts.forecasts;
  for (std::size_t f = 0; f + 1 < all.size(); ++f) {
    if (all[f].basis != Basis::pedigree || all[f].scheme != Scheme::as_it_stood) continue;
    moved.push_back({std::abs(all[f].probability - all[f + 1].probability), all[f].truth});
  }
  std::stable_sort(moved.begin(), moved.end(),
                   [](const Moved& a, const Moved& b) { return a.by > b.by; });
  std::vector<Waterfall> out;
  for (const Moved& one : moved) {
    if (out.size() == most_waterfalls || one.by <= 0) break;
    const Truth& truth = forecasts.truths[one.truth];
    odds::Options options;
    options.memory_bytes = memory_bytes;
    options.as_of = colony::Date::of_days(truth.known_on->days() - 1);
    auto account =
        odds::why(colony, {truth.event.animal, truth.event.locus, truth.event.allele}, options);
    if (auto* found = std::get_if<odds::Account>(&account)) {
      out.push_back({truth.event, std::move(*found)});
    }
  }
  return out;
}

std::vector<UnblindedSeason> unblinded_seasons(const MarkerBackground& background) {
  std::map<std::string, UnblindedSeason> seasons;
  for (const MarkerReadings& readings : background.readings) {
    for (const LevelRead& read : readings.all) {
      if (!read.on) continue;
      UnblindedSeason& season = seasons[read.on->text().substr(0, 4)];
      season.season = read.on->text().substr(0, 4);
      ++season.readings;
      season.unblinded += read.blind && !*read.blind ? 1 : 0;
    }
  }
  std::vector<UnblindedSeason> out;
  for (auto& [name, season] : seasons) {
    if (2 * season.unblinded > season.readings) out.push_back(std::move(season));
  }
  return out;
}

// A marker that its scorers cannot repeat is named so.
void note_agreement(Audit& audit) {
  constexpr double poor = 0.4;
  constexpr std::size_t enough_pairs = 10;
  for (const Agreement& of : audit.agreements) {
    const auto& kappa = of.weighted_kappa.value;
    if (!kappa || *kappa >= poor || of.pairs < enough_pairs) continue;
    for (MarkerAudit& marker : audit.markers) {
      if (marker.marker != of.marker) continue;
      marker.why += fmt::format(
          "; scorers agree poorly on it (weighted kappa {:.2f} in {} animals)", *kappa, of.pairs);
    }
  }
}

// By belief, as `odds` finds them.
std::vector<odds::Surprise> conflicts(const colony::Colony& colony, const TruthSettings& settings) {
  odds::Options options;
  options.as_of = settings.as_of;
  options.memory_bytes = settings.memory_bytes;
  options.draws = 0;
  auto found = odds::compute(colony, options);
  auto* odds = std::get_if<odds::ColonyOdds>(&found);
  return odds != nullptr ? std::move(odds->surprises) : std::vector<odds::Surprise>{};
}

}  // namespace

std::variant<Audit, odds::Contradiction, odds::TooLarge> audit(const colony::Colony& colony,
                                                               const Settings& settings) {
  auto found = forecasts(colony, settings.truth);
  if (auto* clash = std::get_if<odds::Contradiction>(&found)) return std::move(*clash);
  if (auto* large = std::get_if<odds::TooLarge>(&found)) return std::move(*large);
  Audit out;
  out.forecasts = std::move(std::get<Forecasts>(found));
  auto background = marker_background(colony, out.forecasts.truths, settings.truth);
  if (auto* large = std::get_if<odds::TooLarge>(&background)) return std::move(*large);
  const auto& markers = std::get<MarkerBackground>(background);
  const ScoreSettings& scores = settings.scores;
  out.scores = score_table(colony, out.forecasts, scores);
  out.reliability = reliabilities(colony, out.forecasts, scores.resamples, scores.seed);
  out.roc = rocs(colony, out.forecasts);
  out.decisions = decisions(colony, out.forecasts, scores.thresholds);
  out.drift = drifts(out.forecasts);
  out.bands = bands(out.forecasts);
  out.claims = check_claims(settings.claims, out.forecasts);
  out.worst = misses(out.forecasts, most_misses);
  out.markers =
      audit_markers(colony, markers, std::min(scores.resamples, marker_resamples), scores.seed);
  out.scorers = audit_scorers(colony, settings.truth.as_of, markers, out.markers);
  out.agreements = agreements(colony, settings.truth.as_of);
  auto selected = selections(colony, markers, settings.truth);
  if (auto* large = std::get_if<odds::TooLarge>(&selected)) return std::move(*large);
  out.selections = std::move(std::get<std::vector<Selection>>(selected));
  out.repeats = repeats(colony, markers, out.markers);
  out.flows = flows(colony, out.forecasts, markers, settings.truth.as_of);
  out.unblinded = unblinded_seasons(markers);
  note_agreement(out);
  out.conflicts = conflicts(colony, settings.truth);
  out.waterfalls = waterfalls(colony, out.forecasts, settings.truth.memory_bytes);
  out.warnings = warnings_of(out);
  return out;
}

}  // namespace likelihet::audit
