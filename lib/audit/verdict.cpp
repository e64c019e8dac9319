// The rules, one function each.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include <likelihet/audit/level_mixture.hpp>
#include <likelihet/audit/mark_groups.hpp>
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

bool speaks_for_carriers(const MarkAudit& mark) {
  return mean_level(mark.estimated_carriers) > mean_level(mark.estimated_others);
}

bool predicts(const MarkAudit& mark) {
  return speaks_for_carriers(mark) && mark.pooled.adjusted < significant &&
         mark.within_clutch.adjusted < significant && mark.within_clutch_z > 0;
}

bool explained(const colony::Colony& colony, MarkAudit& mark) {
  if (!mark.other || mark.other->p >= other_trait_significant || mark.other->left <= significant) {
    return false;
  }
  const auto& locus = colony.model().loci()[mark.other->locus];
  mark.verdict = Verdict::explained_by_another_trait;
  mark.why = fmt::format(
      "it follows carriers of {} {} (p {:.2g}); once those are told apart nothing is left for {} "
      "(p {:.2g})",
      locus.id(), locus.alleles()[mark.other->allele], mark.other->p,
      colony.model().loci()[mark.locus].id(), mark.other->left);
  return true;
}

bool in_some_lines(MarkAudit& mark) {
  if (!mark.lines_differ || *mark.lines_differ >= significant) return false;
  std::string works;
  std::string fails;
  double lines = 0;
  for (const auto& group : mark.groups) lines += group.by == GroupAudit::By::line ? 1 : 0;
  for (const auto& group : mark.groups) {
    if (group.by != GroupAudit::By::line) continue;
    if (above_one_p(group) * lines < significant / 2) {
      works += (works.empty() ? "" : ", ") + group.name;
    } else if (group.animals >= enough_in_a_line && group.odds_ratio.interval.low <= 1) {
      fails += (fails.empty() ? "" : ", ") + group.name;
    }
  }
  if (works.empty() || fails.empty()) return false;
  mark.verdict = Verdict::only_in_some_lines;
  mark.why = fmt::format("it works in line {} and not in {} (lines differ, p {:.2g})", works, fails,
                         *mark.lines_differ);
  return true;
}

bool when_unblinded(MarkAudit& mark) {
  if (!mark.blinding_differs || *mark.blinding_differs >= significant) return false;
  const GroupAudit* blind = nullptr;
  const GroupAudit* open = nullptr;
  for (const auto& group : mark.groups) {
    if (group.by != GroupAudit::By::blinding) continue;
    (group.name == "blind" ? blind : open) = &group;
  }
  if (blind == nullptr || open == nullptr) return false;
  if (above_one_p(*open) >= significant / 2 || blind->odds_ratio.interval.low > 1) return false;
  mark.verdict = Verdict::only_unblinded;
  mark.why = fmt::format(
      "it predicts where the scorer knew the parents (odds ratio {:.2g}) and not where blind "
      "({:.2g}; they differ, p {:.2g})",
      open->odds_ratio.value, blind->odds_ratio.value, *mark.blinding_differs);
  return true;
}

bool useless(MarkAudit& mark) {
  if (mark.pooled.adjusted < significant && !speaks_for_carriers(mark)) {
    mark.verdict = Verdict::does_not_predict;
    mark.why =
        fmt::format("carriers show it less than others (adjusted p {:.2g})", mark.pooled.adjusted);
    return true;
  }
  const bool harmless = std::all_of(mark.cuts.begin(), mark.cuts.end(), [](const CutAudit& cut) {
    const Interval& interval = cut.odds_ratio_pooled.interval;
    return interval.low >= harmless_low && interval.high <= harmless_high;
  });
  if (!harmless || mark.cuts.empty()) return false;
  mark.verdict = Verdict::does_not_predict;
  mark.why =
      fmt::format("its odds ratio is between {:g} and {:g} at every cut, with 95 % confidence",
                  harmless_low, harmless_high);
  return true;
}

std::string why_not_yet(const MarkAudit& mark) {
  const auto carriers = std::count_if(mark.known_carriers.begin(), mark.known_carriers.end(),
                                      [](double n) { return n > 0; });
  const auto others = std::count_if(mark.known_others.begin(), mark.known_others.end(),
                                    [](double n) { return n > 0; });
  if (mark.pooled.adjusted < significant && speaks_for_carriers(mark)) {
    return fmt::format(
        "it tells families apart (adjusted p {:.2g}), but not yet carriers within a clutch (p "
        "{:.2g}, {} clutches tell)",
        mark.pooled.adjusted, mark.within_clutch.p, mark.informative_clutches);
  }
  if (carriers == 0 || others == 0) {
    return fmt::format("of {} animals scored, none is known to be {}", mark.animals,
                       carriers == 0 ? "a carrier" : "no carrier");
  }
  return fmt::format("{} animals scored, {} of known truth: too few to tell (adjusted p {:.2g})",
                     mark.animals, mark.known, mark.pooled.adjusted);
}

}  // namespace

void judge(const colony::Colony& colony, MarkAudit& mark) {
  if (explained(colony, mark) || in_some_lines(mark) || when_unblinded(mark)) return;
  if (predicts(mark)) {
    mark.verdict = Verdict::predicts;
    mark.why = fmt::format(
        "carriers show it more, over all (adjusted p {:.2g}) and within clutches (adjusted p "
        "{:.2g}, {} clutches tell)",
        mark.pooled.adjusted, mark.within_clutch.adjusted, mark.informative_clutches);
    return;
  }
  if (useless(mark)) return;
  mark.verdict = Verdict::no_evidence_yet;
  mark.why = why_not_yet(mark);
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
