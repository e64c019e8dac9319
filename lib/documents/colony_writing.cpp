// Writes the colony document, a record a line.
#include <likelihet/documents/colony_document.hpp>
#include <likelihet/documents/json_text.hpp>
#include <likelihet/documents/written_fields.hpp>

namespace likelihet::documents {

namespace {

template <class Value>
void put(Json& object, const char* field, const std::optional<Value>& value) {
  if (value) object[field] = *value;
}

void put(Json& object, const char* field, const std::optional<colony::Date>& date) {
  if (date) object[field] = date->text();
}

Json write_animal(const colony::AnimalRecord& animal) {
  Json object;
  object["id"] = animal.id;
  if (animal.sex) object["sex"] = word_for(*animal.sex);
  put(object, "origin", animal.origin);
  put(object, "clutch", animal.clutch);
  put(object, "line", animal.line);
  put(object, "hatched", animal.hatched);
  if (animal.bought_as.empty()) return object;
  Json& bought_as = object["bought_as"] = Json::array();
  for (const auto& bought : animal.bought_as) {
    Json entry;
    entry["locus"] = bought.locus;
    Json& odds = entry["odds"] = Json::object();
    for (const auto& [genotype, probability] : bought.odds) odds[genotype] = probability;
    put(entry, "trust", bought.trust);
    bought_as.push_back(std::move(entry));
  }
  return object;
}

Json write_clutch(const colony::ClutchRecord& clutch) {
  Json object;
  object["id"] = clutch.id;
  put(object, "dam", clutch.dam);
  if (!clutch.sires.empty()) {
    Json& sires = object["sires"] = Json::array();
    for (const auto& sire : clutch.sires) {
      Json entry;
      entry["id"] = sire.id;
      put(entry, "share", sire.share);
      sires.push_back(std::move(entry));
    }
  }
  if (clutch.paternity) object["paternity"] = word_for(*clutch.paternity);
  put(object, "dam_origin", clutch.dam_origin);
  put(object, "sire_origin", clutch.sire_origin);
  put(object, "line", clutch.line);
  put(object, "laid", clutch.laid);
  put(object, "hatched", clutch.hatched);
  put(object, "eggs", clutch.eggs);
  return object;
}

// Adds the kind of an observation and the fields of that kind.
struct KindWriter {
  Json& object;

  void operator()(const colony::AppearanceRecord& seen) const {
    object["kind"] = "appearance";
    object["animal"] = seen.animal;
    object["locus"] = seen.locus;
    object["shows"] = seen.shows;
  }
  void operator()(const colony::ScoreRecord& score) const {
    object["kind"] = "score";
    object["animal"] = score.animal;
    object["marker"] = score.marker;
    object["level"] = nullptr;
    put(object, "level", score.level);
    put(object, "reason", score.reason);
    put(object, "scorer", score.scorer);
    put(object, "sure", score.sure);
    put(object, "blind", score.blind);
  }
  void operator()(const colony::ResultRecord& result) const {
    object["kind"] = "result";
    object["animal"] = result.animal;
    object["assay"] = result.assay;
    object["report"] = result.report;
    put(object, "sample", result.sample);
  }
  void operator()(const colony::BroodRecord& brood) const {
    object["kind"] = "brood";
    object["animal"] = brood.animal;
    object["locus"] = brood.locus;
    object["partner"] = brood.partner;
    Json& offspring = object["offspring"] = Json::object();
    for (const auto& [shows, count] : brood.offspring) offspring[shows] = count;
  }
  void operator()(const colony::WithdrawalRecord& withdrawal) const {
    object["kind"] = "withdrawal";
    object["of"] = withdrawal.of;
    put(object, "why", withdrawal.why);
  }
};

Json write_observation(const colony::ObservationRecord& observation) {
  Json object;
  object["id"] = observation.id;
  std::visit(KindWriter{object}, observation.what);
  put(object, "on", observation.on);
  if (const auto& recorded = written_recorded(observation)) object["recorded"] = recorded->text();
  return object;
}

template <class Items, class Write>
std::string lines(const char* field, const Items& items, Write write) {
  std::string text = std::string(",\n  \"") + field + "\": [";
  const char* before = "\n    ";
  for (const auto& item : items) {
    text += before + json_text(write(item));
    before = ",\n    ";
  }
  return text + (items.empty() ? "]" : "\n  ]");
}

}  // namespace

std::string write_colony(const colony::Records& records) {
  return "{\n  \"format\": \"likelihet-colony\",\n  \"version\": 1" +
         lines("animals", records.animals, write_animal) +
         lines("clutches", records.clutches, write_clutch) +
         lines("observations", records.observations, write_observation) + "\n}\n";
}

}  // namespace likelihet::documents
