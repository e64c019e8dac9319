// The reporting items as tables.
#include "reporting_items.hpp"
#include "sections.hpp"
#include "table.hpp"

namespace likelihet::publishing {
namespace {

Table items_table(const char* title, const std::vector<ReportingItem>& items) {
  Table table{title, {"item", "asks for", "answer"}, {}, 3};
  for (const ReportingItem& item : items)
    table.rows.push_back({item.number, item.asks, item.answer});
  return table;
}

}  // namespace

Markup reporting_section(const json& audit) {
  Markup html = literal(
      "<p>Two guidelines say what a study of this kind should report. The items stand here in our "
      "own words, "
      "numbers and sense from memory and not checked against the papers; the answers are made out "
      "of the audit "
      "document.</p>\n");
  html += folded("STARD 2015: studies of how accurate a sign is",
                 {items_table("STARD 2015", stard_items(audit))}, false);
  html += folded("TRIPOD+AI: studies of models that predict",
                 {items_table("TRIPOD+AI", tripod_items(audit))}, false);
  return section("reporting", "For those who check studies", html);
}

}  // namespace likelihet::publishing
