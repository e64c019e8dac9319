// Whether what was called so many per cent proved as often.
#include "charts.hpp"
#include "figures.hpp"
#include "specification.hpp"

namespace likelihet::publishing {
namespace {

std::string called(const json& listing) {
  return percent_text(listing, "low") + " – " + percent_text(listing, "high");
}

ordered_json specification_of(const json::array_t& listings) {
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
                                  {"x", probability_axis("promise_from", "proved carriers")},
                                  {"x2", {{"field", "promise_to"}}}}}};
  const ordered_json bar = {
      {"mark", {{"type", "rule"}, {"color", colour::blue}}},
      {"encoding",
       {{"y", y}, {"x", probability_axis("low", "proved carriers")}, {"x2", {{"field", "high"}}}}}};
  const ordered_json point = {
      {"mark", {{"type", "point"}, {"color", colour::blue}}},
      {"encoding", {{"y", y}, {"x", probability_axis("share", "proved carriers")}}}};
  const ordered_json label = {{"mark", {{"type", "text"}, {"dy", -11}, {"fontSize", 11}}},
                              {"encoding",
                               {{"y", y},
                                {"x", probability_axis("share", "proved carriers")},
                                {"text", {{"field", "words"}}}}}};
  auto chart = wide_chart(560);
  chart["height"] = 40 * (listings.size() + 1);
  chart["data"] = data(rows);
  chart["transform"] = {{{"filter", "datum.n > 0"}},
                        {{"calculate", "datum.proved / datum.n"}, {"as", "share"}}};
  chart["layer"] = {promise, bar, point, label};
  return chart;
}

Table table_of(const json::array_t& listings) {
  Table table{"What was called, and what proved",
              {"called", "animals", "proved carriers", "95 % interval of the share"},
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

}  // namespace

std::vector<Chart> listing_charts(const json& audit) {
  const auto& listings = entries(audit, "listings");
  if (listings.empty()) return {};
  return {
      {"listings",
       "Of everything called so many per cent, how many proved.",
       "Grey boxes: what was said. Dots with bars: the share that proved, with its 95 % interval "
       "(Wilson). A bar that misses its box says that animals were called too high or too low.",
       {{specification_of(listings),
         "For each band of percentages, the share of animals that proved carriers, "
         "beside the percentages that were said."}},
       {table_of(listings)}}};
}

}  // namespace likelihet::publishing
