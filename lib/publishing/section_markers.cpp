// Every marker with its verdict and its figures.
#include "charts.hpp"
#include "figures.hpp"
#include "sections.hpp"

#include <likelihet/audit/marker_audit.hpp>

namespace likelihet::publishing {
namespace {

std::string entry_text(const json& object, std::string_view list, std::size_t place,
                       bool as_percent) {
  const auto& values = entries(object, list);
  if (place >= values.size() || !values[place].is_number()) return std::string(not_given);
  const json one = {{"value", values[place]}};
  return as_percent ? percent_text(one, "value") : count_text(one, "value");
}

Table levels_table(const json& marker, const std::string& of) {
  Table table{"Levels of " + of,
              {"level", "known hets", "known others", "of hets, corrected", "of others, corrected"},
              {}};
  std::size_t place = 0;
  for (const json& level : entries(marker, "levels")) {
    table.rows.push_back({level.is_string() ? level.get<std::string>() : std::string(not_given),
                          entry_text(field(marker, "known"), "carrier", place, false),
                          entry_text(field(marker, "known"), "others", place, false),
                          entry_text(field(marker, "estimated"), "carrier", place, true),
                          entry_text(field(marker, "estimated"), "others", place, true)});
    ++place;
  }
  return table;
}

// Where nobody's truth is known a correction still gives a number, of which nothing was seen.
bool any_known(const json& marker, std::string_view list) {
  double sum = 0;
  for (const json& value : entries(field(marker, "known"), list)) {
    if (value.is_number()) sum += value.get<double>();
  }
  return sum > 0;
}

Table cuts_table(const json& marker, const std::string& of) {
  Table table{"Cuts of " + of,
              {"seen from", "hets that show it, naive", "corrected", "others that don't, naive",
               "corrected"},
              {}};
  const bool hets = any_known(marker, "carrier");
  const bool others = any_known(marker, "others");
  const auto cell = [](bool known, const json& rates, std::string_view kind) {
    return known ? percent_text(estimate(field(rates, kind))) : std::string(not_given);
  };
  for (const json& cut : entries(marker, "cuts")) {
    const json& sensitivity = field(cut, "sensitivity");
    const json& specificity = field(cut, "specificity");
    table.rows.push_back({text(cut, "at_least"), cell(hets, sensitivity, "naive"),
                          cell(hets, sensitivity, "corrected"), cell(others, specificity, "naive"),
                          cell(others, specificity, "corrected")});
  }
  return table;
}

Table tests_table(const json& marker, const std::string& of) {
  Table table{"Tests of " + of, {"question", "p", "adjusted for all markers"}, {}};
  const std::pair<const char*, const char*> questions[] = {
      {"pooled", "do hets differ, all animals together?"},
      {"within_clutch", "do hets differ from their clutch mates?"},
      {"adds_to_others", "does it add to what the other markers say?"},
      {"lines_differ", "do lines differ in what it says?"},
      {"unexplained_by_other_traits", "does it stand when other traits are allowed for?"}};
  for (const auto& [code, question] : questions) {
    const json& test = field(field(marker, "tests"), code);
    table.rows.push_back({question, p_text(test, "p"), p_text(test, "adjusted")});
  }
  return table;
}

Table line_groups_table(const json& marker, const std::string& of) {
  Table table{
      "Groups, " + of, {"split by", "group", "cut", "animals", "known", "odds ratio"}, {}, 3};
  for (const json& group : entries(marker, "groups")) {
    table.rows.push_back({text(group, "by"), text(group, "group"), text(group, "cut"),
                          count_text(group, "animals"), count_text(group, "known"),
                          ratio_text(estimate(field(group, "odds_ratio")))});
  }
  return table;
}

Markup other_trait(const json& marker) {
  const json& other = field(marker, "other_trait");
  if (!other.is_object()) return {};
  const auto p = number(other, "p");
  const bool follows = p && *p < audit::other_trait_significant;
  return filled(
      "<p>{}: {} ({}), p {}.</p>\n",
      {std::string_view(follows ? "It goes with another trait"
                                : "Nothing shows that it goes with another trait; the nearest"),
       name(text(other, "locus")), name(text(other, "allele")), p_text(other, "p")});
}

Markup one_marker(const json& audit, const json& marker) {
  const auto of = marker_name(audit, marker);
  return filled(
      "<article class=\"marker\"><h3>{}: <span class=\"verdict\">{}</span></h3>\n<p>{}</p>\n{}"
      "<p>Scored on {}; {} masked, {} not scorable. It tells {} bits of being het of {} at "
      "{}.</p>\n{}</article>\n",
      {name(of), text(marker, "words"), text(marker, "why"), other_trait(marker),
       counted(count(marker, "animals"), "animal", "animals"), count_text(marker, "masked"),
       count_text(marker, "not_scorable"), decimal_text(estimate(field(marker, "bits")), 2),
       name(text(marker, "allele")), name(text(marker, "locus")),
       folded("The figures of " + of,
              {levels_table(marker, of), cuts_table(marker, of), tests_table(marker, of),
               line_groups_table(marker, of)},
              false)});
}

Markup tried(const json& audit) {
  const json& tried = field(audit, "multiplicity");
  if (!number(tried, "markers")) return {};
  return filled(
      "<p>{} tried; tests are adjusted for that ({}).</p>\n",
      {counted(count(tried, "markers"), "marker was", "markers were"), text(tried, "method")});
}

// Only where any two markers were read on the same animals of known truth.
Markup pairs(const json& audit) {
  if (entries(audit, "pairs").empty()) return {};
  Table table{"Markers on the same animals of known truth",
              {"one marker", "another", "at", "animals", "correlation", "p"},
              {},
              3};
  for (const json& pair : entries(audit, "pairs")) {
    table.rows.push_back({text(pair, "first"), text(pair, "second"), text(pair, "locus"),
                          count_text(pair, "animals"),
                          decimal_text({number(pair, "correlation"), {}, ""}, 2),
                          p_text(pair, "p")});
  }
  return literal(
             "<h3>Markers that repeat each other</h3>\n<p>Correlated beyond what being het "
             "explains, two markers say less together than their product.</p>\n") +=
         folded("The pairs", {table}, false);
}

}  // namespace

Markup markers_section(const json& audit, bool can_draw) {
  Markup html = tried(audit);
  html += html_figures(forest_charts(audit), can_draw, "No marker has figures to draw.");
  for (const json& marker : entries(audit, "markers")) html += one_marker(audit, marker);
  html += pairs(audit);
  return section("markers", "What the markers are worth", html);
}

}  // namespace likelihet::publishing
