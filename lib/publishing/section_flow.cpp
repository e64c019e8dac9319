// The way of the animals through the audit.
#include <numeric>

#include "figures.hpp"
#include "sections.hpp"

namespace likelihet::publishing {
namespace {

Markup box(Literal title, const std::string& figure, const Markup& more) {
  return filled(
      "<li class=\"box\"><span class=\"title\">{}</span> <span class=\"number\">{}</span>{}</li>\n",
      {literal(title), figure, more});
}

Markup known_box(const json& flow) {
  const json& known = field(flow, "known");
  long long total = 0;
  Markup kinds;
  for (const auto* kind : {"test", "breeding", "visual", "relatives"}) {
    total += count(known, kind);
    kinds += filled("<li>by {}: {}</li>", {kind_words(kind), count_text(known, kind)});
  }
  return box("Became known", std::to_string(total), filled("<ul>{}</ul>", {kinds}));
}

Markup left_out(const json& flow) {
  Markup items;
  for (const json& each : entries(flow, "left_out")) {
    items += filled("<li>{}: {}</li>\n",
                    {counted(count(each, "animals"), "animal", "animals"), text(each, "text")});
  }
  if (items.empty()) return literal("<p>Nobody was left out.</p>\n");
  return filled("<div class=\"left-out\"><p>Left out, and why:</p>\n<ul>\n{}</ul></div>\n",
                {items});
}

Markup one_flow(const json& flow) {
  Markup boxes = box("In the book", count_text(flow, "animals"), Markup());
  boxes += box("Hatched here", count_text(flow, "hatched"), Markup());
  boxes += box("Scored for markers", count_text(flow, "scored"), Markup());
  boxes += known_box(flow);
  boxes += box("Forecasts checked", count_text(flow, "forecast"), Markup());
  return filled(
      "<h3>{}: one copy of {}</h3>\n<ol class=\"flow\">\n{}</ol>\n"
      "<p>Not known to this day: {}.</p>\n{}",
      {name(text(flow, "locus")), name(text(flow, "allele")), boxes,
       counted(count(flow, "not_known"), "animal", "animals"), left_out(flow)});
}

}  // namespace

Markup flow_section(const json& audit) {
  Markup html;
  for (const json& flow : entries(audit, "flow")) html += one_flow(flow);
  if (html.empty())
    html = literal("<p class=\"none\">The document has no animals to follow.</p>\n");
  return section("flow", "Which animals were checked", html);
}

}  // namespace likelihet::publishing
