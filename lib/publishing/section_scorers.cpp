// The scorers and how well they agree.
#include "charts.hpp"
#include "figures.hpp"
#include "sections.hpp"

namespace likelihet::publishing {
namespace {

Table readings_table(const json& audit) {
  Table table{"Scores of each scorer",
              {"scorer", "readings", "not scorable", "blind", "not blind", "not recorded which"},
              {}};
  for (const json& scorer : entries(audit, "scorers")) {
    table.rows.push_back({text(scorer, "scorer"), count_text(scorer, "readings"),
                          count_text(scorer, "not_scorable"), count_text(scorer, "blind"),
                          count_text(scorer, "unblinded"), count_text(scorer, "unknown")});
  }
  return table;
}

Table markers_table(const json& audit) {
  Table table{"What each scorer sees of hets",
              {"scorer", "marker", "locus", "cut", "known animals", "hets that show it",
               "others that don't"},
              {},
              4};
  for (const json& scorer : entries(audit, "scorers")) {
    for (const json& marker : entries(scorer, "markers")) {
      table.rows.push_back({text(scorer, "scorer"), text(marker, "marker"), text(marker, "locus"),
                            text(marker, "cut"), count_text(marker, "known"),
                            percent_text(estimate(field(marker, "sensitivity"))),
                            percent_text(estimate(field(marker, "specificity")))});
    }
  }
  return table;
}

Table seasons_table(const json& audit) {
  Table table{"Scorers by season",
              {"scorer", "season", "marker", "readings", "at the level or above"},
              {},
              3};
  for (const json& scorer : entries(audit, "scorers")) {
    for (const json& season : entries(scorer, "seasons")) {
      table.rows.push_back({text(scorer, "scorer"), text(season, "season"), text(season, "marker"),
                            count_text(season, "readings"), count_text(season, "at_least_cut")});
    }
  }
  return table;
}

}  // namespace

Markup scorers_section(const json& audit, bool can_draw) {
  Markup html = html_table(readings_table(audit));
  html += folded("What each scorer sees of hets, and season by season",
                 {markers_table(audit), seasons_table(audit)}, false);
  html += html_figures(agreement_charts(audit), can_draw,
                       "No animal was scored twice: agreement can't be given.");
  return section("scorers", "The scorers", html);
}

}  // namespace likelihet::publishing
