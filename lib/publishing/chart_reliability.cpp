// The reliability diagram.
#include <algorithm>

#include "charts.hpp"
#include "figures.hpp"
#include "specification.hpp"

namespace likelihet::publishing {
namespace {

ordered_json band_layer(const json& diagram) {
  ordered_json rows;
  for (const json& point : entries(diagram, "band")) {
    rows.push_back({{"probability", value_or_null(number(point, "probability"))},
                    {"low", value_or_null(number(point, "low"))},
                    {"high", value_or_null(number(point, "high"))}});
  }
  return {{"data", data(rows)},
          {"mark", {{"type", "area"}, {"color", "#C9C9C9"}, {"opacity", 0.6}}},
          {"encoding",
           {{"x", probability_axis("probability", "called")},
            {"y", probability_axis("low", "turned out het")},
            {"y2", {{"field", "high"}}}}}};
}

ordered_json perfect_layer() {
  return {
      {"data", data(ordered_json::array({{{"at", 0}}, {{"at", 1}}}))},
      {"mark",
       {{"type", "line"}, {"color", colour::grey}, {"strokeDash", {4, 4}}, {"strokeWidth", 1}}},
      {"encoding",
       {{"x", probability_axis("at", "called")}, {"y", probability_axis("at", "turned out het")}}}};
}

ordered_json curve_layer(const json& diagram) {
  ordered_json rows;
  for (const json& point : entries(diagram, "curve")) {
    rows.push_back({{"probability", value_or_null(number(point, "probability"))},
                    {"observed", value_or_null(number(point, "observed"))}});
  }
  ordered_json line = {{"type", "line"}, {"color", colour::blue}, {"strokeWidth", 2.5}};
  if (flag(diagram, "thin")) {
    line["color"] = colour::grey;
    line["strokeDash"] = {8, 4};
  }
  return {{"data", data(rows)},
          {"mark", line},
          {"encoding",
           {{"x", probability_axis("probability", "called")},
            {"y", probability_axis("observed", "turned out het")}}}};
}

ordered_json thin_label_layer() {
  ordered_json row = {{"words", "Dashed: under 50 outcomes,\na rough guide only"}};
  return {{"data", data(ordered_json::array({std::move(row)}))},
          {"mark",
           {{"type", "text"},
            {"align", "left"},
            {"baseline", "top"},
            {"x", 6},
            {"y", 6},
            {"fontSize", 11},
            {"lineBreak", "\n"}}},
          {"encoding", {{"text", {{"field", "words"}}}}}};
}

ordered_json group_layers(const json& diagram) {
  ordered_json rows;
  for (const json& group : entries(diagram, "groups")) {
    auto row = estimate_row(estimate(group, "observed"));
    row["mean"] = value_or_null(number(group, "mean"));
    row["count"] = "n " + count_text(group, "n");
    rows.push_back(std::move(row));
  }
  const auto x = probability_axis("mean", "called");
  const ordered_json bar = {
      {"mark", {{"type", "rule"}, {"color", colour::vermillion}}},
      {"encoding",
       {{"x", x}, {"y", probability_axis("low", "turned out het")}, {"y2", {{"field", "high"}}}}}};
  const ordered_json point = {
      {"mark", {{"type", "point"}, {"shape", "square"}, {"color", colour::vermillion}}},
      {"encoding", {{"x", x}, {"y", probability_axis("value", "turned out het")}}}};
  const ordered_json label = {
      {"mark", {{"type", "text"}, {"align", "left"}, {"dx", 7}, {"dy", -7}, {"fontSize", 11}}},
      {"encoding",
       {{"x", x},
        {"y", probability_axis("value", "turned out het")},
        {"text", {{"field", "count"}}}}}};
  return {{"data", data(rows)}, {"layer", {bar, point, label}}};
}

ordered_json diagram_specification(const json& diagram) {
  auto chart = square_chart(400);
  chart["layer"] = {band_layer(diagram), perfect_layer(), curve_layer(diagram),
                    group_layers(diagram)};
  if (flag(diagram, "thin")) chart["layer"].push_back(thin_label_layer());
  return chart;
}

/// Hets stand above the line, the others below it: the place tells them apart. The counting is
/// left to the drawing, which sorts forecasts into tenths.
ordered_json histogram_specification(const std::vector<const json*>& forecasts) {
  ordered_json rows;
  for (const json* forecast : forecasts) {
    const bool carrier = count(*forecast, "outcome") == 1;
    rows.push_back(
        {{"probability", value_or_null(number(*forecast, "probability"))},
         {"outcome", carrier ? "turned out het (above the line)" : "turned out not het (below)"},
         {"step", carrier ? 1 : -1}});
  }
  auto chart = wide_chart(464);
  chart["height"] = 120;
  chart["data"] = data(rows);
  chart["mark"] = {{"type", "bar"}, {"stroke", "white"}};
  auto x = probability_axis("probability", "called");
  x["bin"] = {{"step", 0.1}, {"extent", {0, 1}}};
  chart["encoding"] = {
      {"x", x},
      {"y",
       {{"aggregate", "sum"},
        {"field", "step"},
        {"type", "quantitative"},
        {"title", "forecasts"},
        {"axis", {{"labelExpr", "abs(datum.value)"}, {"tickMinStep", 1}}}}},
      {"color", colour_of("outcome", {{"turned out het (above the line)", colour::blue, "", {}},
                                      {"turned out not het (below)", colour::orange, "", {}}})}};
  return chart;
}

Table groups_table(const json& diagram, const std::string& of) {
  Table table{"Groups of equal count, " + of,
              {"called", "mean", "forecasts", "turned out het", "share (95 %)"},
              {}};
  for (const json& group : entries(diagram, "groups")) {
    table.rows.push_back(
        {percent_text(group, "low_edge") + " – " + percent_text(group, "high_edge"),
         percent_text(group, "mean"), count_text(group, "n"), count_text(group, "outcomes"),
         percent_text(estimate(group, "observed"))});
  }
  return table;
}

Table curve_table(const json& diagram, const std::string& of) {
  Table table{"Isotonic curve, " + of, {"called", "turned out het, smoothed"}, {}};
  for (const json& point : entries(diagram, "curve")) {
    table.rows.push_back({percent_text(point, "probability"), percent_text(point, "observed")});
  }
  return table;
}

Table band_table(const json& diagram, const std::string& of) {
  Table table{"Consistency band, " + of, {"called", "from", "to"}, {}};
  for (const json& point : entries(diagram, "band")) {
    table.rows.push_back({percent_text(point, "probability"), percent_text(point, "low"),
                          percent_text(point, "high")});
  }
  return table;
}

}  // namespace

std::vector<Chart> reliability_charts(const json& audit) {
  std::vector<Chart> charts;
  std::vector<json> diagrams = entries(audit, "reliability");
  std::stable_partition(diagrams.begin(), diagrams.end(),
                        [](const json& each) { return text(each, "basis") == "scored"; });
  for (const json& diagram : diagrams) {
    if (entries(diagram, "groups").empty() && entries(diagram, "curve").empty()) continue;
    const auto basis = text(diagram, "basis");
    const auto scheme = text(diagram, "scheme");
    const auto of = basis_words(basis) + ", " + scheme_words(scheme);
    const auto forecasts =
        having(entries(audit, "forecasts"), {{"basis", basis}, {"scheme", scheme}});
    charts.push_back(
        {"reliability-" + std::to_string(charts.size() + 1),
         "What was called and what turned out: " + of + ".",
         "Squares: groups of equal count with their 95 % intervals and their n. Line: the same "
         "without "
         "groups. Where the line stays within the grey band, forecasts and outcomes agree as well "
         "as "
         "chance allows. Below: how often each percentage was given, by how it turned out.",
         {{diagram_specification(diagram),
           "Reliability diagram of " + counted(count(diagram, "n"), "forecast", "forecasts") +
               ", " + of + (flag(diagram, "thin") ? "; too few outcomes to trust the curve" : "") +
               ". The figures are in the tables below."},
          {histogram_specification(forecasts),
           "Histogram of the forecasts " + of + ", hets above the line and others below it."}},
         {groups_table(diagram, of), curve_table(diagram, of), band_table(diagram, of)}});
  }
  return charts;
}

}  // namespace likelihet::publishing
