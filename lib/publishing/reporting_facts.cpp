// What several answers to reporting guidelines need out of the document.
#include "figures.hpp"
#include "reporting_items.hpp"
#include <fmt/format.h>

namespace likelihet::publishing {
namespace {

void append(std::string& list, const std::string& more) {
  if (!list.empty()) list += "; ";
  list += more;
}

void add_flow(ReportingFacts& facts, const json& flow, long long& left_out) {
  const auto locus = text(flow, "locus");
  const json& known = field(flow, "known");
  append(facts.animals, fmt::format("{}: {} in the book, {} scored, {} checked", locus,
                                    count_text(flow, "animals"), count_text(flow, "scored"),
                                    count_text(flow, "forecast")));
  append(facts.outcomes,
         fmt::format("{}: by test {}, by breeding {}, by looks {}, by relatives {}", locus,
                     count_text(known, "test"), count_text(known, "breeding"),
                     count_text(known, "visual"), count_text(known, "relatives")));
  for (const json& each : entries(flow, "left_out")) left_out += count(each, "animals");
}

}  // namespace

ReportingFacts reporting_facts(const json& audit) {
  ReportingFacts facts;
  facts.as_of = text(audit, "as_of").empty() ? "everything recorded"
                                             : "what was recorded up to " + text(audit, "as_of");
  long long left_out = 0;
  for (const json& flow : entries(audit, "flow")) add_flow(facts, flow, left_out);
  facts.left_out = counted(left_out, "animal", "animals") +
                   " left out; the reasons stand under “Which animals were checked”";
  long long blind = 0;
  long long all = 0;
  long long not_scorable = 0;
  for (const json& scorer : entries(audit, "scorers")) {
    blind += count(scorer, "blind");
    all += count(scorer, "readings");
    not_scorable += count(scorer, "not_scorable");
  }
  facts.blinding = fmt::format("{} of {} scores are recorded as blind", blind, all);
  facts.indeterminate =
      fmt::format("{} looks were not scorable; they are counted, and speak neither for nor against",
                  not_scorable);
  const json& settings = field(audit, "settings");
  facts.settings =
      fmt::format("an outcome counts as known from {}; {} resamples of whole clutches, seed {}",
                  percent_text(settings, "known"), count_text(settings, "resamples"),
                  count_text(settings, "seed"));
  facts.markers =
      counted(static_cast<long long>(entries(audit, "markers").size()), "marker", "markers");
  return facts;
}

}  // namespace likelihet::publishing
