// What markers do to the odds, as a forest plot.
#include <algorithm>
#include <cmath>

#include "charts.hpp"
#include "figures.hpp"
#include "specification.hpp"

namespace likelihet::publishing {
namespace {

/// One way to estimate: where it stands in a cut, and how it is drawn.
struct Estimator {
  std::string_view field;
  Kind kind;
};
using Estimators = std::vector<Estimator>;

// One scale for all panels: beyond it a bar runs to the edge.
constexpr double least_ratio = 0.01;
constexpr double greatest_ratio = 1000;

const Estimators& odds_estimators() {
  static const Estimators all = {
      {"pooled", {"all animals together", colour::orange, "triangle-up", {6, 3}}},
      {"within_clutch", {"within clutches", colour::green, "square", {1, 0}}}};
  return all;
}

const Estimators& likelihood_estimators() {
  static const Estimators all = {
      {"naive", {"known animals (naive)", colour::orange, "triangle-up", {6, 3}}},
      {"corrected", {"corrected", colour::blue, "circle", {1, 0}}}};
  return all;
}

std::string forest_title(const json& audit, const json& marker, const json& cut,
                         const char* separator) {
  return marker_name(audit, marker) + separator + text(cut, "at_least");
}

std::optional<double> drawable(std::optional<double> ratio) {
  if (!ratio) return ratio;
  return std::clamp(*ratio, least_ratio, greatest_ratio);
}

ordered_json forest_rows(const json& audit, std::string_view ratio, const Estimators& estimators) {
  ordered_json rows;
  for (const json& marker : entries(audit, "markers")) {
    for (const json& cut : entries(marker, "cuts")) {
      for (const Estimator& estimator : estimators) {
        auto each = estimate(field(field(cut, ratio), estimator.field));
        each.value = drawable(each.value);
        if (each.interval) {
          each.interval = {*drawable(each.interval->first), *drawable(each.interval->second)};
        }
        auto row = estimate_row(each);
        row["marker"] = forest_title(audit, marker, cut, "\nfrom ");
        row["estimate"] = estimator.kind.name;
        rows.push_back(std::move(row));
      }
    }
  }
  return rows;
}

ordered_json panel(const ordered_json& rows, std::string_view title, const Estimators& estimators) {
  std::vector<Kind> kinds;
  for (const Estimator& each : estimators) kinds.push_back(each.kind);
  const ordered_json scale = {{"type", "log"}, {"domain", {least_ratio, greatest_ratio}}};
  auto x = quantity("value", title, scale);
  x["axis"] = {{"values", {0.01, 0.1, 1, 10, 100, 1000}},
               {"labelExpr",
                "'×' + (datum.value < 1 ? format(datum.value, '~r') : format(datum.value, 'd'))"}};
  auto from = x;
  from["field"] = "low";
  ordered_json place = {{"y", row_names("marker")}, {"color", colour_of("estimate", kinds)}};
  place["yOffset"] = {{"field", "estimate"}, {"type", "nominal"}, {"sort", nullptr}};
  ordered_json bar = {{"mark", "rule"}, {"encoding", place}};
  bar["encoding"]["x"] = from;
  bar["encoding"]["x2"] = {{"field", "high"}};
  bar["encoding"]["strokeDash"] = dash_of("estimate", kinds);
  ordered_json point = {{"mark", "point"}, {"encoding", place}};
  point["encoding"]["x"] = x;
  point["encoding"]["shape"] = shape_of("estimate", kinds);
  const ordered_json even = {
      {"data", data(ordered_json::array({ordered_json::object({{"at", 1}})}))},
      {"mark", {{"type", "rule"}, {"color", colour::ink}, {"strokeWidth", 1}}},
      {"encoding",
       {{"x", {{"field", "at"}, {"type", "quantitative"}, {"scale", scale}, {"title", title}}}}}};
  auto chart = wide_chart(600);
  chart["height"] = 21 * rows.size();
  chart["data"] = data(rows);
  chart["layer"] = {even, bar, point};
  chart["layer"][0]["encoding"]["x"]["axis"] = x["axis"];
  return chart;
}

Table odds_table(const json& audit) {
  Table table{
      "Odds ratios of markers",
      {"marker and level", "all animals together", "within clutches", "informative clutches"},
      {}};
  for (const json& marker : entries(audit, "markers")) {
    for (const json& cut : entries(marker, "cuts")) {
      const json& ratio = field(cut, "odds_ratio");
      table.rows.push_back({forest_title(audit, marker, cut, ", from "),
                            ratio_text(estimate(field(ratio, "pooled"))),
                            ratio_text(estimate(field(ratio, "within_clutch"))),
                            count_text(ratio, "informative_clutches")});
    }
  }
  return table;
}

Table likelihood_table(const json& audit) {
  Table table{"Likelihood ratios of markers",
              {"marker and level", "seen, naive", "seen, corrected", "not seen, naive",
               "not seen, corrected"},
              {}};
  for (const json& marker : entries(audit, "markers")) {
    for (const json& cut : entries(marker, "cuts")) {
      std::vector<std::string> row = {forest_title(audit, marker, cut, ", from ")};
      for (const auto* ratio : {"positive_ratio", "negative_ratio"}) {
        for (const Estimator& each : likelihood_estimators()) {
          row.push_back(ratio_text(estimate(field(field(cut, ratio), each.field))));
        }
      }
      table.rows.push_back(std::move(row));
    }
  }
  return table;
}

/// A panel with what it shows in words, unless there is nothing to show.
void add_panel(std::vector<Drawing>& drawings, const json& audit, std::string_view ratio,
               std::string_view title, const Estimators& estimators, std::string description) {
  const auto rows = forest_rows(audit, ratio, estimators);
  const bool any = std::any_of(rows.begin(), rows.end(),
                               [](const ordered_json& row) { return !row["value"].is_null(); });
  if (any) drawings.push_back({panel(rows, title, estimators), std::move(description)});
}

}  // namespace

std::vector<Chart> forest_charts(const json& audit) {
  const auto odds = odds_table(audit);
  if (odds.rows.empty()) return {};
  std::vector<Drawing> drawings;
  add_panel(
      drawings, audit, "odds_ratio", "odds ratio", odds_estimators(),
      "Forest plot of the odds ratio of each marker, of all animals together and within clutches.");
  add_panel(
      drawings, audit, "positive_ratio", "likelihood ratio, marker seen", likelihood_estimators(),
      "Forest plot of the likelihood ratio of each marker where it is seen, naive and corrected.");
  add_panel(drawings, audit, "negative_ratio", "likelihood ratio, not seen",
            likelihood_estimators(),
            "Forest plot of the likelihood ratio of each marker where it is not seen, naive and "
            "corrected.");
  const char* caption =
      drawings.empty()
          ? "No ratio can be given yet."
          : "A dot at ×1 says nothing; right of it the marker speaks for a het, "
            "left of it against. A "
            "bar that crosses ×1 may well be chance. A marker that works only among all "
            "animals together, "
            "and not within clutches, follows families rather than hets. "
            "Corrected allows for who "
            "was tested. Bars end at ×0.01 and ×1000 even where the interval goes on.";
  return {{"forest",
           "What each marker does to the odds.",
           caption,
           std::move(drawings),
           {odds, likelihood_table(audit)}}};
}

}  // namespace likelihet::publishing
