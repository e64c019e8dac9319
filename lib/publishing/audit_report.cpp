#include "page.hpp"
#include "sections.hpp"
#include <nlohmann/json.hpp>

#include <likelihet/publishing/audit_report.hpp>

namespace likelihet::publishing {
namespace {

std::vector<ContentsEntry> report_contents() {
  return {{"summary", "In short"},
          {"flow", "Which animals were checked"},
          {"scores", "How good the forecasts were"},
          {"markers", "What the markers are worth"},
          {"scorers", "The scorers"},
          {"tested", "Who was tested"},
          {"animals", "Where a percentage comes from"},
          {"reading", "How to read this"},
          {"limits", "Limits and cautions"},
          {"reporting", "For those who check studies"}};
}

Markup subtitle(const json& audit, bool can_draw) {
  const auto as_of = text(audit, "as_of");
  Markup html = as_of.empty()
                    ? literal("<p>Of everything recorded.</p>\n")
                    : filled("<p>Of everything recorded up to <time>{}</time>.</p>\n", {as_of});
  if (!can_draw) {
    html +=
        "<p>The program was built without its chart script (made with npm), so this page has no "
        "charts; all "
        "of their tables are here.</p>\n";
  }
  return html;
}

/// The same document with text that is sure to be UTF-8.
json well_formed(const json& audit) {
  return json::parse(audit.dump(-1, ' ', false, json::error_handler_t::replace));
}

}  // namespace

std::string audit_report(const nlohmann::json& document, const ReportParts& parts) {
  const json audit = well_formed(document);
  const bool can_draw = !parts.scripts.empty();
  Markup body = summary_section(audit);
  body += flow_section(audit);
  body += scores_section(audit, can_draw);
  body += markers_section(audit, can_draw);
  body += scorers_section(audit, can_draw);
  body += tested_section(audit);
  body += animals_section(audit, can_draw);
  body += reading_guide();
  body += limits_section();
  body += reporting_section(audit);
  return html_page({"Chances of hets: an audit", subtitle(audit, can_draw), report_contents(), body,
                    parts.scripts})
      .str();
}

}  // namespace likelihet::publishing
