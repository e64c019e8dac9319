// Whether what was called so many per cent proved as often.
#include "charts.hpp"
#include "figures.hpp"
#include "specification.hpp"

namespace likelihet::publishing {
namespace {

std::string called(const json& listing) {
  return percent_text(listing, "low") + " – " + percent_text(listing, "high");
}

ordered_json listings_specification(const json::array_t& listings) {
  ordered_json rows;
  for (const json& listing : listings) {
    auto row = estimate_row(estimate(listing, "n"));  // the share is left to the drawing
    row["called"] = called(listing);
    row["promise_from"] = value_or_null(number(listing, "low"));
    row["promise_to"] = value_or_null(number(listing, "high"));
    row["n"] = count(listing, "n");
    row["proved"] = count(listing, "proved");
    row["words"] = count_text(listing, "proved") + " of " + count_text(listing, "n");
    rows.push_back(std::move(row));
  }
  const auto y = category("called", "called");
  const ordered_json promise = {{"mark",
                                 {{"type", "bar"},
                                  {"height", 20},
                                  {"color", "#D9D9D9"},
                                  {"stroke", colour::grey},
                                  {"strokeDash", {2, 2}}}},
                                {"encoding",
                                 {{"y", y},
                                  {"x", probability_axis("promise_from", "turned out het")},
                                  {"x2", {{"field", "promise_to"}}}}}};
  const ordered_json bar = {
      {"mark", {{"type", "rule"}, {"color", colour::blue}}},
      {"encoding",
       {{"y", y}, {"x", probability_axis("low", "turned out het")}, {"x2", {{"field", "high"}}}}}};
  const ordered_json point = {
      {"mark", {{"type", "point"}, {"color", colour::blue}}},
      {"encoding", {{"y", y}, {"x", probability_axis("share", "turned out het")}}}};
  const ordered_json label = {{"mark", {{"type", "text"}, {"dy", -11}, {"fontSize", 11}}},
                              {"encoding",
                               {{"y", y},
                                {"x", probability_axis("share", "turned out het")},
                                {"text", {{"field", "words"}}}}}};
  auto chart = wide_chart(560);
  chart["height"] = 40 * (listings.size() + 1);
  chart["data"] = data(rows);
  chart["transform"] = {{{"filter", "datum.n > 0"}},
                        {{"calculate", "datum.proved / datum.n"}, {"as", "share"}}};
  chart["layer"] = {promise, bar, point, label};
  return chart;
}

Table listings_table(const json::array_t& listings) {
  Table table{"What was called, and what turned out",
              {"called", "animals", "turned out het", "95 % interval of the share"},
              {}};
  for (const json& listing : listings) {
    const auto share = estimate(listing, "low").interval;
    table.rows.push_back({called(listing), count_text(listing, "n"), count_text(listing, "proved"),
                          share ? decimal_text({100 * share->first, {}, ""}, 0) + " – " +
                                      decimal_text({100 * share->second, {}, ""}, 0) + " %"
                                : std::string(not_given)});
  }
  return table;
}

Chart chart_of(const json::array_t& listings, const std::string& id, const std::string& caption,
               const Table& table) {
  return {id,
          caption,
          "Grey boxes: what was said. Dots with bars: the share that turned out het, with its 95 % "
          "interval (Wilson). A bar that misses its box says that animals were called too high or "
          "too low.",
          {{listings_specification(listings),
            "For each band of percentages, the share of animals that turned out het, "
            "beside the percentages that were said."}},
          {table}};
}

Table resolved_table(const json& claims) {
  Table table{"Each claim whose truth became known later",
              {"claim", "published", "animal", "at", "said", "known", "came true"},
              {}};
  for (const json& one : entries(claims, "resolved")) {
    const bool range = number(one, "low") != number(one, "high");
    table.rows.push_back({text(one, "code"), text(one, "on"), text(one, "animal"),
                          text(one, "locus").append(" ").append(text(one, "allele")),
                          range ? called(one) : percent_text(one, "low"), text(one, "known_on"),
                          percent_text(one, "outcome_probability")});
  }
  return table;
}

}  // namespace

std::vector<Chart> listing_charts(const json& audit) {
  std::vector<Chart> charts;
  const auto& listings = entries(audit, "listings");
  if (!listings.empty()) {
    charts.push_back(chart_of(listings, "listings",
                              "Of everything called so many per cent, how many turned out het.",
                              listings_table(listings)));
  }
  const json& claims = field(audit, "claims");
  const auto& published = entries(claims, "bands");
  if (!published.empty()) {
    charts.push_back(
        chart_of(published, "claims",
                 "Of everything published at so many per cent, how many turned out het.",
                 listings_table(published)));
    charts.back().tables.push_back(resolved_table(claims));
  }
  return charts;
}

}  // namespace likelihet::publishing
