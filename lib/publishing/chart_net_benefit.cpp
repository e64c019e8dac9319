// Net benefit over the thresholds.
#include "charts.hpp"
#include "figures.hpp"
#include "specification.hpp"

namespace likelihet::publishing {
namespace {

struct Strategy {
  std::string_view field;
  Kind kind;
};

const std::vector<Strategy>& strategies() {
  static const std::vector<Strategy> all = {
      {"pedigree", {"by the pedigree", colour::orange, "triangle-up", {6, 4}}},
      {"scored", {"by the forecasts with markers", colour::blue, "circle", {1, 0}}},
      {"all", {"all taken as het", colour::green, "diamond", {2, 3}}},
      {"none", {"none taken as het", colour::grey, "square", {10, 3, 2, 3}}}};
  return all;
}

std::vector<Kind> kinds() {
  std::vector<Kind> out;
  for (const Strategy& each : strategies()) out.push_back(each.kind);
  return out;
}

ordered_json net_benefit_specification(const std::vector<const json*>& points) {
  ordered_json rows;
  for (const json* point : points) {
    for (const Strategy& strategy : strategies()) {
      rows.push_back({{"threshold", value_or_null(number(*point, "threshold"))},
                      {"strategy", strategy.kind.name},
                      {"benefit", value_or_null(number(*point, strategy.field))}});
    }
  }
  const ordered_json place = {
      {"x", probability_axis("threshold", "treated as het from")},
      {"y", quantity("benefit", "net benefit an animal", {{"zero", true}, {"domainMin", -0.25}})},
      {"color", colour_of("strategy", kinds())}};
  auto chart = wide_chart(560);
  chart["height"] = 260;
  chart["data"] = data(rows);
  ordered_json line = {{"mark", {{"type", "line"}, {"clip", true}}}, {"encoding", place}};
  line["encoding"]["strokeDash"] = dash_of("strategy", kinds());
  ordered_json markers = {{"mark", {{"type", "point"}, {"clip", true}}}, {"encoding", place}};
  markers["encoding"]["shape"] = shape_of("strategy", kinds());
  chart["layer"] = {line, markers};
  return chart;
}

Table net_benefit_table(const std::vector<const json*>& points, const std::string& of) {
  Table table{"Net benefit, " + of, {"treated as het from"}, {}};
  for (const Strategy& strategy : strategies()) table.columns.emplace_back(strategy.kind.name);
  for (const json* point : points) {
    std::vector<std::string> row = {percent_text(*point, "threshold")};
    for (const Strategy& strategy : strategies()) {
      row.push_back(decimal_text({number(*point, strategy.field), {}, ""}, 3));
    }
    table.rows.push_back(std::move(row));
  }
  return table;
}

}  // namespace

std::vector<Chart> net_benefit_charts(const json& audit) {
  std::vector<Chart> charts;
  const auto& all = entries(audit, "net_benefit");
  for (const auto& scheme : different(all, "scheme")) {
    const auto points = having(all, {{"scheme", scheme}});
    charts.push_back(
        {"net-benefit-" + std::to_string(charts.size() + 1),
         "What acting on the forecasts is worth: " + scheme_words(scheme) + ".",
         "Hets found an animal, less those wrongly treated as het, weighed by the "
         "threshold: "
         "at 50 % one costs as much as the other gains. The highest line is the best way to act at "
         "that threshold. Choose the threshold by what a mistake costs you, not by this chart. "
         "Below −0.25 lines are cut off.",
         {{net_benefit_specification(points),
           "Net benefit of acting on the pedigree, on the forecasts with markers, on all "
           "and on none, " +
               scheme_words(scheme) + "."}},
         {net_benefit_table(points, scheme_words(scheme))}});
  }
  return charts;
}

}  // namespace likelihet::publishing
