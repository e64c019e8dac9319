// The listing document.
#include "listing_notes.hpp"
#include <nlohmann/json.hpp>

#include <likelihet/publishing/listing_document.hpp>

namespace likelihet::publishing {
namespace {

using nlohmann::ordered_json;

ordered_json day_json(const std::optional<colony::Date>& day) {
  return day ? ordered_json(day->text()) : ordered_json();
}

ordered_json number_json(const std::optional<double>& number) {
  return number ? ordered_json(*number) : ordered_json();
}

ordered_json ids_json(const colony::Colony& colony, const std::vector<std::size_t>& observations) {
  auto out = ordered_json::array();
  for (const std::size_t o : observations) out.push_back(colony.observations()[o].id);
  return out;
}

ordered_json statement_json(const colony::Colony& colony, const Statement& statement) {
  const genetics::Locus& locus = colony.model().loci()[statement.locus];
  ordered_json marked;
  if (statement.marked) {
    marked = {{"mean", statement.marked->mean},
              {"interval", {statement.marked->low, statement.marked->high}}};
  }
  return {{"locus", locus.id()},
          {"allele", locus.alleles()[statement.allele]},
          {"label", word_of(statement.label)},
          {"basis", word_of(statement.basis)},
          {"published",
           {{"low", statement.published.low},
            {"high", statement.published.high},
            {"step", statement.published.step}}},
          {"pedigree", statement.pedigree},
          {"markerless", statement.markerless},
          {"marked", marked},
          {"headline", statement.headline},
          {"reason", statement.reason},
          {"rests_on", ids_json(colony, statement.rests_on)},
          {"plain", statement.plain},
          {"would_change", statement.would_change}};
}

ordered_json result_json(const colony::Colony& colony, const ResultShown& result) {
  return {{"observation", colony.observations()[result.observation].id},
          {"locus", colony.model().loci()[result.locus].id()},
          {"on", day_json(result.on)},
          {"assay", result.assay},
          {"report", result.report},
          {"tells", result.tells},
          {"false_report", result.false_report},
          {"missed", result.missed},
          {"variants_seen", 1}};
}

ordered_json record_json(const Record& record) {
  auto kinds = ordered_json::array();
  for (const auto& [kind, count] : record.kinds) {
    kinds.push_back({{"kind", audit::code_of(kind)}, {"forecasts", count}});
  }
  ordered_json interval;
  if (record.skill_interval) {
    interval = {record.skill_interval->low, record.skill_interval->high};
  }
  return {{"forecasts", record.forecasts},      {"expected", record.expected},
          {"observed", record.observed},        {"kinds", kinds},
          {"skill", number_json(record.skill)}, {"skill_interval", interval},
          {"slope", number_json(record.slope)}};
}

ordered_json markers_json(const colony::Colony& colony, const MarkersShown& markers) {
  return {{"locus", colony.model().loci()[markers.locus].id()},
          {"readings", ids_json(colony, markers.readings)},
          {"relatives", markers.relatives},
          {"count", markers.count},
          {"missing", markers.missing},
          {"record", markers.record ? record_json(*markers.record) : ordered_json()},
          {"line", markers.line}};
}

ordered_json health_json(const colony::HealthPolicy& note) {
  return {{"locus", note.locus},
          {"note", note.note},
          {"grade", grade_word(note.grade)},
          {"source", note.source ? ordered_json(*note.source) : ordered_json()}};
}

ordered_json listing_json(const colony::Colony& colony, const Listing& listing) {
  ordered_json out = {{"animal", colony.animals()[listing.animal].id},
                      {"claim", listing.claim ? ordered_json(*listing.claim) : ordered_json()},
                      {"statements", ordered_json::array()},
                      {"results", ordered_json::array()},
                      {"markers", ordered_json::array()},
                      {"record", listing.record},
                      {"cautions", listing.cautions},
                      {"health", ordered_json::array()}};
  for (const auto& one : listing.statements) {
    out["statements"].push_back(statement_json(colony, one));
  }
  for (const auto& one : listing.results) out["results"].push_back(result_json(colony, one));
  for (const auto& one : listing.markers) out["markers"].push_back(markers_json(colony, one));
  for (const auto& one : listing.health) out["health"].push_back(health_json(one));
  return out;
}

}  // namespace

std::string_view word_of(Label label) {
  switch (label) {
    case Label::visual:
      return "visual";
    case Label::proven:
      return "proven";
    case Label::certain:
      return "certain";
    case Label::possible:
      return "possible";
    case Label::none:
      return "none";
  }
  return {};
}

std::string_view word_of(Basis basis) {
  switch (basis) {
    case Basis::pedigree:
      return "pedigree";
    case Basis::results:
      return "results";
    case Basis::markers:
      return "markers";
  }
  return {};
}

nlohmann::ordered_json listing_document(const colony::Colony& colony,
                                        const std::vector<Listing>& listings) {
  ordered_json out = {{"format", "likelihet-listing"}, {"version", 1}};
  out["day"] = listings.empty() ? ordered_json() : day_json(listings.front().day);
  out["as_of"] = listings.empty() ? ordered_json() : day_json(listings.front().as_of);
  out["listings"] = ordered_json::array();
  for (const Listing& listing : listings) out["listings"].push_back(listing_json(colony, listing));
  return out;
}

}  // namespace likelihet::publishing
