#include "score_kinds.hpp"

namespace likelihet::publishing {

const std::vector<ScoreKind>& score_kinds() {
  static const std::vector<ScoreKind> kinds = {
      {"skill", "skill against the pedigree (Brier)",
       "1; 0: no better than the pedigree; below 0: worse", 2},
      {"log-skill", "bits gained on the pedigree, a forecast",
       "the more the better; 0: nothing gained", 2},
      {"brier", "Brier score", "0; smaller is better", 3},
      {"miscalibration", "of it, miscalibration", "0; smaller is better", 3},
      {"discrimination", "of it, discrimination", "larger is better", 3},
      {"uncertainty", "of it, uncertainty", "given by the animals, not by the forecasts", 3},
      {"log-score", "log score, bits a forecast", "0; smaller is better; 1: as good as a coin", 2},
      {"observed-expected", "hets found for each one expected",
       "1; above: called too low; below: too high", 2},
      {"intercept", "calibration intercept, slope fixed at 1",
       "0; above: called too low; below: too high", 2},
      {"slope", "calibration slope", "1; below 1: the percentages are too extreme", 2},
      {"spiegelhalter-z", "Spiegelhalter's z", "0; beyond ±2: percentages and outcomes disagree",
       2},
      {"integrated-calibration-index", "mean distance from the calibration curve",
       "0; smaller is better", 3},
      {"auc", "AUC, all animals together", "1; 0.5: guessing", 2},
      {"auc-within-clutch", "AUC within clutches", "1; 0.5: guessing among clutch mates", 2},
      {"net-benefit", "net benefit", "larger is better; compare with the chart of all and none",
       3}};
  return kinds;
}

std::vector<const json*> find_scores(const json& audit, const ScoreOf& of, std::string_view code) {
  auto found = having(entries(audit, "scores"), {{"basis", of.basis},
                                                 {"scheme", of.scheme},
                                                 {"outcomes", of.outcomes},
                                                 {"locus", of.locus},
                                                 {"score", code}});
  return found;
}

Estimate score_estimate(const json& audit, const ScoreOf& of, std::string_view code) {
  const auto found = find_scores(audit, of, code);
  if (found.empty()) return {};
  auto out = estimate(*found.front());
  out.why = text(*found.front(), "note");
  return out;
}

}  // namespace likelihet::publishing
