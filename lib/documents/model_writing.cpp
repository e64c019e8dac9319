// Writes the model document, its fields in the order of the model description.
#include <likelihet/documents/json_text.hpp>
#include <likelihet/documents/model_document.hpp>

namespace likelihet::documents {

namespace {

using colony::Named;

const char* word_of(genetics::SexSystem system) {
  switch (system) {
    case genetics::SexSystem::xy:
      return "XY";
    case genetics::SexSystem::zw:
      return "ZW";
    case genetics::SexSystem::none:
      break;
  }
  return "none";
}

const char* word_of(genetics::Chromosome chromosome) {
  switch (chromosome) {
    case genetics::Chromosome::x:
      return "X";
    case genetics::Chromosome::z:
      return "Z";
    case genetics::Chromosome::autosome:
      break;
  }
  return "autosome";
}

template <class Value>
Json object_of(const Named<Value>& members) {
  Json object = Json::object();
  for (const auto& [key, value] : members) object[key] = value;
  return object;
}

template <class Value>
void put_if_given(Json& object, const char* field, const std::optional<Value>& value) {
  if (value) object[field] = *value;
}

// An array, left out where it is empty.
template <class Items, class Write>
void put_array(Json& object, const char* field, const Items& items, Write write) {
  if (items.empty()) return;
  Json array = Json::array();
  for (const auto& item : items) array.push_back(write(item));
  object[field] = std::move(array);
}

Json write_appearance(const Named<double>& shown) {
  if (shown.size() == 1 && shown.front().second == 1.0) return shown.front().first;
  return object_of(shown);
}

Json write_locus(const colony::LocusDescription& locus) {
  Json object;
  object["id"] = locus.id;
  object["on"] = word_of(locus.on);
  object["alleles"] = locus.alleles;
  if (!locus.appearance.empty()) {
    Json& appearance = object["appearance"] = Json::object();
    for (const auto& [key, shown] : locus.appearance) appearance[key] = write_appearance(shown);
  }
  if (!locus.viability.empty()) object["viability"] = object_of(locus.viability);
  if (!locus.caution.empty()) object["caution"] = locus.caution;
  return object;
}

Json write_origin(const colony::OriginDescription& origin) {
  Json object;
  object["id"] = origin.id;
  if (!origin.frequencies.empty()) {
    Json& frequencies = object["frequencies"] = Json::object();
    for (const auto& [locus, alleles] : origin.frequencies) frequencies[locus] = object_of(alleles);
  }
  put_if_given(object, "worth", origin.worth);
  return object;
}

Json write_row(const colony::RowDescription& row) {
  Json object;
  object["at"] = object_of(row.at);
  object["expect"] = row.expect;
  put_if_given(object, "worth", row.worth);
  return object;
}

Json write_rows(const std::vector<colony::RowDescription>& rows) {
  Json array = Json::array();
  for (const auto& row : rows) array.push_back(write_row(row));
  return array;
}

Json write_context(const colony::ContextDescription& context) {
  Json object;
  Json& when = object["when"] = Json::object();
  put_if_given(when, "locus", context.locus);
  put_if_given(when, "shows", context.shows);
  put_if_given(when, "line", context.line);
  object["use"] = context.ignore ? "ignore" : "rows";
  if (!context.ignore) object["rows"] = write_rows(context.rows);
  return object;
}

Json write_marker(const colony::MarkerDescription& marker) {
  Json object;
  object["id"] = marker.id;
  object["levels"] = marker.levels;
  put_if_given(object, "weight", marker.weight);
  object["rows"] = write_rows(marker.rows);
  put_array(object, "contexts", marker.contexts, write_context);
  return object;
}

Json write_assay(const colony::AssayDescription& assay) {
  Json object;
  object["id"] = assay.id;
  object["locus"] = assay.locus;
  object["reports"] = assay.reports;
  Json& rows = object["rows"] = Json::array();
  for (const auto& row : assay.rows) rows.push_back({{"at", row.at}, {"expect", row.expect}});
  put_if_given(object, "mix_up", assay.mix_up);
  put_if_given(object, "price", assay.price);
  return object;
}

Json write_scorer(const colony::ScorerDescription& scorer) {
  Json object;
  object["id"] = scorer.id;
  put_if_given(object, "sure", scorer.sure);
  return object;
}

Json write_together(const colony::TogetherDescription& together) {
  Json object;
  object["id"] = together.id;
  object["markers"] = together.markers;
  if (together.common_loading) object["loading"] = *together.common_loading ? "common" : "each";
  put_if_given(object, "spread", together.spread);
  return object;
}

}  // namespace

std::string write_model(const colony::ModelDescription& model) {
  Json document;
  document["format"] = "likelihet-model";
  document["version"] = 1;
  if (!model.name.empty()) document["name"] = model.name;
  document["sex_chromosomes"] = word_of(model.sex_chromosomes);
  Json& loci = document["loci"] = Json::array();
  for (const auto& locus : model.loci) loci.push_back(write_locus(locus));
  put_array(document, "origins", model.origins, write_origin);
  put_array(document, "markers", model.markers, write_marker);
  put_array(document, "assays", model.assays, write_assay);
  put_array(document, "scorers", model.scorers, write_scorer);
  put_array(document, "together", model.together, write_together);
  return json_text(document, 2) + "\n";
}

}  // namespace likelihet::documents
