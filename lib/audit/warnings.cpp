// Warnings, most serious first.
#include <algorithm>
#include <set>

#include <fmt/format.h>

#include <likelihet/audit/audit.hpp>
#include <likelihet/audit/warnings.hpp>

namespace likelihet::audit {

namespace {

constexpr std::size_t few_low_scores = 10;

struct Outcomes {
  std::size_t all = 0, hets = 0;
  std::size_t clutches = 0;
  std::set<Kind> kinds;
};

Outcomes outcomes_of(const Audit& audit) {
  Outcomes out;
  for (const Forecast& forecast : audit.forecasts.forecasts) {
    if (forecast.scheme != Scheme::as_it_stood || forecast.basis != Basis::scored) continue;
    const Truth& truth = audit.forecasts.truths[forecast.truth];
    ++out.all;
    out.hets += truth.so() ? 1 : 0;
    out.kinds.insert(truth.kind);
  }
  for (const ScoreEntry& entry : audit.scores)
    out.clutches = std::max(out.clutches, entry.clutches);
  return out;
}

void warn_of_outcomes(const Outcomes& outcomes, std::vector<Warning>& out) {
  if (outcomes.all == 0) {
    out.push_back({"no-outcomes",
                   "No animal's truth became known after it could be forecast: there is nothing to "
                   "score yet. Test some, or breed them, and record what comes of it."});
    return;
  }
  if (outcomes.hets == 0 || outcomes.hets == outcomes.all) {
    out.push_back({"one-kind-of-outcome",
                   fmt::format("All {} outcomes are {}: nothing can be said of telling hets "
                               "from others.",
                               outcomes.all,
                               outcomes.hets == 0 ? "of animals that are not het" : "of hets")});
  }
  if (outcomes.all < few_outcomes) {
    out.push_back({"few-outcomes",
                   fmt::format("{} outcome{}: counts, scores and the table say what there is; a "
                               "calibration curve needs {} or more.",
                               outcomes.all, outcomes.all == 1 ? "" : "s", few_outcomes)});
  }
  if (outcomes.clutches < few_clutches) {
    out.push_back(
        {"few-clutches",
         fmt::format("They come from {} clutch{}, and siblings are alike: intervals are "
                     "rough below {}.",
                     outcomes.clutches, outcomes.clutches == 1 ? "" : "es", few_clutches)});
  }
  if (outcomes.kinds.size() > 1) {
    out.push_back({"several-kinds-of-outcome",
                   "Tests, breeding and looks are different references. Figures of all kinds "
                   "together are called so; each kind is beside them."});
  }
}

// A test that errs now and then proves hets and leaves others open: those that are known are
// then not like those that were tested.
void warn_of_open_results(const Audit& audit, std::vector<Warning>& out) {
  std::size_t open = 0;
  double hets = 0;
  for (const Flow& flow : audit.flows) {
    open += flow.open_after_result;
    hets += flow.open_carriers;
  }
  if (open == 0) return;
  out.push_back(
      {"results-left-open",
       fmt::format("{} tested animal{} not counted: the result left the chance between the "
                   "thresholds ({:.1f} expected to be hets). If most of them are of "
                   "one kind, those that count are not like those that were tested; "
                   "compare with looser thresholds (--known 0.95).",
                   open, open == 1 ? " is" : "s are", hets)});
}

}  // namespace

std::vector<Warning> warnings_of(const Audit& audit) {
  std::vector<Warning> out;
  warn_of_outcomes(outcomes_of(audit), out);
  warn_of_open_results(audit, out);
  const bool selected =
      std::any_of(audit.selections.begin(), audit.selections.end(), [](const Selection& selection) {
        return selection.verdict == Selected::looks_selected &&
               selection.low_score_tested < few_low_scores;
      });
  if (selected) {
    out.push_back(
        {"tested-by-their-markers",
         fmt::format("The animals tested look chosen by their markers, and fewer than {} of "
                     "low score are among them: figures of tested animals alone flatter "
                     "the markers. Read the corrected ones, and test one in five at random.",
                     few_low_scores)});
  }
  for (const UnblindedSeason& season : audit.unblinded) {
    out.push_back(
        {"season-not-blind",
         fmt::format("In {}, {} of {} scores were made knowing the parents or the chances: "
                     "read that season apart.",
                     season.season, season.unblinded, season.readings)});
  }
  std::size_t blind = 0;
  std::size_t readings = 0;
  for (const ScorerAudit& scorer : audit.scorers) {
    blind += scorer.blind;
    readings += scorer.readings;
  }
  if (readings > 0 && blind == 0) {
    out.push_back({"not-blind",
                   "No score is recorded as blind: who knows the parents may see what is "
                   "expected."});
  }
  return out;
}

}  // namespace likelihet::audit
