// The ROC curve.
#include "charts.hpp"
#include "figures.hpp"
#include "specification.hpp"

namespace likelihet::publishing {
namespace {

const std::vector<Kind>& bases() {
  static const std::vector<Kind> kinds = {{"pedigree", colour::orange, "triangle-up", {6, 4}},
                                          {"with markers", colour::blue, "circle", {1, 0}}};
  return kinds;
}

ordered_json chance_layer() {
  return {{"data", data(ordered_json::array({{{"at", 0}}, {{"at", 1}}}))},
          {"mark",
           {{"type", "line"}, {"color", colour::grey}, {"strokeDash", {2, 4}}, {"strokeWidth", 1}}},
          {"encoding",
           {{"x", probability_axis("at", "others called het")},
            {"y", probability_axis("at", "hets called het")}}}};
}

ordered_json curves_layer(const std::vector<const json*>& curves) {
  ordered_json rows;
  for (const json* curve : curves) {
    int step = 0;
    for (const json& point : entries(*curve, "points")) {
      rows.push_back({{"basis", basis_words(text(*curve, "basis"))},
                      {"step", step++},
                      {"false_positive", value_or_null(number(point, "false_positive"))},
                      {"true_positive", value_or_null(number(point, "true_positive"))}});
    }
  }
  const ordered_json place = {{"x", probability_axis("false_positive", "others called het")},
                              {"y", probability_axis("true_positive", "hets called het")},
                              {"color", colour_of("basis", bases())}};
  ordered_json line = {{"mark", "line"}, {"encoding", place}};
  line["encoding"]["strokeDash"] = dash_of("basis", bases());
  line["encoding"]["order"] = {{"field", "step"}, {"type", "quantitative"}};
  ordered_json points = {{"mark", {{"type", "point"}, {"size", 45}}}, {"encoding", place}};
  points["encoding"]["shape"] = shape_of("basis", bases());
  return {{"data", data(rows)}, {"layer", {line, points}}};
}

Table points_table(const json& curve) {
  Table table{
      "ROC, " + basis_words(text(curve, "basis")) + ", " + scheme_words(text(curve, "scheme")),
      {"called het from", "of the others", "of the hets"},
      {}};
  for (const json& point : entries(curve, "points")) {
    const auto threshold = number(point, "threshold");
    table.rows.push_back({threshold ? percent_text(point, "threshold") : "never",
                          percent_text(point, "false_positive"),
                          percent_text(point, "true_positive")});
  }
  return table;
}

}  // namespace

std::vector<Chart> roc_charts(const json& audit) {
  std::vector<Chart> charts;
  const auto& all = entries(audit, "roc");
  for (const auto& scheme : different(all, "scheme")) {
    const auto curves = having(all, {{"scheme", scheme}});
    auto chart = square_chart(340);
    chart["layer"] = {chance_layer(), curves_layer(curves)};
    std::vector<Table> tables;
    tables.reserve(curves.size());
    for (const json* curve : curves) tables.push_back(points_table(*curve));
    charts.push_back(
        {"roc-" + std::to_string(charts.size() + 1),
         "Telling hets from others: " + scheme_words(scheme) + ".",
         "Each point is a percentage from which on animals are called het (ROC). The dotted "
         "diagonal is guessing. Much of what the pedigree reaches is between clutches; the score "
         "within clutches is in the table of scores.",
         {{chart, "ROC curves of the pedigree and of the forecasts with markers, " +
                      scheme_words(scheme) + ", with the diagonal of guessing."}},
         tables});
  }
  return charts;
}

}  // namespace likelihet::publishing
