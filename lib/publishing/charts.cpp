#include "charts.hpp"

namespace likelihet::publishing {

Markup html_figures(const std::vector<Chart>& charts, bool can_draw, Literal without) {
  if (charts.empty()) return filled("<p class=\"none\">{}</p>\n", {literal(without)});
  Markup html;
  for (const Chart& chart : charts) html += html_figure(chart, can_draw);
  return filled("<div class=\"charts\">\n{}</div>\n", {html});
}

}  // namespace likelihet::publishing
