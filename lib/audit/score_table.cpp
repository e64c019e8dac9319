// Slices, and the scores of each.
#include <cmath>
#include <functional>
#include <set>

#include <fmt/format.h>

#include <likelihet/audit/bootstrap.hpp>
#include <likelihet/audit/calibration.hpp>
#include <likelihet/audit/isotonic.hpp>
#include <likelihet/audit/net_benefit.hpp>
#include <likelihet/audit/roc.hpp>
#include <likelihet/audit/score_table.hpp>

namespace likelihet::audit {

namespace {

using Cases = std::span<const Case>;

struct Named {
  std::string name;
  std::function<std::optional<double>(Cases)> of;
  std::string undefined;  // why there may be no value
};

std::optional<double> some(double value) {
  return value;
}

// What needs hets and others among the outcomes. An outcome of 99.9 % is a carrier, not the one
// part in a thousand of another.
bool of_one_kind(Cases cases) {
  const auto so = [](const Case& one) { return one.outcome >= 0.5; };
  return std::all_of(cases.begin(), cases.end(), so) ||
         std::none_of(cases.begin(), cases.end(), so);
}

std::optional<double> intercept_of(Cases cases) {
  return of_one_kind(cases) ? std::nullopt : calibration_intercept(cases);
}

std::optional<double> slope_of(Cases cases) {
  if (of_one_kind(cases)) return std::nullopt;
  const auto fit = calibration_slope(cases);
  if (!fit) return std::nullopt;
  return fit->slope;
}

const std::vector<Named>& plain_scores() {
  static const std::vector<Named> scores = {
      {"brier", [](Cases c) { return some(brier(c)); }, ""},
      {"miscalibration", [](Cases c) { return some(decompose(c).miscalibration); }, ""},
      {"discrimination", [](Cases c) { return some(decompose(c).discrimination); }, ""},
      {"uncertainty", [](Cases c) { return some(decompose(c).uncertainty); }, ""},
      {"log-score", [](Cases c) { return some(log_score(c)); }, ""},
      {"observed-expected", [](Cases c) { return observed_expected(c); }, "nothing was expected"},
      {"intercept", intercept_of, "all outcomes are of one kind"},
      {"slope", slope_of,
       "no finite slope: outcomes of one kind, one forecast for all, or forecasts that part them"},
      {"spiegelhalter-z", [](Cases c) { return spiegelhalter_z(c); }, "nothing can vary"},
      {"auc",
       [](Cases c) -> std::optional<double> {
         const auto found = auc(c);
         if (!found) return std::nullopt;
         return found->value;
       },
       "all outcomes are of one kind"},
      {"auc-within-clutch",
       [](Cases c) -> std::optional<double> {
         const auto found = auc_within(c);
         if (!found) return std::nullopt;
         return found->value;
       },
       "no clutch has a het and another of known truth"},
      {"integrated-calibration-index",
       [](Cases c) { return some(integrated_calibration_index(c)); }, ""},
  };
  return scores;
}

class Scoring {
 public:
  Scoring(const colony::Colony& colony, const Forecasts& forecasts, const ScoreSettings& settings)
      : colony_(colony), forecasts_(forecasts), settings_(settings) {}

  void add(const Slice& slice, std::vector<ScoreEntry>& out) const {
    const auto cases = cases_of(colony_, forecasts_, slice);
    if (cases.empty()) return;
    std::set<std::size_t> clusters;
    for (const Case& one : cases) clusters.insert(one.cluster);
    ScoreEntry entry;
    entry.slice = slice;
    entry.cases = cases.size();
    entry.clutches = clusters.size();
    for (const Named& score : plain_scores()) {
      ScoreEntry one = plain(entry, cases, score);
      if (score.name == "auc") {
        if (const auto found = auc(cases)) one.delong = found->interval;
      }
      out.push_back(std::move(one));
    }
    for (double threshold : settings_.thresholds) {
      Named score{"net-benefit", [threshold](Cases c) { return some(net_benefit(c, threshold)); },
                  ""};
      ScoreEntry one = plain(entry, cases, score);
      one.threshold = threshold;
      out.push_back(std::move(one));
    }
    if (slice.basis == Basis::scored) add_gains(entry, cases, out);
  }

 private:
  ScoreEntry plain(ScoreEntry entry, const std::vector<Case>& cases, const Named& score) const {
    entry.score = score.name;
    entry.value = score.of(cases);
    if (!entry.value) {
      entry.note = score.undefined;
      return entry;
    }
    entry.interval = bootstrap_by_cluster(cases, settings_.resamples, settings_.seed, score.of);
    set_note(entry);
    return entry;
  }

  static void set_note(ScoreEntry& entry) {
    if (!entry.interval) {
      entry.note = "no interval: too few clutches";
    } else if (entry.clutches < few_clutches) {
      entry.note = fmt::format("rough interval: {} clutches", entry.clutches);
    }
  }

  // Against the same animals by pedigree alone.
  void add_gains(const ScoreEntry& entry, const std::vector<Case>& cases,
                 std::vector<ScoreEntry>& out) const {
    Slice by_pedigree = entry.slice;
    by_pedigree.basis = Basis::pedigree;
    const auto baseline = cases_of(colony_, forecasts_, by_pedigree);
    const auto gain = [&](const char* name, auto of) {
      ScoreEntry one = entry;
      one.score = name;
      one.value = of(cases, baseline);
      one.interval = bootstrap_by_cluster(cases, baseline, settings_.resamples, settings_.seed, of);
      if (one.value && !std::isfinite(*one.value)) {
        one.value.reset();
        one.note = "the pedigree alone was perfect";
      } else {
        set_note(one);
      }
      out.push_back(std::move(one));
    };
    gain("skill", [](Cases a, Cases b) { return some(skill(a, b)); });
    gain("log-skill", [](Cases a, Cases b) { return some(log_score(b) - log_score(a)); });
  }

  const colony::Colony& colony_;
  const Forecasts& forecasts_;
  const ScoreSettings& settings_;
};

}  // namespace

std::vector<Case> cases_of(const colony::Colony& colony, const Forecasts& forecasts,
                           const Slice& slice) {
  std::vector<Case> out;
  for (const Forecast& forecast : forecasts.forecasts) {
    if (forecast.basis != slice.basis || forecast.scheme != slice.scheme) continue;
    const Truth& truth = forecasts.truths[forecast.truth];
    if (slice.kind && truth.kind != *slice.kind) continue;
    if (slice.locus && truth.event.locus != *slice.locus) continue;
    out.push_back({std::clamp(forecast.probability, 0.0, 1.0),
                   std::clamp(truth.probability, 0.0, 1.0),
                   cluster_of(colony, truth.event.animal)});
  }
  return out;
}

std::vector<ScoreEntry> score_table(const colony::Colony& colony, const Forecasts& forecasts,
                                    const ScoreSettings& settings) {
  const Scoring scoring(colony, forecasts, settings);
  std::set<Kind> kinds;
  std::set<std::size_t> loci;
  for (const Forecast& forecast : forecasts.forecasts) {
    kinds.insert(forecasts.truths[forecast.truth].kind);
    loci.insert(forecasts.truths[forecast.truth].event.locus);
  }
  std::vector<ScoreEntry> out;
  const auto both_bases = [&](Scheme scheme, std::optional<Kind> kind,
                              std::optional<std::size_t> locus) {
    for (Basis basis : {Basis::pedigree, Basis::scored}) {
      scoring.add({basis, scheme, kind, locus}, out);
    }
  };
  for (Scheme scheme : {Scheme::as_it_stood, Scheme::clutch_left_out}) {
    both_bases(scheme, std::nullopt, std::nullopt);
    for (Kind kind : kinds) both_bases(scheme, kind, std::nullopt);
    if (loci.size() < 2) continue;
    for (std::size_t locus : loci) both_bases(scheme, std::nullopt, locus);
  }
  return out;
}

}  // namespace likelihet::audit
