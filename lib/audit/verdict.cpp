// The rules, one function each.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include <likelihet/audit/level_mixture.hpp>
#include <likelihet/audit/marker_groups.hpp>
#include <likelihet/audit/verdict.hpp>

namespace likelihet::audit {

namespace {

constexpr double significant = 0.05;
constexpr double harmless_low = 0.5, harmless_high = 2;
constexpr std::size_t enough_in_a_line = 10;

// P of a group's odds ratio being no more than 1, one-sided.
double above_one_p(const GroupAudit& group) {
  if (!tells(group)) return 1;
  return 0.5 * std::erfc(group.log_odds_ratio / std::sqrt(2 * group.variance));
}

double mean_level(const std::vector<double>& row) {
  double sum = 0;
  for (std::size_t x = 0; x < row.size(); ++x) sum += static_cast<double>(x) * row[x];
  return sum;
}

bool speaks_for_carriers(const MarkerAudit& marker) {
  return mean_level(marker.estimated_carriers) > mean_level(marker.estimated_others);
}

bool predicts(const MarkerAudit& marker) {
  return speaks_for_carriers(marker) && marker.pooled.adjusted < significant &&
         marker.within_clutch.adjusted < significant && marker.within_clutch_z > 0;
}

bool explained(const colony::Colony& colony, MarkerAudit& marker) {
  if (!marker.other || marker.other->p >= other_trait_significant ||
      marker.other->left <= significant) {
    return false;
  }
  const auto& locus = colony.model().loci()[marker.other->locus];
  marker.verdict = Verdict::explained_by_another_trait;
  marker.why = fmt::format(
      "it follows hets of {} {} (p {:.2g}); once those are told apart nothing is left for {} "
      "(p {:.2g})",
      locus.id(), locus.alleles()[marker.other->allele], marker.other->p,
      colony.model().loci()[marker.locus].id(), marker.other->left);
  return true;
}

bool in_some_lines(MarkerAudit& marker) {
  if (!marker.lines_differ || *marker.lines_differ >= significant) return false;
  std::string works;
  std::string fails;
  double lines = 0;
  for (const auto& group : marker.groups) lines += group.by == GroupAudit::By::line ? 1 : 0;
  for (const auto& group : marker.groups) {
    if (group.by != GroupAudit::By::line) continue;
    if (above_one_p(group) * lines < significant / 2) {
      works += (works.empty() ? "" : ", ") + group.name;
    } else if (group.animals >= enough_in_a_line && group.odds_ratio.interval.low <= 1) {
      fails += (fails.empty() ? "" : ", ") + group.name;
    }
  }
  if (works.empty() || fails.empty()) return false;
  marker.verdict = Verdict::only_in_some_lines;
  marker.why = fmt::format("it works in line {} and not in {} (lines differ, p {:.2g})", works,
                           fails, *marker.lines_differ);
  return true;
}

bool when_unblinded(MarkerAudit& marker) {
  if (!marker.blinding_differs || *marker.blinding_differs >= significant) return false;
  const GroupAudit* blind = nullptr;
  const GroupAudit* open = nullptr;
  for (const auto& group : marker.groups) {
    if (group.by != GroupAudit::By::blinding) continue;
    (group.name == "blind" ? blind : open) = &group;
  }
  if (blind == nullptr || open == nullptr) return false;
  if (above_one_p(*open) >= significant / 2 || blind->odds_ratio.interval.low > 1) return false;
  marker.verdict = Verdict::only_unblinded;
  marker.why = fmt::format(
      "it predicts where the scorer knew the parents (odds ratio {:.2g}) and not where blind "
      "({:.2g}; they differ, p {:.2g})",
      open->odds_ratio.value, blind->odds_ratio.value, *marker.blinding_differs);
  return true;
}

bool useless(MarkerAudit& marker) {
  if (marker.pooled.adjusted < significant && !speaks_for_carriers(marker)) {
    marker.verdict = Verdict::does_not_predict;
    marker.why =
        fmt::format("hets show it less than others (adjusted p {:.2g})", marker.pooled.adjusted);
    return true;
  }
  const bool harmless =
      std::all_of(marker.cuts.begin(), marker.cuts.end(), [](const CutAudit& cut) {
        const Interval& interval = cut.odds_ratio_pooled.interval;
        return interval.low >= harmless_low && interval.high <= harmless_high;
      });
  if (!harmless || marker.cuts.empty()) return false;
  marker.verdict = Verdict::does_not_predict;
  marker.why =
      fmt::format("its odds ratio is between {:g} and {:g} at every level, with 95 % confidence",
                  harmless_low, harmless_high);
  return true;
}

std::string why_not_yet(const MarkerAudit& marker) {
  const auto hets = std::count_if(marker.known_carriers.begin(), marker.known_carriers.end(),
                                  [](double n) { return n > 0; });
  const auto others = std::count_if(marker.known_others.begin(), marker.known_others.end(),
                                    [](double n) { return n > 0; });
  if (marker.pooled.adjusted < significant && speaks_for_carriers(marker)) {
    return fmt::format(
        "it tells families apart (adjusted p {:.2g}), but not yet hets within a clutch (p "
        "{:.2g}, {} clutches tell)",
        marker.pooled.adjusted, marker.within_clutch.p, marker.informative_clutches);
  }
  if (hets == 0 || others == 0) {
    return fmt::format("of {} animals scored, none is known {} het", marker.animals,
                       hets == 0 ? "to be" : "not to be");
  }
  return fmt::format("{} animals scored, {} of known truth: too few to tell (adjusted p {:.2g})",
                     marker.animals, marker.known, marker.pooled.adjusted);
}

}  // namespace

void judge(const colony::Colony& colony, MarkerAudit& marker) {
  if (explained(colony, marker) || in_some_lines(marker) || when_unblinded(marker)) return;
  if (predicts(marker)) {
    marker.verdict = Verdict::predicts;
    marker.why = fmt::format(
        "hets show it more, over all (adjusted p {:.2g}) and within clutches (adjusted p "
        "{:.2g}, {} clutches tell)",
        marker.pooled.adjusted, marker.within_clutch.adjusted, marker.informative_clutches);
    return;
  }
  if (useless(marker)) return;
  marker.verdict = Verdict::no_evidence_yet;
  marker.why = why_not_yet(marker);
}

const char* code_of(Verdict verdict) {
  switch (verdict) {
    case Verdict::predicts:
      return "predicts";
    case Verdict::does_not_predict:
      return "does-not-predict";
    case Verdict::only_in_some_lines:
      return "only-in-some-lines";
    case Verdict::explained_by_another_trait:
      return "explained-by-another-trait";
    case Verdict::only_unblinded:
      return "only-unblinded";
    case Verdict::no_evidence_yet:
      break;
  }
  return "no-evidence-yet";
}

const char* words_of(Verdict verdict) {
  switch (verdict) {
    case Verdict::predicts:
      return "predicts";
    case Verdict::does_not_predict:
      return "does not predict";
    case Verdict::only_in_some_lines:
      return "only in some lines";
    case Verdict::explained_by_another_trait:
      return "explained by another trait";
    case Verdict::only_unblinded:
      return "only unblinded";
    case Verdict::no_evidence_yet:
      break;
  }
  return "no evidence yet";
}

}  // namespace likelihet::audit
