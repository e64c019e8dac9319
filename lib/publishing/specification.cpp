#include "specification.hpp"

namespace likelihet::publishing {
namespace {

ordered_json theme() {
  const ordered_json axis = {
      {"labelFontSize", 12},         {"titleFontSize", 12},         {"labelColor", colour::ink},
      {"titleColor", colour::ink},   {"titleFontWeight", "normal"}, {"gridColor", "#DDDDDD"},
      {"domainColor", colour::grey}, {"tickColor", colour::grey},   {"labelLimit", 150}};
  const ordered_json legend = {
      {"orient", "bottom"},        {"direction", "horizontal"}, {"columns", 2},
      {"title", nullptr},          {"labelFontSize", 12},       {"labelLimit", 240},
      {"labelColor", colour::ink}, {"symbolSize", 90}};
  return {{"font", "system-ui, sans-serif"},
          {"background", "white"},
          {"axis", axis},
          {"legend", legend},
          {"view", {{"stroke", "#BBBBBB"}}},
          {"text", {{"fontSize", 12}, {"fill", colour::ink}}},
          {"point", {{"filled", true}, {"size", 70}, {"opacity", 1}}},
          {"line", {{"strokeWidth", 2}}},
          {"rule", {{"strokeWidth", 2}}}};
}

ordered_json specification(int width, bool square) {
  return {{"$schema", "https://vega.github.io/schema/vega-lite/v5.json"},
          {"usermeta", {{"square", square}}},
          {"config", theme()},
          {"padding", 4},
          {"width", width}};
}

template <typename Pick>
ordered_json channel(std::string_view field, const std::vector<Kind>& kinds, const Pick& pick) {
  ordered_json names = ordered_json::array();
  ordered_json range = ordered_json::array();
  for (const Kind& kind : kinds) {
    names.push_back(kind.name);
    range.push_back(pick(kind));
  }
  return {{"field", field},
          {"type", "nominal"},
          {"scale", {{"domain", names}, {"range", range}}},
          {"legend", {{"symbolStrokeWidth", 0}}}};  // a dashed outline would blur the shape
}

}  // namespace

ordered_json wide_chart(int width) {
  auto chart = specification(width, false);
  chart["autosize"] = {{"type", "fit-x"}, {"contains", "padding"}};
  return chart;
}

ordered_json square_chart(int width) {
  auto chart = specification(width, true);
  chart["height"] = width;
  return chart;
}

ordered_json data(ordered_json rows) {
  if (rows.is_null()) rows = ordered_json::array();
  return {{"values", std::move(rows)}};
}

ordered_json value_or_null(const std::optional<double>& value) {
  return value ? ordered_json(*value) : ordered_json();
}

ordered_json estimate_row(const Estimate& estimate) {
  ordered_json row = {
      {"value", value_or_null(estimate.value)}, {"low", nullptr}, {"high", nullptr}};
  if (estimate.value && estimate.interval) {
    row["low"] = estimate.interval->first;
    row["high"] = estimate.interval->second;
  }
  return row;
}

ordered_json quantity(std::string_view field, std::string_view title, ordered_json scale) {
  ordered_json channel = {{"field", field}, {"type", "quantitative"}, {"title", title}};
  if (!scale.is_null()) channel["scale"] = std::move(scale);
  return channel;
}

ordered_json category(std::string_view field, ordered_json title) {
  return {{"field", field}, {"type", "nominal"}, {"title", std::move(title)}, {"sort", nullptr}};
}

ordered_json row_names(std::string_view field) {
  auto rows = category(field);
  rows["axis"] = {{"labelExpr", "split(datum.label, '\\n')"}};
  return rows;
}

ordered_json probability_axis(std::string_view field, std::string_view title) {
  auto channel = quantity(field, title, {{"domain", {0, 1}}});
  channel["axis"] = {{"format", ".0%"}, {"tickCount", 5}};
  return channel;
}

ordered_json colour_of(std::string_view field, const std::vector<Kind>& kinds) {
  return channel(field, kinds, [](const Kind& kind) { return ordered_json(kind.colour); });
}

ordered_json shape_of(std::string_view field, const std::vector<Kind>& kinds) {
  return channel(field, kinds, [](const Kind& kind) { return ordered_json(kind.shape); });
}

ordered_json dash_of(std::string_view field, const std::vector<Kind>& kinds) {
  return channel(field, kinds, [](const Kind& kind) { return ordered_json(kind.dash); });
}

}  // namespace likelihet::publishing
