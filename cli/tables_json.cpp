// Learned tables for programs.
#include "tables_output.hpp"
#include <nlohmann/json.hpp>

#include <likelihet/learning/together_factors.hpp>
#include <likelihet/odds/evidence_score.hpp>

namespace likelihet::cli {
namespace {

using learning::Parameter;
using nlohmann::ordered_json;

ordered_json genotypes_of(const colony::Model& model, const colony::MarkerRow& row) {
  auto at = ordered_json::object();
  for (const auto& [locus, genotype] : row.at) {
    at[model.loci()[locus].id()] = model.loci()[locus].key(genotype);
  }
  return at;
}

ordered_json new_row(const colony::Model& model, const learning::Learned& learned,
                     const Parameter& of) {
  const colony::Marker& marker = model.markers()[of.of];
  return {{"marker", marker.id},
          {"context", of.table == 0 ? ordered_json() : ordered_json(of.table - 1)},
          {"at", genotypes_of(model, odds::rows_of(marker, of.table)[of.row])},
          {"mean", ordered_json::array()},
          {"interval", ordered_json::array()},
          {"mode", ordered_json::array()},
          {"animals", learned.animals[of.of][of.table][of.row]}};
}

ordered_json interval_of(const learning::Summary& one) {
  return {one.low, one.high};
}

ordered_json factor_of(const learning::Spread& spread) {
  return {{"median", spread.median}, {"interval", {spread.low, spread.high}}};
}

ordered_json new_group(const colony::Model& model, const learning::Learned& learned,
                       std::size_t group) {
  ordered_json out = {{"id", model.together()[group].id}, {"loadings", ordered_json::array()}};
  if (const auto factor = learning::together_factor(model, group, learned.draws)) {
    auto levels = ordered_json::object();
    for (std::size_t m : factor->markers) {
      levels[model.markers()[m].id] = model.markers()[m].levels.back();
    }
    out["all_highest"] = {
        {"at", genotypes_of(model, model.markers()[factor->markers[0]].rows[factor->rows[0]])},
        {"levels", levels},
        {"product", factor_of(factor->product)},
        {"together", factor_of(factor->together)}};
  }
  return out;
}

}  // namespace

std::string tables_json(const colony::Model& model, const learning::Learned& learned,
                        TablesUsed used) {
  ordered_json document = {{"format", "likelihet-tables"}, {"version", 1}};
  document["tables"] = used == TablesUsed::learned ? "learned" : "belief";
  for (const char* list : {"rows", "scorers", "origins", "together"})
    document[list] = ordered_json::array();
  for (const auto& one : learned.summaries) {
    const Parameter& of = one.parameter;
    if (of.kind == Parameter::Kind::row) {
      if (of.entry == 0) document["rows"].push_back(new_row(model, learned, of));
      auto& row = document["rows"].back();
      row["mean"].push_back(one.mean);
      row["interval"].push_back(interval_of(one));
      row["mode"].push_back(one.mode);
      continue;
    }
    if (of.kind == Parameter::Kind::loading) {
      if (of.entry == 0) document["together"].push_back(new_group(model, learned, of.of));
      document["together"].back()["loadings"].push_back(
          {{"marker", model.markers()[model.together()[of.of].markers[of.entry]].id},
           {"mean", one.mean},
           {"interval", interval_of(one)},
           {"mode", one.mode}});
      continue;
    }
    const bool scorer = of.kind == Parameter::Kind::scorer;
    ordered_json entry = {{"id", scorer ? model.scorers()[of.of].id : model.origins()[of.of].id}};
    if (!scorer) {
      entry["locus"] = model.loci()[of.row].id();
      entry["allele"] = model.loci()[of.row].alleles()[of.entry];
    }
    entry["mean"] = one.mean;
    entry["interval"] = interval_of(one);
    entry["mode"] = one.mode;
    document[scorer ? "scorers" : "origins"].push_back(std::move(entry));
  }
  document["pairs"] = ordered_json::array();
  for (const auto& pair : learned.dependences) {
    document["pairs"].push_back({{"first", model.markers()[pair.first].id},
                                 {"second", model.markers()[pair.second].id},
                                 {"animals", pair.animals},
                                 {"correlation", pair.correlation},
                                 {"p", pair.p}});
  }
  if (learned.left_out) {
    document["clutches_left_out"] = {{"clutches", learned.left_out->clutches},
                                     {"gain_bits", learned.left_out->gain},
                                     {"standard_error_bits", learned.left_out->standard_error}};
  }
  return document.dump(2) + "\n";
}

}  // namespace likelihet::cli
