// Readings sorted by scorer.
#include <algorithm>
#include <set>
#include <tuple>

#include <fmt/format.h>

#include <likelihet/audit/proportion.hpp>
#include <likelihet/audit/scorers.hpp>
#include <likelihet/audit/two_by_two.hpp>
#include <likelihet/odds/scenario.hpp>

namespace likelihet::audit {

namespace {

using Level = std::optional<std::size_t>;  // nothing: could not be scored

struct Look {
  const colony::Observation* observation;
  const colony::Score* score;
};

// The day it was read, else the day from which it counts, as in LevelRead.
const std::optional<colony::Date>& day_of(const colony::Observation& observation) {
  return observation.on ? observation.on : observation.known;
}

// Scores by a named scorer that count, by day and id.
std::vector<Look> looks(const colony::Colony& colony, const std::optional<colony::Date>& as_of) {
  std::vector<Look> out;
  for (const colony::Observation* observation : odds::scenario(colony, as_of).observations) {
    const auto* score = std::get_if<colony::Score>(&observation->what);
    if (score != nullptr && score->scorer) out.push_back({observation, score});
  }
  std::sort(out.begin(), out.end(), [](const Look& a, const Look& b) {
    return std::tie(day_of(*a.observation), a.observation->id) <
           std::tie(day_of(*b.observation), b.observation->id);
  });
  return out;
}

Agreement agreement_of(const colony::Marker& marker, std::size_t m, std::size_t first,
                       std::size_t second, const std::vector<std::pair<Level, Level>>& pairs) {
  Agreement out;
  out.marker = m;
  out.first = first;
  out.second = second;
  const std::size_t levels = marker.levels.size();
  std::vector<double> table(levels * levels, 0);
  double same = 0;
  for (const auto& [a, b] : pairs) {
    if (!a || !b) {
      ++out.not_scorable;
      continue;
    }
    ++out.pairs;
    table[*a * levels + *b] += 1;
    same += *a == *b ? 1 : 0;
  }
  const auto n = static_cast<double>(out.pairs);
  out.exact = {out.pairs == 0 ? 0 : same / n, wilson(same, n)};
  const auto weights = linear_weights(levels);
  out.weighted_kappa = cohen_kappa(table, levels, weights);
  out.gwet_ac2 = gwet(table, levels, weights);
  if (!out.weighted_kappa.value && out.weighted_kappa.only_category) {
    out.weighted_kappa.undefined =
        fmt::format("undefined, all scored {}", marker.levels[*out.weighted_kappa.only_category]);
  }
  return out;
}

std::string season_of(const colony::Observation& observation) {
  const auto& day = day_of(observation);
  return day ? day->text().substr(0, 4) : std::string();
}

}  // namespace

std::vector<Agreement> agreements(const colony::Colony& colony,
                                  const std::optional<colony::Date>& as_of) {
  std::map<std::pair<std::size_t, std::size_t>, std::map<std::size_t, std::vector<Level>>> read;
  for (const Look& look : looks(colony, as_of)) {
    read[{look.score->marker, look.score->animal}][*look.score->scorer].push_back(
        look.score->level);
  }
  std::map<std::tuple<std::size_t, std::size_t, std::size_t>, std::vector<std::pair<Level, Level>>>
      pairs;
  for (const auto& [key, by_scorer] : read) {
    for (auto a = by_scorer.begin(); a != by_scorer.end(); ++a) {
      if (a->second.size() > 1) {
        pairs[{key.first, a->first, a->first}].emplace_back(a->second[0], a->second[1]);
      }
      for (auto b = std::next(a); b != by_scorer.end(); ++b) {
        pairs[{key.first, a->first, b->first}].emplace_back(a->second[0], b->second[0]);
      }
    }
  }
  std::vector<Agreement> out;
  out.reserve(pairs.size());
  for (const auto& [key, both] : pairs) {
    const auto& [m, first, second] = key;
    out.push_back(agreement_of(colony.model().markers()[m], m, first, second, both));
  }
  return out;
}

namespace {

// The animals of known truth among a scorer's first looks at a marker that could be read.
void judge_scorers(const colony::Colony& colony, const MarkerBackground& background,
                   const MarkerAudit& audited, std::map<std::size_t, ScorerAudit>& found) {
  for (const MarkerReadings& readings : background.readings) {
    if (readings.marker != audited.marker || readings.table != audited.table) continue;
    const auto subjects = subjects_of(colony, background.markerless, readings.all, audited.locus,
                                      audited.allele, background.yes, background.no);
    std::map<std::size_t, std::pair<std::set<std::size_t>, TwoByTwo>> tables;  // by scorer
    for (const Subject& one : subjects) {
      if (!one.known || !one.read.scorer) continue;
      auto& [animals, table] = tables[*one.read.scorer];
      if (!animals.insert(one.read.animal).second) continue;
      const bool high = one.read.level > 0;
      (*one.known ? (high ? table.true_positive : table.false_negative)
                  : (high ? table.false_positive : table.true_negative)) += 1;
    }
    for (const auto& [scorer, counted] : tables) {
      found[scorer].markers.push_back({audited.marker, audited.table, audited.locus, audited.allele,
                                       counted.first.size(), sensitivity(counted.second),
                                       specificity(counted.second)});
    }
  }
}

}  // namespace

std::vector<ScorerAudit> audit_scorers(const colony::Colony& colony,
                                       const std::optional<colony::Date>& as_of,
                                       const MarkerBackground& background,
                                       const std::vector<MarkerAudit>& markers) {
  std::map<std::size_t, ScorerAudit> found;
  std::map<std::tuple<std::size_t, std::size_t, std::string>, ScorerSeason> seasons;
  for (const Look& look : looks(colony, as_of)) {
    ScorerAudit& scorer = found[*look.score->scorer];
    scorer.scorer = *look.score->scorer;
    if (!look.score->level) {
      ++scorer.not_scorable;
      continue;
    }
    ++scorer.readings;
    ++(!look.score->blind ? scorer.unknown : *look.score->blind ? scorer.blind : scorer.unblinded);
    const std::string season = season_of(*look.observation);
    ScorerSeason& at = seasons[{scorer.scorer, look.score->marker, season}];
    at.season = season;
    at.marker = look.score->marker;
    ++at.readings;
    at.positive += *look.score->level > 0 ? 1 : 0;
  }
  for (const auto& [key, season] : seasons) found[std::get<0>(key)].seasons.push_back(season);
  for (const MarkerAudit& audited : markers) judge_scorers(colony, background, audited, found);
  std::vector<ScorerAudit> out;
  out.reserve(found.size());
  for (auto& [s, scorer] : found) out.push_back(std::move(scorer));
  return out;
}

}  // namespace likelihet::audit
