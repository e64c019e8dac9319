// What moved the odds of some animals.
#include "charts.hpp"
#include "sections.hpp"

namespace likelihet::publishing {

Markup animals_section(const json& audit, bool can_draw) {
  return section("animals", "Where a percentage comes from",
                 html_figures(waterfall_charts(audit), can_draw,
                              "The document explains no animal step by step."));
}

}  // namespace likelihet::publishing
