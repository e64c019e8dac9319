// An audit for people.
#include <algorithm>

#include "audit_output.hpp"
#include "change_output.hpp"
#include "percent.hpp"
#include "printable.hpp"
#include "table.hpp"
#include <fmt/format.h>

#include <likelihet/audit/verdict.hpp>

namespace likelihet::cli {
namespace {

std::string paragraph(const std::string& text, const Terminal& terminal) {
  return wrapped(text, terminal.width(), 0) + "\n";
}

std::string warnings_text(const audit::Audit& audit, const Terminal& terminal) {
  std::string text;
  for (const auto& warning : audit.warnings) {
    text += terminal.warning(paragraph("Warning: " + warning.text, terminal));
  }
  return text.empty() ? text : text + "\n";
}

std::string flow_text(const colony::Colony& colony, const audit::Audit& audit,
                      const Terminal& terminal) {
  Table animals({{"trait"},
                 {"animals", Align::right},
                 {"hatched", Align::right},
                 {"scored", Align::right},
                 {"audited", Align::right},
                 {"known before", Align::right},
                 {"not known", Align::right}});
  Table known({{"of the audited, known by"},
               {"test", Align::right},
               {"breeding", Align::right},
               {"look", Align::right},
               {"relatives", Align::right}});
  for (const auto& flow : audit.flows) {
    const auto& locus = colony.model().loci()[flow.locus];
    const std::string trait = printable(locus.id() + " " + locus.alleles()[flow.allele]);
    animals.add({trait, std::to_string(flow.animals), std::to_string(flow.hatched),
                 std::to_string(flow.scored), std::to_string(flow.forecast),
                 std::to_string(flow.left_out[0] + flow.left_out[1] + flow.left_out[2]),
                 std::to_string(flow.not_known)});
    known.add({trait, std::to_string(flow.known[0]), std::to_string(flow.known[1]),
               std::to_string(flow.known[2]), std::to_string(flow.known[3])});
  }
  return terminal.heading("Whose truth became known, by what") + "\n" + animals.text(terminal, 2) +
         "\n" + known.text(terminal, 2) + "\n";
}

struct Shown {
  const char* score;
  const char* words;
  bool percent;
};

// In the order of reading: did they come true, were they sharp, did markers help.
constexpr Shown shown_scores[] = {
    {"observed-expected", "hets seen / expected", false},
    {"intercept", "too low (+) or too high, log odds", false},
    {"slope", "slope: below 1 is too extreme", false},
    {"brier", "Brier score (0 is best)", false},
    {"log-score", "log score, bits an animal (0 is best)", false},
    {"skill", "Brier score gained on the pedigree", true},
    {"log-skill", "bits gained on the pedigree", false},
    {"auc", "het called higher than another", true},
    {"auc-within-clutch", "the same among siblings", true},
};

const audit::ScoreEntry* entry_of(const audit::Audit& audit, const char* score, audit::Basis basis,
                                  audit::Scheme scheme, std::optional<audit::Kind> kind) {
  const auto found =
      std::find_if(audit.scores.begin(), audit.scores.end(), [&](const audit::ScoreEntry& entry) {
        return entry.score == score && entry.slice.basis == basis && entry.slice.scheme == scheme &&
               entry.slice.kind == kind && !entry.slice.locus;
      });
  return found == audit.scores.end() ? nullptr : &*found;
}

/// What a table's cells refer to by a letter: why a score could not be given.
class Footnotes {
 public:
  /// " [a]", the same for the same words.
  std::string mark(const std::string& words) {
    const auto found = std::find(notes_.begin(), notes_.end(), words);
    const auto at = static_cast<std::size_t>(found - notes_.begin());
    if (found == notes_.end()) notes_.push_back(words);
    return fmt::format(" [{}]", static_cast<char>('a' + at));
  }
  [[nodiscard]] std::string text(const Terminal& terminal) const {
    std::string out;
    for (std::size_t n = 0; n < notes_.size(); ++n) {
      const std::string line = fmt::format("[{}] {}", static_cast<char>('a' + n), notes_[n]);
      out += "  " + wrapped(line, terminal.width() - 2, 6) + "\n";
    }
    return out;
  }

 private:
  std::vector<std::string> notes_;
};

std::string value_cell(const audit::ScoreEntry* entry, bool as_percent, Footnotes& notes) {
  if (entry == nullptr) return "";
  if (!entry->value) return entry->note.empty() ? "–" : "–" + notes.mark(entry->note);
  const auto number = [&](double x) {
    return as_percent ? fmt::format("{:.0f} %", 100 * x) : fmt::format("{:.2f}", x);
  };
  std::string text = number(*entry->value);
  if (entry->interval) {
    text += fmt::format(" ({} to {})", number(entry->interval->low), number(entry->interval->high));
  }
  return text;
}

std::string scores_of(const audit::Audit& audit, audit::Scheme scheme,
                      std::optional<audit::Kind> kind, const std::string& title,
                      const Terminal& terminal) {
  const auto* any = entry_of(audit, "brier", audit::Basis::scored, scheme, kind);
  if (any == nullptr) return {};
  Footnotes notes;
  Table table({{"score (95 % interval by clutch)"}, {"pedigree alone"}, {"with markers"}});
  for (const Shown& shown : shown_scores) {
    const auto cell = [&](audit::Basis basis) {
      return value_cell(entry_of(audit, shown.score, basis, scheme, kind), shown.percent, notes);
    };
    // One after the other, as each may add a footnote.
    const std::string pedigree = cell(audit::Basis::pedigree);
    table.add({shown.words, pedigree, cell(audit::Basis::scored)});
  }
  const std::string heading =
      fmt::format("{}: {} outcome{} from {} clutch{}", title, any->cases,
                  any->cases == 1 ? "" : "s", any->clutches, any->clutches == 1 ? "" : "es");
  return terminal.heading(fitted(heading, terminal.width(), 2)) + "\n" + table.text(terminal, 2) +
         notes.text(terminal) + "\n";
}

std::string scores_text(const audit::Audit& audit, const Terminal& terminal) {
  using audit::Kind;
  using audit::Scheme;
  std::string text;
  const std::pair<Kind, const char*> kinds[] = {{Kind::test, "Known by a test"},
                                                {Kind::breeding, "Known by breeding"},
                                                {Kind::visual, "Known by the animal's look"},
                                                {Kind::relatives, "Known through relatives"}};
  for (const auto& [kind, title] : kinds) {
    text += scores_of(audit, Scheme::as_it_stood, kind,
                      std::string("As the book stood the day before. ") + title, terminal);
  }
  text += scores_of(audit, Scheme::as_it_stood, std::nullopt,
                    "As the book stood the day before. All kinds together", terminal);
  return text + scores_of(audit, Scheme::clutch_left_out, std::nullopt,
                          "From the rest of the book, the clutch left out. All kinds together",
                          terminal);
}

std::string bands_table(const std::vector<audit::Band>& bands, const std::string& heading,
                        const Terminal& terminal) {
  if (bands.empty()) return {};
  Table table({{"called"}, {"animals", Align::right}, {"carriers", Align::right}, {"which is"}});
  for (const auto& band : bands) {
    table.add({fmt::format("{:.0f} to {:.0f} %", 100 * band.low, 100 * band.high),
               std::to_string(band.cases), std::to_string(band.hets),
               fmt::format("{:.0f} % ({:.0f} to {:.0f} %)", 100 * band.proved.value,
                           100 * band.proved.interval.low, 100 * band.proved.interval.high)});
  }
  return terminal.heading(heading) + "\n" + table.text(terminal, 2) + "\n";
}

std::string bands_text(const audit::Audit& audit, const Terminal& terminal) {
  return bands_table(audit.bands, "Of everything called so, how many turned out het", terminal);
}

std::string audited_claims_text(const audit::Audit& audit, const Terminal& terminal) {
  const audit::ClaimCheck& check = audit.claims;
  if (check.made == 0) return {};
  const std::string counts = fmt::format(
      "{} published so far, withdrawn and replaced ones too: {} of unknown truth, {} known already "
      "by then, {} that came out later: {:.1f} hets expected, {:.1f} seen.",
      counted(check.made, "number", "numbers"), check.open, check.known_already,
      check.resolved.size(), check.expected, check.observed);
  return bands_table(check.bands, "Of everything published so, how many turned out het", terminal) +
         wrapped(counts, terminal.width(), 0) + "\n\n";
}

// Animals at this level or above.
double total(const std::vector<double>& by_level, std::size_t from) {
  double sum = 0;
  for (std::size_t k = from; k < by_level.size(); ++k) sum += by_level[k];
  return sum;
}

// "9 of 12"; "–" of nobody.
std::string shown_by(const std::vector<double>& by_level, std::size_t at_least) {
  const double all = total(by_level, 0);
  return all > 0 ? fmt::format("{:.0f} of {:.0f}", total(by_level, at_least), all) : "–";
}

std::string ratio_cell(const std::optional<audit::Estimate>& ratio) {
  if (!ratio) return "–";
  return fmt::format("×{:.2g} ({:.2g} to {:.2g})", ratio->value, ratio->interval.low,
                     ratio->interval.high);
}

// Pairs that come together beyond the truth, at a p-value of 5 % or less.
std::string repeats_text(const colony::Model& model, const audit::Audit& audit,
                         const Terminal& terminal) {
  constexpr double told_below = 0.05;
  std::string text;
  for (const auto& pair : audit.repeats) {
    if (pair.p > told_below || pair.correlation <= 0) continue;
    text += paragraph(
        printable(fmt::format("{} and {} repeat each other (correlation {:.2f} among {} animals of "
                              "known truth, p {:.2g}): multiplied, they say too much.",
                              model.markers()[pair.first].id, model.markers()[pair.second].id,
                              pair.correlation, pair.animals, pair.p)),
        terminal);
  }
  return text;
}

std::string conflicts_text(const audit::Audit& audit, const Terminal& terminal) {
  if (audit.conflicts.empty()) return {};
  std::string text = terminal.heading("Records that hardly fit the rest") + "\n";
  for (const auto& surprise : audit.conflicts) text += paragraph(printable(surprise.why), terminal);
  return text + "\n";
}

std::string markers_text(const colony::Colony& colony, const audit::Audit& audit,
                         const Terminal& terminal) {
  if (audit.markers.empty()) return {};
  std::string text = terminal.heading("Which markers earned their place") + "\n";
  for (const auto& audited : audit.markers) {
    const auto& locus = colony.model().loci()[audited.locus];
    const colony::Marker& marker = colony.model().markers()[audited.marker];
    text += wrapped(printable(fmt::format("  {} for {} {}: {}; {}.",
                                          audited_marker_name(colony.model(), audited), locus.id(),
                                          locus.alleles()[audited.allele],
                                          audit::words_of(audited.verdict), audited.why)),
                    terminal.width(), 4) +
            "\n";
    // Two tables, as one would be wider than a page.
    Table shown({{"at least"},
                 {"in known hets", Align::right},
                 {"in others", Align::right},
                 {"corrected", Align::right},
                 {"", Align::right}});
    Table ratios({{"at least"}, {"odds ×"}, {"among siblings ×"}});
    for (const auto& cut : audited.cuts) {
      const bool hets = total(audited.known_carriers, 0) > 0;
      const bool others = total(audited.known_others, 0) > 0;
      const std::string level = printable(marker.levels[cut.at_least]);
      shown.add({level, shown_by(audited.known_carriers, cut.at_least),
                 shown_by(audited.known_others, cut.at_least),
                 hets ? percent(cut.sensitivity.corrected.value) : "–",
                 others ? percent(1 - cut.specificity.corrected.value) : "–"});
      ratios.add({level, ratio_cell(cut.odds_ratio_pooled), ratio_cell(cut.odds_ratio_within)});
    }
    text += shown.text(terminal, 6) + ratios.text(terminal, 6);
    if (audited.adds_to_others) {
      text +=
          wrapped(printable(fmt::format("      beyond what {} says of the same animals: p {:.2g}",
                                        colony.model().markers()[*audited.nearest_other].id,
                                        audited.adds_to_others->p)),
                  terminal.width(), 6) +
          "\n";
    }
    if (audited.masked + audited.not_scorable + audited.too_late > 0) {
      text += wrapped(fmt::format("      left out: {} where it is masked, {} that could not be "
                                  "scored, {} scored after the truth was known",
                                  audited.masked, audited.not_scorable, audited.too_late),
                      terminal.width(), 6) +
              "\n";
    }
  }
  text += repeats_text(colony.model(), audit, terminal);
  return text +
         paragraph(fmt::format("{} markers were tried; p-values are adjusted for that "
                               "(Benjamini and Hochberg).",
                               audit.markers.size()),
                   terminal) +
         "\n";
}

std::string kappa_cell(const audit::Kappa& kappa) {
  return kappa.value ? fmt::format("{:.2f}", *kappa.value) : kappa.undefined;
}

std::string scorers_text(const colony::Colony& colony, const audit::Audit& audit,
                         const Terminal& terminal) {
  if (audit.agreements.empty()) return {};
  const colony::Model& model = colony.model();
  Table table({{"marker"},
               {"scorers"},
               {"animals", Align::right},
               {"alike", Align::right},
               {"weighted kappa"},
               {"AC2"}});
  for (const auto& of : audit.agreements) {
    const std::string who =
        of.first == of.second ? model.scorers()[of.first].id + " twice"
                              : model.scorers()[of.first].id + ", " + model.scorers()[of.second].id;
    table.add({printable(model.markers()[of.marker].id), printable(who), std::to_string(of.pairs),
               of.pairs > 0 ? percent(of.exact.value) : "–",
               printable(kappa_cell(of.weighted_kappa)), printable(kappa_cell(of.gwet_ac2))});
  }
  return terminal.heading("How far scorers agree") + "\n" + table.text(terminal, 2) + "\n";
}

std::string tested_text(const colony::Colony& colony, const audit::Audit& audit,
                        const Terminal& terminal) {
  std::string text;
  for (const auto& of : audit.selections) {
    if (of.tested == 0) continue;
    const auto& locus = colony.model().loci()[of.locus];
    text += paragraph(
        printable(fmt::format(
            "{} {}: {} of {} scored animals were tested, {} of them with markers that spoke "
            "against; "
            "they {}.",
            locus.id(), locus.alleles()[of.allele], of.tested, of.tested + of.untested,
            of.low_score_tested,
            of.verdict == audit::Selected::looks_selected ? "look chosen by their markers"
            : of.verdict == audit::Selected::looks_random ? "look chosen at random"
                                                          : "are too few to tell how they were "
                                                            "chosen")),
        terminal);
  }
  return text.empty() ? text : terminal.heading("Who was tested") + "\n" + text + "\n";
}

}  // namespace

std::string audited_marker_name(const colony::Model& model, const audit::MarkerAudit& audited) {
  const colony::Marker& marker = model.markers()[audited.marker];
  std::string name = marker.id;
  if (audited.table > 0) {
    const auto& context = marker.contexts[audited.table - 1];
    name += context.line
                ? ", line " + *context.line
                : ", where it looks " +
                      model.loci()[context.shows->first].appearances()[context.shows->second];
  }
  return name;
}

std::string audit_text(const colony::Colony& colony, const audit::Audit& audit,
                       const Terminal& terminal) {
  return warnings_text(audit, terminal) + flow_text(colony, audit, terminal) +
         scores_text(audit, terminal) + bands_text(audit, terminal) +
         audited_claims_text(audit, terminal) + markers_text(colony, audit, terminal) +
         tested_text(colony, audit, terminal) + scorers_text(colony, audit, terminal) +
         conflicts_text(audit, terminal) +
         paragraph(
             "An estimate, not a guarantee. What may be claimed in a listing is for consumer "
             "law and local law to say; for an animal's health ask a reptile veterinarian.",
             terminal);
}

}  // namespace likelihet::cli
