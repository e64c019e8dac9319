// How well scorers agree, with each other and with themselves.
#include "charts.hpp"
#include "figures.hpp"
#include "specification.hpp"

namespace likelihet::publishing {
namespace {

struct Measure {
  std::string_view field;
  Kind kind;
};

const std::vector<Measure>& measures() {
  static const std::vector<Measure> all = {
      {"exact", {"exactly the same", colour::orange, "triangle-up", {6, 3}}},
      {"weighted_kappa", {"weighted kappa", colour::blue, "circle", {1, 0}}},
      {"gwet_ac2", {"Gwet's AC2", colour::green, "square", {2, 2}}}};
  return all;
}

std::string pair_words(const json& agreement) {
  const auto& scorers = entries(agreement, "scorers");
  if (scorers.size() != 2 || !scorers[0].is_string() || !scorers[1].is_string()) return "";
  const auto first = scorers[0].get<std::string>();
  const auto second = scorers[1].get<std::string>();
  return first == second ? first + " twice" : first + " and " + second;
}

std::string agreement_title(const json& agreement, const char* separator) {
  return text(agreement, "marker") + separator + pair_words(agreement);
}

ordered_json agreement_rows(const json::array_t& agreements) {
  ordered_json rows;
  for (const json& agreement : agreements) {
    for (const Measure& measure : measures()) {
      const auto each = estimate(field(agreement, measure.field));
      auto row = estimate_row(each);
      row["marker"] = agreement_title(agreement, ":\n");
      row["measure"] = measure.kind.name;
      row["undefined"] = each.value ? "" : std::string(measure.kind.name) + ": undefined";
      rows.push_back(std::move(row));
    }
  }
  return rows;
}

ordered_json agreement_specification(const json::array_t& agreements) {
  std::vector<Kind> kinds;
  for (const Measure& measure : measures()) kinds.push_back(measure.kind);
  const ordered_json scale = {{"domain", {-0.5, 1}}, {"clamp", true}};
  ordered_json place = {{"y", row_names("marker")}, {"color", colour_of("measure", kinds)}};
  place["yOffset"] = {{"field", "measure"}, {"type", "nominal"}, {"sort", nullptr}};
  ordered_json bar = {{"mark", "rule"}, {"encoding", place}};
  bar["encoding"]["x"] = quantity("low", "agreement", scale);
  bar["encoding"]["x"]["axis"] = {{"values", {-0.5, 0, 0.5, 1}}};
  bar["encoding"]["x2"] = {{"field", "high"}};
  bar["encoding"]["strokeDash"] = dash_of("measure", kinds);
  ordered_json point = {{"mark", "point"}, {"encoding", place}};
  point["encoding"]["x"] = quantity("value", "agreement", scale);
  point["encoding"]["shape"] = shape_of("measure", kinds);
  ordered_json words = {{"mark", {{"type", "text"}, {"align", "left"}, {"fontSize", 11}}},
                        {"encoding", place}};
  words["encoding"].erase("color");
  words["encoding"]["x"] = {{"datum", -0.45}, {"type", "quantitative"}, {"scale", scale}};
  words["encoding"]["text"] = {{"field", "undefined"}};
  auto chart = wide_chart(600);
  chart["height"] = 58 * agreements.size();
  chart["data"] = data(agreement_rows(agreements));
  chart["layer"] = {bar, point, words};
  return chart;
}

Table agreement_table(const json::array_t& agreements) {
  Table table{"Agreement of scorers",
              {"marker and scorers", "pairs", "left out, not scorable", "exactly the same",
               "weighted kappa", "Gwet's AC2"},
              {}};
  for (const json& agreement : agreements) {
    table.rows.push_back({agreement_title(agreement, ": "), count_text(agreement, "pairs"),
                          count_text(agreement, "left_out_not_scorable"),
                          percent_text(estimate(field(agreement, "exact"))),
                          decimal_text(estimate(field(agreement, "weighted_kappa")), 2),
                          decimal_text(estimate(field(agreement, "gwet_ac2")), 2)});
  }
  return table;
}

}  // namespace

std::vector<Chart> agreement_charts(const json& audit) {
  const auto& agreements = entries(audit, "agreement");
  if (agreements.empty()) return {};
  return {
      {"agreement",
       "How well scorers agree.",
       "1 is full agreement, 0 what chance alone gives (for the share of exactly the same levels: "
       "none). Kappa falls, or can't be given, where nearly all animals show one level; AC2 does "
       "not. Under some 20 pairs, no verdict should rest on these.",
       {{agreement_specification(agreements),
         "Agreement of scorers for each marker: exact, weighted kappa and AC2, with 95 % "
         "intervals."}},
       {agreement_table(agreements)}}};
}

}  // namespace likelihet::publishing
