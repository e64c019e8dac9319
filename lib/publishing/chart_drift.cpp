// Hets expected and found, period by period.
#include "charts.hpp"
#include "figures.hpp"
#include "specification.hpp"

namespace likelihet::publishing {
namespace {

const std::vector<Kind>& series() {
  static const std::vector<Kind> kinds = {{"expected", colour::orange, "diamond", {6, 4}},
                                          {"found", colour::blue, "circle", {1, 0}}};
  return kinds;
}

ordered_json drift_specification(const std::vector<const json*>& periods) {
  ordered_json rows;
  for (const json* period : periods) {
    for (const auto& [kind, name] :
         {std::pair("expected", "expected"), std::pair("found", "observed")}) {
      rows.push_back({{"period", text(*period, "period")},
                      {"kind", kind},
                      {"carriers", value_or_null(number(*period, name))}});
    }
  }
  auto x = category("period", "outcomes that became known in");
  x["type"] = "ordinal";
  x["axis"] = {{"labelAngle", -40}, {"labelOverlap", true}};
  const ordered_json place = {{"x", x},
                              {"y", quantity("carriers", "carriers", {{"zero", true}})},
                              {"color", colour_of("kind", series())}};
  auto chart = wide_chart(560);
  chart["height"] = 220;
  chart["data"] = data(rows);
  ordered_json line = {{"mark", "line"}, {"encoding", place}};
  line["encoding"]["strokeDash"] = dash_of("kind", series());
  ordered_json markers = {{"mark", "point"}, {"encoding", place}};
  markers["encoding"]["shape"] = shape_of("kind", series());
  chart["layer"] = {line, markers};
  return chart;
}

Table drift_table(const std::vector<const json*>& periods, const std::string& of) {
  Table table{
      "Expected and found, " + of, {"period", "forecasts", "hets expected", "carriers found"}, {}};
  for (const json* period : periods) {
    table.rows.push_back({text(*period, "period"), count_text(*period, "n"),
                          decimal_text({number(*period, "expected"), {}, ""}, 1),
                          count_text(*period, "observed")});
  }
  return table;
}

}  // namespace

std::vector<Chart> drift_charts(const json& audit) {
  std::vector<Chart> charts;
  const auto& all = entries(audit, "drift");
  for (const auto& scheme : different(all, "scheme")) {
    const auto periods = having(all, {{"scheme", scheme}});
    charts.push_back(
        {"drift-" + std::to_string(charts.size() + 1),
         "Expected and found, over time: " + scheme_words(scheme) + ".",
         "Expected: the forecasts of a period added up. Where the two part for several periods in "
         "a "
         "row, something has changed: the lines, the scorers, or who gets tested.",
         {{drift_specification(periods),
           "Hets expected and hets found in each period, " + scheme_words(scheme) + "."}},
         {drift_table(periods, scheme_words(scheme))}});
  }
  return charts;
}

}  // namespace likelihet::publishing
