// The record of past forecasts, held against the policy.
#include "standing.hpp"

#include <algorithm>
#include <map>

#include <fmt/format.h>

#include <likelihet/audit/score_table.hpp>

namespace likelihet::publishing {
namespace {

// The forecasts that a record of this locus is made of, on both bases.
audit::Forecasts of_read_animals(const audit::Forecasts& all, std::size_t locus) {
  audit::Forecasts out = all;
  out.forecasts.clear();
  for (const audit::Forecast& forecast : all.forecasts) {
    const audit::Event& event = all.truths[forecast.truth].event;
    if (forecast.scheme != audit::Scheme::as_it_stood) continue;
    if (event.locus != locus || !all.scored[event.animal]) continue;
    out.forecasts.push_back(forecast);
  }
  return out;
}

std::string kind_in_words(audit::Kind kind) {
  switch (kind) {
    case audit::Kind::test:
      return "test";
    case audit::Kind::breeding:
      return "breeding";
    case audit::Kind::visual:
      return "looks";
    case audit::Kind::relatives:
      return "relatives";
  }
  return {};
}

std::string interval_in_words(const audit::Interval& interval) {
  return fmt::format("interval {:.2f} to {:.2f}", interval.low, interval.high);
}

}  // namespace

Record record_of(const colony::Colony& colony, const audit::Forecasts& forecasts,
                 std::size_t locus) {
  Record out;
  const audit::Forecasts read = of_read_animals(forecasts, locus);
  std::map<audit::Kind, std::size_t> kinds;
  for (const audit::Forecast& forecast : read.forecasts) {
    if (forecast.basis != audit::Basis::scored) continue;
    const audit::Truth& truth = read.truths[forecast.truth];
    ++out.forecasts;
    ++kinds[truth.kind];
    out.expected += forecast.probability;
    out.observed += truth.probability;
  }
  out.kinds.assign(kinds.begin(), kinds.end());
  for (const auto& entry : audit::score_table(colony, read, {})) {
    if (entry.slice.basis != audit::Basis::scored || entry.slice.kind || entry.slice.locus) {
      continue;
    }
    if (entry.score == "skill") {
      out.skill = entry.value;
      out.skill_interval = entry.interval;
    }
    if (entry.score == "slope") out.slope = entry.value;
  }
  return out;
}

std::vector<std::string> lacking(const Record& record, const colony::MarkerPolicy& policy) {
  std::vector<std::string> out;
  if (record.forecasts < policy.forecasts) {
    out.push_back(fmt::format("{} of {} outcomes", record.forecasts, policy.forecasts));
  }
  if (record.forecasts == 0) return out;
  const bool skilled =
      record.skill && record.skill_interval && record.skill_interval->low > policy.skill_above;
  if (!record.skill) {
    out.emplace_back("skill against pedigree cannot be told");
  } else if (!record.skill_interval) {
    out.push_back(
        fmt::format("skill {:.2f}, without an interval: too few clutches", *record.skill));
  } else if (!skilled) {
    out.push_back(fmt::format("skill {:.2f}, {}, not above {:g}", *record.skill,
                              interval_in_words(*record.skill_interval), policy.skill_above));
  }
  if (!record.slope) {
    out.emplace_back("slope of calibration cannot be told");
  } else if (!(*record.slope >= policy.slope_at_least)) {
    out.push_back(fmt::format("slope {:.2f}, below {:g}", *record.slope, policy.slope_at_least));
  }
  return out;
}

std::string kinds_in_words(const Record& record) {
  std::string out;
  for (const auto& [kind, count] : record.kinds) {
    out += fmt::format("{}{} by {}", out.empty() ? "" : ", ", count, kind_in_words(kind));
  }
  return out;
}

std::string record_in_words(const colony::Colony& colony, std::size_t locus, const Record& record) {
  const std::string& name = colony.model().loci()[locus].id();
  if (record.forecasts == 0) {
    return fmt::format("There is no record yet of past percentages for {}.", name);
  }
  std::string out = fmt::format(
      "Of {} past forecast{} for {} with markers, {:.1f} hets were expected and {:.1f} found "
      "(known: {}).",
      record.forecasts, record.forecasts == 1 ? "" : "s", name, record.expected, record.observed,
      kinds_in_words(record));
  if (record.skill && record.skill_interval) {
    out += fmt::format(" Skill against pedigree alone {:.2f}, 95 % {}.", *record.skill,
                       interval_in_words(*record.skill_interval));
  }
  return out;
}

}  // namespace likelihet::publishing
