// Reads the colony document, record by record.
#include <utility>

#include <likelihet/documents/colony_document.hpp>
#include <likelihet/documents/object_reader.hpp>

namespace likelihet::documents {

namespace {

colony::BoughtAsRecord read_bought_as(const Node& node) {
  ObjectReader object(node, "an entry of bought_as");
  colony::BoughtAsRecord bought;
  bought.locus = object.required("locus", id_of);
  object.members("odds", Presence::required, [&](const std::string& genotype, const Node& odds) {
    bought.odds.emplace_back(genotype, number_of(odds).value_or(0));
  });
  bought.trust = object.optional("trust", number_of);
  object.finish();
  return bought;
}

colony::AnimalRecord read_animal(const Node& node) {
  using genetics::Sex;
  ObjectReader object(node, "an animal");
  colony::AnimalRecord animal;
  animal.place.text = node.pointer.text();
  animal.id = object.required("id", id_of);
  animal.sex =
      object.word<Sex>("sex", Presence::optional, {{"female", Sex::female}, {"male", Sex::male}});
  animal.origin = object.optional("origin", id_of);
  animal.clutch = object.optional("clutch", id_of);
  animal.line = object.optional("line", text_of);
  animal.hatched = object.optional("hatched", date_of);
  object.elements("bought_as", Presence::optional,
                  [&](const Node& bought) { read_into(animal.bought_as, bought, read_bought_as); });
  object.finish();
  return animal;
}

colony::SireRecord read_sire(const Node& node) {
  ObjectReader object(node, "a sire");
  colony::SireRecord sire;
  sire.id = object.required("id", id_of);
  sire.share = object.optional("share", number_of);
  object.finish();
  return sire;
}

colony::ClutchRecord read_clutch(const Node& node) {
  using colony::Paternity;
  ObjectReader object(node, "a clutch");
  colony::ClutchRecord clutch;
  clutch.place.text = node.pointer.text();
  clutch.id = object.required("id", id_of);
  clutch.dam = object.optional("dam", id_of);
  object.elements("sires", Presence::optional,
                  [&](const Node& sire) { read_into(clutch.sires, sire, read_sire); });
  clutch.paternity =
      object.word<Paternity>("paternity", Presence::optional,
                             {{"single", Paternity::single}, {"mixed", Paternity::mixed}});
  clutch.dam_origin = object.optional("dam_origin", id_of);
  clutch.sire_origin = object.optional("sire_origin", id_of);
  clutch.line = object.optional("line", text_of);
  clutch.laid = object.optional("laid", date_of);
  clutch.hatched = object.optional("hatched", date_of);
  clutch.eggs = object.optional("eggs", count_of);
  object.finish();
  return clutch;
}

enum class Kind { appearance, score, result, brood, withdrawal };

colony::AppearanceRecord read_appearance(ObjectReader& object) {
  return {object.required("animal", id_of), object.required("locus", id_of),
          object.required("shows", id_of)};
}

// A level that is null says that the marker could not be scored, so that it can't be forgotten.
colony::ScoreRecord read_score(ObjectReader& object, const Node& node) {
  colony::ScoreRecord score;
  score.animal = object.required("animal", id_of);
  score.marker = object.required("marker", id_of);
  const Json* level = object.find("level", Presence::required);
  if (level != nullptr && !level->is_null()) score.level = id_of(node.member("level", *level));
  score.reason = object.optional("reason", text_of);
  score.scorer = object.optional("scorer", id_of);
  score.sure = object.optional("sure", number_of);
  score.blind = object.optional("blind", truth_of);
  return score;
}

colony::ResultRecord read_result(ObjectReader& object) {
  colony::ResultRecord result;
  result.animal = object.required("animal", id_of);
  result.assay = object.required("assay", id_of);
  result.report = object.required("report", id_of);
  result.sample = object.optional("sample", text_of);
  return result;
}

colony::BroodRecord read_brood(ObjectReader& object) {
  colony::BroodRecord brood;
  brood.animal = object.required("animal", id_of);
  brood.locus = object.required("locus", id_of);
  brood.partner = object.required("partner", id_of);
  object.members("offspring", Presence::required, [&](const std::string& shows, const Node& count) {
    brood.offspring.emplace_back(shows, count_of(count).value_or(0));
  });
  return brood;
}

colony::WithdrawalRecord read_withdrawal(ObjectReader& object) {
  colony::WithdrawalRecord withdrawal;
  withdrawal.of = object.required("of", id_of);
  withdrawal.why = object.optional("why", text_of);
  return withdrawal;
}

std::string_view called(std::optional<Kind> kind) {
  if (!kind) return "an observation";
  switch (*kind) {
    case Kind::appearance:
      return "an appearance";
    case Kind::score:
      return "a score";
    case Kind::result:
      return "a result";
    case Kind::brood:
      return "a brood";
    case Kind::withdrawal:
      break;
  }
  return "a withdrawal";
}

std::optional<Kind> read_kind(const Node& node) {
  ObjectReader object(node, called(std::nullopt));
  return object.word<Kind>("kind", Presence::required,
                           {{"appearance", Kind::appearance},
                            {"score", Kind::score},
                            {"result", Kind::result},
                            {"brood", Kind::brood},
                            {"withdrawal", Kind::withdrawal}});
}

colony::ObservationRecord read_observation(const Node& node) {
  const std::optional<Kind> kind = read_kind(node);
  colony::ObservationRecord observation;
  observation.place.text = node.pointer.text();
  if (!node.value.is_object()) return observation;
  ObjectReader object(node, called(kind));
  observation.id = object.required("id", id_of);
  object.has("kind");
  observation.on = object.optional("on", date_of);
  observation.recorded = object.optional("recorded", timestamp_of);
  if (!kind) return observation;  // which other fields it may have is not known
  switch (*kind) {
    case Kind::appearance:
      observation.what = read_appearance(object);
      break;
    case Kind::score:
      observation.what = read_score(object, node);
      break;
    case Kind::result:
      observation.what = read_result(object);
      break;
    case Kind::brood:
      observation.what = read_brood(object);
      break;
    case Kind::withdrawal:
      observation.what = read_withdrawal(object);
      break;
  }
  object.finish();
  return observation;
}

colony::Records read_records(const Node& node) {
  ObjectReader object(node, "a colony document");
  colony::Records records;
  if (!read_heading(object, node, "likelihet-colony")) return records;
  object.elements("animals", Presence::optional,
                  [&](const Node& animal) { read_into(records.animals, animal, read_animal); });
  object.elements("clutches", Presence::optional,
                  [&](const Node& clutch) { read_into(records.clutches, clutch, read_clutch); });
  object.elements("observations", Presence::optional, [&](const Node& observation) {
    read_into(records.observations, observation, read_observation);
  });
  object.finish();
  return records;
}

// Stops at the document's own "format"; what follows need not even be JSON.
class FormatFinder : public nlohmann::json_sax<Json> {
 public:
  [[nodiscard]] const std::string& format() const { return format_; }

  bool null() override { return true; }
  bool boolean(bool) override { return true; }
  bool number_integer(number_integer_t) override { return true; }
  bool number_unsigned(number_unsigned_t) override { return true; }
  bool number_float(number_float_t, const string_t&) override { return true; }
  bool binary(binary_t&) override { return true; }
  bool string(string_t& value) override {
    if (depth_ != 1 || !here_) return true;
    format_ = value;
    return false;
  }
  bool start_object(std::size_t) override { return ++depth_ <= deepest_nesting; }
  bool start_array(std::size_t) override { return depth_ > 0 && ++depth_ <= deepest_nesting; }
  bool end_object() override { return depth_-- > 0; }
  bool end_array() override { return depth_-- > 0; }
  bool key(string_t& name) override {
    here_ = depth_ == 1 && name == "format";
    return true;
  }
  bool parse_error(std::size_t, const std::string&, const nlohmann::detail::exception&) override {
    return false;
  }

 private:
  std::size_t depth_ = 0;
  bool here_ = false;
  std::string format_;
};

}  // namespace

Format format_of(std::string_view text) {
  FormatFinder finder;
  Json::sax_parse(text.begin(), text.end(), &finder);
  if (finder.format() == "likelihet-model") return Format::model;
  if (finder.format() == "likelihet-colony") return Format::colony;
  if (finder.format() == "likelihet-policy") return Format::policy;
  return Format::unknown;
}

std::variant<colony::Records, colony::Faults> read_colony(std::string_view text) {
  FaultList faults;
  const std::optional<Json> json = parse_json(text, faults);
  if (!json) return faults.take();
  colony::Records records = read_records({*json, {}, faults});
  if (!faults.empty()) return faults.take();
  return records;
}

}  // namespace likelihet::documents
