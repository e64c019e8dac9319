// likelihet audit: did the percentages come true, and which markers earned their place.
#include "audit_output.hpp"
#include "commands.hpp"
#include "computation.hpp"
#include "open_book.hpp"
#include "output_file.hpp"
#include "report_scripts.hpp"

#include <likelihet/audit/audit.hpp>
#include <likelihet/book/book.hpp>
#include <likelihet/publishing/audit_report.hpp>
#include <likelihet/publishing/claim.hpp>

namespace likelihet::cli {
namespace {

struct AuditRequest {
  std::string book;
  ComputationAsked computation;
  std::optional<double> known;
  std::optional<double> known_not;
  std::vector<std::string> thresholds;
  std::size_t resamples = audit::ScoreSettings{}.resamples;
  std::optional<std::string> html;  // a file; "-": standard output
  std::optional<std::string> csv;   // the same
  bool force = false;
  bool full = false;
};

double threshold_of(const std::string& text) {
  std::size_t used = 0;
  double value = 0;
  try {
    value = std::stod(text, &used);
  } catch (const std::exception&) {
    used = 0;
  }
  if (used == 0 || used != text.size() || !(value > 0 && value < 1)) {
    throw Failure(ExitStatus::usage, "--threshold", "'" + text + "' is not a chance to act at",
                  "give a number between 0 and 1, such as 0.5");
  }
  return value;
}

audit::Settings audit_settings(const AuditRequest& asked) {
  audit::Settings settings;
  const odds::Options options = asked.computation.options();
  settings.truth.as_of = options.as_of;
  settings.truth.memory_bytes = options.memory_bytes;
  settings.truth.yes = asked.known.value_or(settings.truth.yes);
  settings.truth.no = asked.known_not.value_or(1 - settings.truth.yes);
  if (settings.truth.yes <= 0.5 || settings.truth.no >= 0.5) {
    throw Failure(ExitStatus::usage, "--known, --known-not", "these would take open cases as known",
                  "give --known above 0.5 and --known-not below it");
  }
  settings.scores.seed = asked.computation.seed;
  settings.truth.seed = asked.computation.seed;
  settings.scores.resamples = asked.resamples;
  if (!asked.thresholds.empty()) settings.scores.thresholds.clear();
  for (const auto& text : asked.thresholds) {
    settings.scores.thresholds.push_back(threshold_of(text));
  }
  return settings;
}

/// What was published, number by number; not that a visual animal is one, which is no forecast.
std::vector<audit::Claimed> claims_of(const book::Snapshot& book,
                                      const std::optional<colony::Date>& as_of) {
  const colony::Colony& colony = book.colony;
  std::vector<audit::Claimed> out;
  for (const auto& record : book.claims) {
    const auto claim = publishing::read_claim(record.document);
    if (!claim || (as_of && *as_of < claim->day)) continue;
    const std::size_t animal = animal_named(colony, record.animal);
    for (const auto& number : claim->numbers) {
      if (number.label == publishing::Label::visual) continue;
      const auto locus = colony.model().find_locus(number.locus);
      if (!locus) continue;
      const auto allele = colony.model().loci()[*locus].find_allele(number.allele);
      if (!allele) continue;
      out.push_back({record.code,
                     {animal, *locus, *allele},
                     number.published.low,
                     number.published.high,
                     claim->day});
    }
  }
  return out;
}

/// Said before an audit that may take minutes. Two results never go to one place.
void check_outputs(const AuditRequest& asked, const OutputRules& rules) {
  const auto one_place = [&] {
    if (!asked.html || !asked.csv) return false;
    if (*asked.html == "-" || *asked.csv == "-") return *asked.html == *asked.csv;
    return same_place(*asked.html, *asked.csv);
  };
  if (one_place()) {
    throw Failure(ExitStatus::usage, "--html, --csv", "both would be written to the same place",
                  "name a file of its own for each");
  }
  for (const auto* file : {&asked.html, &asked.csv}) {
    if (*file && **file != "-") replaced_at(**file, rules);
  }
}

Reply run_audit(const AuditRequest& asked, const Shell& shell) {
  audit::Settings settings = audit_settings(asked);
  const OutputRules rules{asked.book, asked.force};
  check_outputs(asked, rules);
  const book::Snapshot book = open_book(asked.book).snapshot();
  const colony::Colony& colony = book.colony;
  settings.claims = claims_of(book, settings.truth.as_of);
  const auto found = value_or_fail(colony, audit::audit(colony, settings));
  std::optional<std::string> printed;
  const auto put = [&](const std::string& name, std::string text) {
    if (name == "-") {
      printed = std::move(text);
    } else {
      write_output(name, text, rules);
    }
  };
  if (asked.html) {
    put(*asked.html,
        publishing::audit_report(audit_document(colony, found, settings), {report_scripts()}));
  }
  if (asked.csv) put(*asked.csv, audit_csv(colony, found));
  if (printed) return {std::move(*printed), {}};
  if (shell.json) return {audit_document(colony, found, settings).dump(2) + "\n", {}};
  const Terminal terminal = shell.terminal();
  return {asked.full ? audit_text(colony, found, terminal) : audit_summary(colony, found, terminal),
          {}};
}

}  // namespace

void add_audit(CLI::App& program, CommandLine& line) {
  const auto asked = std::make_shared<AuditRequest>();
  CLI::App& command = new_command(
      program, line, "audit", "Check past percentages against what came true, and each marker.",
      "  likelihet audit demo.book\n"
      "  likelihet audit demo.book --full\n"
      "  likelihet audit demo.book --json --as-of 2026-06-30\n"
      "  likelihet audit demo.book --html audit.html --csv forecasts.csv\n");
  add_book(command, asked->book);
  add_output(command, "--html", asked->html, false,
             "write the report to this file, or to '-', as one page with charts");
  add_output(command, "--csv", asked->csv, true,
             "write the forecasts as a table; without a file or with '-', print it instead");
  add_force(command, asked->force);
  add_flag(command, "--full", asked->full, "print every table, not the ten sentences alone");
  add_probability(command, "--known", asked->known,
                  "a chance without markers from which a het is known; not given = 0.99");
  add_probability(command, "--known-not", asked->known_not,
                  "one up to which it is known not to carry; not given = 1 - KNOWN");
  add_texts(command, "--threshold", asked->thresholds, "CHANCE",
            "a chance at which you act, for the net benefit; not given = 0.25, 0.5 and 0.75");
  add_size(command, "--resamples", asked->resamples, 40, 100'000,
           "draws of clutches behind each interval");
  add_computation(command, asked->computation);
  add_seed(command, asked->computation.seed);
  add_json(command, line);
  on_chosen(command, line, asked, run_audit);
}

}  // namespace likelihet::cli
