// What moved an animal's odds, step by step.
#include <algorithm>
#include <sstream>

#include "charts.hpp"
#include "figures.hpp"
#include "specification.hpp"

namespace likelihet::publishing {
namespace {

const std::vector<Kind>& directions() {
  static const std::vector<Kind> kinds = {{"start", colour::ink, "diamond", {}},
                                          {"for a het", colour::blue, "triangle-right", {}},
                                          {"against", colour::vermillion, "triangle-left", {}}};
  return kinds;
}

std::string_view direction(const json& step) {
  const auto factor = number(step, "factor");
  if (!factor) return "start";
  return *factor < 1 ? "against" : "for a het";
}

/// The words on lines of about twenty characters, which is what a phone has room for; "90 %" is
/// one.
std::string on_short_lines(const std::string& words) {
  constexpr std::size_t length = 20;
  std::string lines;
  std::size_t line_start = 0;
  std::istringstream source(words);
  for (std::string word; source >> word;) {
    if (lines.size() > line_start) {
      const bool full = lines.size() - line_start + 1 + word.size() > length && word.front() != '%';
      lines += full ? '\n' : ' ';
      if (full) line_start = lines.size();
    }
    lines += word;
  }
  return lines;
}

/// Each step starts where the one before it ended; a start has no length.
ordered_json waterfall_rows(const json& animal) {
  ordered_json rows;
  std::optional<double> before;
  for (const json& step : entries(animal, "steps")) {
    const auto after = number(step, "probability_after");
    if (!number(step, "factor")) before = after;
    rows.push_back(
        {{"step", on_short_lines(std::to_string(rows.size() + 1) + ". " + text(step, "label"))},
         {"before", value_or_null(before)},
         {"after", value_or_null(after)},
         {"direction", direction(step)},
         {"place",
          std::to_string(rows.size() + 1) + "|" + percent_text(step, "probability_after")}});
    before = after;
  }
  return rows;
}

/// Pixels a step, so that the longest name lies on no other.
std::size_t height_of_step(const ordered_json& rows) {
  constexpr std::size_t least = 46, line = 15, gap = 4;
  std::size_t lines = 1;
  for (const auto& row : rows) {
    const auto& name = row["step"].get_ref<const std::string&>();
    lines =
        std::max(lines, 1 + static_cast<std::size_t>(std::count(name.begin(), name.end(), '\n')));
  }
  return std::max(least, line * lines + gap);
}

ordered_json waterfall_specification(const json& animal) {
  const ordered_json rows = waterfall_rows(animal);
  const ordered_json scale = {{"domain", {-3.2, 3.2}}};
  auto x = quantity("to", "odds of being het", scale);
  x["axis"] = {{"values", {-3, -2, -1, 0, 1, 2, 3}},
               {"labelExpr",
                "datum.value < 0 ? '1 : ' + format(pow(10, -datum.value), 'd') : format(pow(10, "
                "datum.value), 'd') + ' : 1'"},
               {"labelOverlap", true}};
  const auto y = row_names("step");
  const ordered_json bar = {{"mark", {{"type", "bar"}, {"height", 10}, {"opacity", 0.75}}},
                            {"encoding",
                             {{"y", y},
                              {"x", x},
                              {"x2", {{"field", "from"}}},
                              {"color", colour_of("direction", directions())}}}};
  const ordered_json end = {{"mark", {{"type", "point"}, {"size", 90}}},
                            {"encoding",
                             {{"y", y},
                              {"x", x},
                              {"color", colour_of("direction", directions())},
                              {"shape", shape_of("direction", directions())}}}};
  // A column of its own, so that no figure can lie on another, however near the steps are.
  auto figures = category("place", "chance after it");
  figures["axis"] = {{"orient", "right"},
                     {"labelExpr", "split(datum.label, '|')[1]"},
                     {"domain", false},
                     {"ticks", false}};
  const ordered_json column = {{"mark", {{"type", "point"}, {"opacity", 0}, {"size", 0}}},
                               {"encoding", {{"y", figures}}}};
  auto chart = wide_chart(600);
  chart["height"] = height_of_step(rows) * rows.size();
  chart["data"] = data(rows);
  // Percentages beyond 1 : 1000 end at the edge, as certainty has no place on this axis.
  chart["transform"] = {
      {{"calculate", "clamp(datum.before, 0.001, 0.999)"}, {"as", "from_chance"}},
      {{"calculate", "clamp(datum.after, 0.001, 0.999)"}, {"as", "to_chance"}},
      {{"calculate", "log(datum.from_chance / (1 - datum.from_chance)) / LN10"}, {"as", "from"}},
      {{"calculate", "log(datum.to_chance / (1 - datum.to_chance)) / LN10"}, {"as", "to"}}};
  chart["layer"] = {{{"layer", {bar, end}}}, column};
  chart["resolve"] = {{"scale", {{"y", "independent"}}}};
  return chart;
}

Table waterfall_table(const json& animal, const std::string& of) {
  Table table{"Evidence of " + of, {"step", "factor on the odds", "chance after it"}, {}};
  for (const json& step : entries(animal, "steps")) {
    const auto factor = number(step, "factor");
    table.rows.push_back({text(step, "label"), factor ? ratio_text({factor, {}, ""}) : "start",
                          percent_text(step, "probability_after")});
  }
  return table;
}

}  // namespace

std::vector<Chart> waterfall_charts(const json& audit) {
  std::vector<Chart> charts;
  for (const json& animal : entries(audit, "animals")) {
    if (entries(animal, "steps").empty()) continue;
    const auto of = text(animal, "animal") + " at " + text(animal, "locus");
    charts.push_back(
        {"evidence-" + std::to_string(charts.size() + 1),
         "What moved the odds of " + of + ".",
         "From top to bottom, each step starts where the last one ended; the figure at its right "
         "is the chance of "
         "one copy of " +
             text(animal, "allele") + " after it.",
         {{waterfall_specification(animal),
           "Waterfall of the evidence on " + of + ", step by step, on an axis of odds."}},
         {waterfall_table(animal, of)}});
  }
  return charts;
}

}  // namespace likelihet::publishing
