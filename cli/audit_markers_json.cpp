// The audit document: markers, scorers and agreement.
#include "audit_output.hpp"

#include <likelihet/audit/verdict.hpp>

namespace likelihet::cli {

using nlohmann::ordered_json;

namespace {

ordered_json both_json(const audit::CutAudit::Both& both) {
  return {{"naive", json_of(both.naive)}, {"corrected", json_of(both.corrected)}};
}

ordered_json cut_json(const colony::Marker& marker, const audit::MarkerAudit& audited,
                      const audit::CutAudit& cut) {
  return {{"at_least", marker.levels[cut.at_least]},
          {"sensitivity", both_json(cut.sensitivity)},
          {"specificity", both_json(cut.specificity)},
          {"positive_ratio", both_json(cut.positive_ratio)},
          {"negative_ratio", both_json(cut.negative_ratio)},
          {"odds_ratio",
           {{"pooled", json_of(cut.odds_ratio_pooled)},
            {"within_clutch", json_of(cut.odds_ratio_within)},
            {"informative_clutches", audited.informative_clutches}}}};
}

const char* grouping_code(audit::GroupAudit::By by) {
  using By = audit::GroupAudit::By;
  switch (by) {
    case By::scorer:
      return "scorer";
    case By::season:
      return "season";
    case By::blinding:
      return "blinding";
    case By::carriers_of:
      return "carriers-of";
    case By::line:
      break;
  }
  return "line";
}

ordered_json groups_json(const colony::Marker& marker, const audit::MarkerAudit& audited) {
  auto out = ordered_json::array();
  for (const auto& group : audited.groups) {
    out.push_back({{"by", grouping_code(group.by)},
                   {"group", group.name},
                   {"animals", group.animals},
                   {"known", group.known},
                   {"cut", marker.levels[1]},
                   {"odds_ratio", json_of(group.odds_ratio)}});
  }
  return out;
}

ordered_json tested_json(const audit::Tested& tested) {
  return {{"p", tested.p}, {"adjusted", tested.adjusted}};
}

ordered_json p_json(const std::optional<double>& p) {
  return {{"p", p ? ordered_json(*p) : ordered_json(nullptr)}};
}

ordered_json tests_json(const colony::Model& model, const audit::MarkerAudit& audited) {
  ordered_json out = {{"pooled", tested_json(audited.pooled)},
                      {"within_clutch", tested_json(audited.within_clutch)}};
  out["adds_to_others"] = {{"p", nullptr}, {"adjusted", nullptr}, {"nearest", nullptr}};
  if (audited.adds_to_others) {
    out["adds_to_others"] = tested_json(*audited.adds_to_others);
    out["adds_to_others"]["nearest"] = model.markers()[*audited.nearest_other].id;
  }
  out["lines_differ"] = p_json(audited.lines_differ);
  out["blinding_differs"] = p_json(audited.blinding_differs);
  out["unexplained_by_other_traits"] =
      p_json(audited.other ? std::optional(audited.other->left) : std::nullopt);
  return out;
}

ordered_json marker_json(const colony::Model& model, const audit::MarkerAudit& audited) {
  const colony::Marker& marker = model.markers()[audited.marker];
  const auto& locus = model.loci()[audited.locus];
  ordered_json out = {
      {"marker", marker.id},
      {"context", audited.table == 0 ? ordered_json(nullptr) : ordered_json(audited.table - 1)},
      {"locus", locus.id()},
      {"allele", locus.alleles()[audited.allele]},
      {"levels", marker.levels},
      {"verdict", audit::code_of(audited.verdict)},
      {"words", audit::words_of(audited.verdict)},
      {"why", audited.why},
      {"animals", audited.animals},
      {"known_animals", audited.known},
      {"masked", audited.masked},
      {"not_scorable", audited.not_scorable},
      {"too_late", audited.too_late},
      {"clutches", audited.clutches},
      {"known", {{"carrier", audited.known_carriers}, {"others", audited.known_others}}},
      {"estimated",
       {{"carrier", audited.estimated_carriers}, {"others", audited.estimated_others}}}};
  out["cuts"] = ordered_json::array();
  for (const auto& cut : audited.cuts) out["cuts"].push_back(cut_json(marker, audited, cut));
  out["bits"] = {{"value", audited.bits},
                 {"interval",
                  audited.bits_interval ? json_of(*audited.bits_interval) : ordered_json(nullptr)}};
  out["tests"] = tests_json(model, audited);
  out["groups"] = groups_json(marker, audited);
  out["other_trait"] = nullptr;
  if (audited.other) {
    const auto& other = model.loci()[audited.other->locus];
    out["other_trait"] = {{"locus", other.id()},
                          {"allele", other.alleles()[audited.other->allele]},
                          {"p", audited.other->p}};
  }
  return out;
}

ordered_json kappa_json(const audit::Kappa& kappa) {
  if (!kappa.value) {
    return {{"value", nullptr}, {"interval", nullptr}, {"why", kappa.undefined}};
  }
  return {{"value", *kappa.value}, {"interval", json_of(kappa.interval)}, {"why", ""}};
}

}  // namespace

ordered_json audit_markers_json(const colony::Colony& colony, const audit::Audit& audit) {
  auto out = ordered_json::array();
  for (const auto& audited : audit.markers) out.push_back(marker_json(colony.model(), audited));
  return out;
}

ordered_json audit_pairs_json(const colony::Colony& colony, const audit::Audit& audit) {
  const colony::Model& model = colony.model();
  auto out = ordered_json::array();
  for (const auto& pair : audit.repeats) {
    out.push_back({{"first", model.markers()[pair.first].id},
                   {"second", model.markers()[pair.second].id},
                   {"locus", model.loci()[pair.locus].id()},
                   {"allele", model.loci()[pair.locus].alleles()[pair.allele]},
                   {"animals", pair.animals},
                   {"correlation", pair.correlation},
                   {"p", pair.p}});
  }
  return out;
}

ordered_json audit_scorers_json(const colony::Colony& colony, const audit::Audit& audit) {
  const colony::Model& model = colony.model();
  auto out = ordered_json::array();
  for (const auto& scorer : audit.scorers) {
    ordered_json one = {{"scorer", model.scorers()[scorer.scorer].id},
                        {"readings", scorer.readings},
                        {"not_scorable", scorer.not_scorable},
                        {"blind", scorer.blind},
                        {"unblinded", scorer.unblinded},
                        {"unknown", scorer.unknown},
                        {"markers", ordered_json::array()},
                        {"seasons", ordered_json::array()}};
    for (const auto& on : scorer.markers) {
      const colony::Marker& marker = model.markers()[on.marker];
      one["markers"].push_back(
          {{"marker", marker.id},
           {"context", on.table == 0 ? ordered_json(nullptr) : ordered_json(on.table - 1)},
           {"locus", model.loci()[on.locus].id()},
           {"allele", model.loci()[on.locus].alleles()[on.allele]},
           {"known", on.known},
           {"cut", marker.levels[1]},
           {"sensitivity", json_of(on.sensitivity)},
           {"specificity", json_of(on.specificity)}});
    }
    for (const auto& season : scorer.seasons) {
      one["seasons"].push_back({{"season", season.season},
                                {"marker", model.markers()[season.marker].id},
                                {"readings", season.readings},
                                {"at_least_cut", season.positive}});
    }
    out.push_back(std::move(one));
  }
  return out;
}

ordered_json audit_agreement_json(const colony::Colony& colony, const audit::Audit& audit) {
  const colony::Model& model = colony.model();
  auto out = ordered_json::array();
  for (const auto& of : audit.agreements) {
    out.push_back({{"marker", model.markers()[of.marker].id},
                   {"scorers", {model.scorers()[of.first].id, model.scorers()[of.second].id}},
                   {"pairs", of.pairs},
                   {"exact", of.pairs > 0 ? json_of(of.exact) : ordered_json(nullptr)},
                   {"weighted_kappa", kappa_json(of.weighted_kappa)},
                   {"gwet_ac2", kappa_json(of.gwet_ac2)},
                   {"left_out_not_scorable", of.not_scorable}});
  }
  return out;
}

}  // namespace likelihet::cli
