// An audit in a few sentences: what a breeder repeats of it.
#include <algorithm>
#include <cctype>
#include <map>

#include "audit_output.hpp"
#include "change_output.hpp"
#include "percent.hpp"
#include "printable.hpp"
#include "table.hpp"
#include <fmt/format.h>

#include <likelihet/audit/verdict.hpp>

namespace likelihet::cli {
namespace {

using audit::Audit;

constexpr std::size_t most_sentences = 10;

// All kinds of outcome and all traits together, as the book stood, with markers.
const audit::ScoreEntry* overall(const Audit& audit, std::string_view score) {
  const auto found =
      std::find_if(audit.scores.begin(), audit.scores.end(), [&](const audit::ScoreEntry& entry) {
        return entry.score == score && entry.slice.basis == audit::Basis::scored &&
               entry.slice.scheme == audit::Scheme::as_it_stood && !entry.slice.kind &&
               !entry.slice.locus;
      });
  return found == audit.scores.end() || !found->value ? nullptr : &*found;
}

// Did the percentages come true?
std::string as_promised(const Audit& audit) {
  const auto* found = overall(audit, "observed-expected");
  if (found == nullptr) {
    return "No percentage can be checked yet: of no animal did the truth come out after it had a "
           "chance in this book.";
  }
  std::string out = fmt::format(
      "Of {} percentage{} whose truth came out, for each het that they promised {:.2f} were found",
      found->cases, found->cases == 1 ? "" : "s", *found->value);
  if (!found->interval) return out + "; that is too little to say whether they were right.";
  out +=
      fmt::format(" (95 % interval {:.2f} to {:.2f})", found->interval->low, found->interval->high);
  if (found->interval->low > 1) return out + ": they were too low.";
  if (found->interval->high < 1) return out + ": they were too high.";
  return out + ": they may well have been right.";
}

// The band of percentages that most animals were in.
std::string fullest_band(const Audit& audit) {
  const auto fullest = std::max_element(
      audit.bands.begin(), audit.bands.end(),
      [](const audit::Band& a, const audit::Band& b) { return a.cases < b.cases; });
  if (fullest == audit.bands.end() || fullest->cases == 0) return {};
  return fmt::format("Of {} called {:.0f} to {:.0f} %, {} turned out het: {}.",
                     counted(fullest->cases, "animal", "animals"), 100 * fullest->low,
                     100 * fullest->high, fullest->hets, percent(fullest->proved.value));
}

std::string gain_by_markers(const Audit& audit) {
  const auto* skill = overall(audit, "skill");
  if (skill == nullptr || !skill->interval) {
    return overall(audit, "brier") == nullptr
               ? std::string{}
               : "Whether markers improve on the pedigree alone cannot be told yet.";
  }
  const std::string figure =
      fmt::format("{:.0f} % of the error gone, 95 % interval {:.0f} to {:.0f} %",
                  100 * *skill->value, 100 * skill->interval->low, 100 * skill->interval->high);
  if (skill->interval->low > 0) {
    return fmt::format("Markers earned their place: better than the pedigree alone ({}).", figure);
  }
  if (skill->interval->high < 0) {
    return fmt::format("Markers did harm: worse than the pedigree alone ({}).", figure);
  }
  return fmt::format("That markers improve on the pedigree alone is not shown ({}).", figure);
}

// One sentence for each verdict, with the markers that it is on, the useful ones first.
std::vector<std::string> verdicts(const colony::Model& model, const Audit& audit) {
  std::map<audit::Verdict, std::string> by_verdict;
  for (const auto& of : audit.markers) {
    std::string& names = by_verdict[of.verdict];
    const std::string name =
        fmt::format("{} for {}", audited_marker_name(model, of), model.loci()[of.locus].id());
    if (!names.empty()) names += ", ";
    names += name;
  }
  std::vector<std::string> out;
  for (const auto& [verdict, names] : by_verdict) {
    std::string words = audit::words_of(verdict);
    words[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(words[0])));
    out.push_back(fmt::format("{}: {}.", words, names));
  }
  return out;
}

// How those were chosen whose truth a test told.
std::string chosen_to_test(const Audit& audit) {
  std::size_t tested = 0, all = 0;
  bool selected = false;
  for (const auto& of : audit.selections) {
    tested += of.tested;
    all += of.tested + of.untested;
    selected = selected || of.verdict == audit::Selected::looks_selected;
  }
  if (tested == 0) return {};
  const std::string out = fmt::format("{} of {} scored animals were tested", tested, all);
  return selected ? out +
                        "; they look chosen by their markers, which flatters these: test one in "
                        "five at random."
                  : out + ".";
}

// The two who agree least on a marker.
std::string least_agreement(const colony::Model& model, const Audit& audit) {
  constexpr std::size_t enough = 10;
  const audit::Agreement* least = nullptr;
  for (const auto& of : audit.agreements) {
    if (of.first == of.second || of.pairs < enough || !of.weighted_kappa.value) continue;
    if (least == nullptr || *of.weighted_kappa.value < *least->weighted_kappa.value) least = &of;
  }
  if (least == nullptr) return {};
  return fmt::format("{} and {} agree least on {}: alike on {} of {} (weighted kappa {:.2f}).",
                     model.scorers()[least->first].id, model.scorers()[least->second].id,
                     model.markers()[least->marker].id, percent(least->exact.value),
                     counted(least->pairs, "animal", "animals"), *least->weighted_kappa.value);
}

std::string published(const Audit& audit) {
  const audit::ClaimCheck& check = audit.claims;
  if (check.resolved.empty()) return {};
  return fmt::format(
      "Of {} published whose truth came out later, {:.1f} hets were promised and "
      "{:.1f} found.",
      counted(check.resolved.size(), "number", "numbers"), check.expected, check.observed);
}

std::string warned(const Audit& audit) {
  const auto more =
      std::count_if(audit.warnings.begin(), audit.warnings.end(),
                    [](const auto& warning) { return warning.code != "no-outcomes"; });
  if (more == 0) return {};
  return fmt::format("{} before you trust these figures: 'likelihet audit BOOK --full' has {}.",
                     counted(static_cast<std::size_t>(more), "warning", "warnings"),
                     more == 1 ? "it" : "them");
}

}  // namespace

std::vector<std::string> audit_sentences(const colony::Colony& colony, const Audit& audit) {
  std::vector<std::string> out{as_promised(audit), fullest_band(audit), gain_by_markers(audit)};
  // What comes after the verdicts keeps its place.
  std::vector<std::string> last{published(audit), chosen_to_test(audit),
                                least_agreement(colony.model(), audit), warned(audit)};
  std::erase(out, std::string{});
  std::erase(last, std::string{});
  for (std::string& verdict : verdicts(colony.model(), audit)) {
    if (out.size() + last.size() + 1 < most_sentences) out.push_back(std::move(verdict));
  }
  out.insert(out.end(), last.begin(), last.end());
  out.push_back(
      "An estimate, not a guarantee: what may be claimed in a listing is for consumer law and "
      "local law to say, and an animal's health for a reptile veterinarian.");
  return out;
}

std::string audit_summary(const colony::Colony& colony, const Audit& audit,
                          const Terminal& terminal) {
  std::string text;
  for (const std::string& sentence : audit_sentences(colony, audit)) {
    text += wrapped(printable(sentence, 2000), terminal.width(), 2) + "\n";
  }
  return text;
}

}  // namespace likelihet::cli
