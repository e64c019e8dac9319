// Small invented models and records for tests, quick to make and to vary.
#pragma once

#include <memory>
#include <optional>
#include <stdexcept>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include <likelihet/colony/colony.hpp>
#include <likelihet/colony/date.hpp>
#include <likelihet/colony/model.hpp>
#include <likelihet/colony/model_description.hpp>
#include <likelihet/colony/records.hpp>

namespace likelihet::support {

/// Faults as text, one a line, for a test's message.
inline std::string told(const colony::Faults& faults) {
  std::string text;
  for (const colony::Fault& fault : faults) {
    text += fault.place + ": " + fault.what + " (" + fault.mend + ")\n";
  }
  return text;
}

/// An autosomal or sex-linked recessive: `+` and `e`, only those without a `+` show "tarnbrook".
inline colony::LocusDescription recessive_locus(
    const std::string& id = "tarnbrook", genetics::Chromosome on = genetics::Chromosome::autosome) {
  colony::LocusDescription locus;
  locus.id = id;
  locus.on = on;
  locus.alleles = {"+", "e"};
  locus.appearance = {{"default", {{"plain", 1.0}}}, {"e/e", {{"tarnbrook", 1.0}}}};
  if (on == genetics::Chromosome::x) locus.appearance.push_back({"e/Y", {{"tarnbrook", 1.0}}});
  if (on == genetics::Chromosome::z) locus.appearance.push_back({"e/W", {{"tarnbrook", 1.0}}});
  return locus;
}

/// A second autosomal recessive, `+` and `s`, shown as "thornwick": it can mask a marker.
inline colony::LocusDescription masking_locus() {
  colony::LocusDescription locus;
  locus.id = "brackmoor";
  locus.alleles = {"+", "s"};
  locus.appearance = {{"default", {{"plain", 1.0}}}, {"s/s", {{"thornwick", 1.0}}}};
  return locus;
}

/// The marker "crown-fleck" (absent, faint, clear) of locus tarnbrook.
inline colony::MarkerDescription crown_fleck() {
  colony::MarkerDescription marker;
  marker.id = "crown-fleck";
  marker.levels = {"absent", "faint", "strong"};
  marker.weight = 1.0;
  marker.rows = {{{{"tarnbrook", "e/e"}}, {0.2, 0.3, 0.5}, 4.0},
                 {{{"tarnbrook", "+/e"}}, {0.3, 0.3, 0.4}, 8.0},
                 {{}, {0.8, 0.15, 0.05}, 8.0}};
  return marker;
}

/// The assay "shed-pcr" of locus tarnbrook, wrong in 1.5 % of samples and mixed up in 0.4 %.
inline colony::AssayDescription shed_pcr() {
  colony::AssayDescription assay;
  assay.id = "shed-pcr";
  assay.locus = "tarnbrook";
  assay.reports = {"clear", "carrier", "affected", "no-call"};
  assay.rows = {{"+/+", {0.985, 0.003, 0.002, 0.01}},
                {"+/e", {0.003, 0.985, 0.002, 0.01}},
                {"e/e", {0.002, 0.003, 0.985, 0.01}}};
  assay.mix_up = 0.004;
  assay.price = 45.0;
  return assay;
}

/// One recessive locus "tarnbrook", origin "bought" (2 % e), marker "crown-fleck", assay
/// "shed-pcr", scorer "ana"; sex chromosomes ZW.
inline colony::ModelDescription recessive_model() {
  colony::ModelDescription model;
  model.name = "example";
  model.sex_chromosomes = genetics::SexSystem::zw;
  model.loci = {recessive_locus()};
  model.origins = {{"bought", {{"tarnbrook", {{"e", 0.02}}}}, 50.0}};
  model.markers = {crown_fleck()};
  model.assays = {shed_pcr()};
  model.scorers = {{"ana", 0.95}};
  return model;
}

/// recessive_model() with the masking locus "brackmoor", whose "thornwick" animals cannot be read
/// for crown-fleck.
inline colony::ModelDescription masked_model() {
  colony::ModelDescription model = recessive_model();
  model.loci.push_back(masking_locus());
  model.markers[0].contexts = {{"brackmoor", "thornwick", std::nullopt, true, {}}};
  return model;
}

/// One recessive locus "tarnbrook" on X or Z and origin "bought" (2 % e): no markers or assays.
inline colony::ModelDescription sex_linked_model(genetics::Chromosome on) {
  colony::ModelDescription model;
  model.name = "sex-linked example";
  model.sex_chromosomes =
      on == genetics::Chromosome::x ? genetics::SexSystem::xy : genetics::SexSystem::zw;
  model.loci = {recessive_locus("tarnbrook", on)};
  model.origins = {{"bought", {{"tarnbrook", {{"e", 0.02}}}}, 50.0}};
  return model;
}

/// The checked model; throws with all the faults if it has any.
inline std::shared_ptr<const colony::Model> made(colony::ModelDescription description) {
  auto result = colony::Model::make(std::move(description));
  if (const auto* faults = std::get_if<colony::Faults>(&result)) {
    throw std::invalid_argument(told(*faults));
  }
  return std::make_shared<const colony::Model>(std::get<colony::Model>(std::move(result)));
}

/// A day that exists; throws otherwise.
inline colony::Date day(const std::string& text) {
  const auto date = colony::Date::parse(text);
  if (!date) throw std::invalid_argument(text + " is not a day");
  return *date;
}

/// Records put together call by call, placed as in a colony document ("/animals/0"):
///   RecordsBuilder().founder("F01", Sex::female, "bought").founder("M02", Sex::male)
///       .clutch("C03", "F01", {"M02"}).hatchling("H1", "C03").shows("H1", "tarnbrook",
///       "plain").records
/// Observations are named o1, o2, ... in their order. The last record may be changed through
/// animal(), clutch_record() and observation().
struct RecordsBuilder {
  colony::Records records;

  RecordsBuilder& founder(const std::string& id, std::optional<genetics::Sex> sex = std::nullopt,
                          std::optional<std::string> origin = std::nullopt) {
    colony::AnimalRecord record;
    record.id = id;
    record.sex = sex;
    record.origin = std::move(origin);
    return add(std::move(record));
  }
  RecordsBuilder& hatchling(const std::string& id, const std::string& clutch_id,
                            std::optional<genetics::Sex> sex = std::nullopt) {
    colony::AnimalRecord record;
    record.id = id;
    record.sex = sex;
    record.clutch = clutch_id;
    return add(std::move(record));
  }
  /// No dam or no sires: anonymous founders.
  RecordsBuilder& clutch(const std::string& id, std::optional<std::string> dam,
                         const std::vector<std::string>& sires) {
    colony::ClutchRecord record;
    record.id = id;
    record.dam = std::move(dam);
    for (const std::string& sire : sires) record.sires.push_back({sire, std::nullopt});
    record.place.text = "/clutches/" + std::to_string(records.clutches.size());
    records.clutches.push_back(std::move(record));
    return *this;
  }

  RecordsBuilder& shows(const std::string& animal_id, const std::string& locus,
                        const std::string& appearance) {
    return observe(colony::AppearanceRecord{animal_id, locus, appearance});
  }
  RecordsBuilder& score(const std::string& animal_id, const std::string& marker,
                        std::optional<std::string> level,
                        std::optional<std::string> scorer = std::nullopt) {
    colony::ScoreRecord score;
    score.animal = animal_id;
    score.marker = marker;
    score.level = std::move(level);
    score.scorer = std::move(scorer);
    return observe(std::move(score));
  }
  RecordsBuilder& result(const std::string& animal_id, const std::string& assay,
                         const std::string& report) {
    return observe(colony::ResultRecord{animal_id, assay, report, std::nullopt});
  }
  RecordsBuilder& brood(const std::string& animal_id, const std::string& locus,
                        const std::string& partner, colony::Named<std::int64_t> offspring) {
    return observe(colony::BroodRecord{animal_id, locus, partner, std::move(offspring)});
  }
  RecordsBuilder& withdraw(const std::string& observation_id) {
    return observe(colony::WithdrawalRecord{observation_id, std::nullopt});
  }
  /// What the seller said of the last animal.
  RecordsBuilder& bought_as(const std::string& locus, colony::Named<double> odds,
                            std::optional<double> trust = std::nullopt) {
    animal().bought_as.push_back({locus, std::move(odds), trust});
    return *this;
  }
  /// How sure the last observation, a reading, was.
  RecordsBuilder& sure(double probability) {
    std::get<colony::ScoreRecord>(observation().what).sure = probability;
    return *this;
  }
  /// The day of the last observation.
  RecordsBuilder& on(const std::string& date) {
    records.observations.back().on = day(date);
    return *this;
  }

  colony::AnimalRecord& animal() { return records.animals.back(); }
  colony::ClutchRecord& clutch_record() { return records.clutches.back(); }
  colony::ObservationRecord& observation() { return records.observations.back(); }

 private:
  RecordsBuilder& add(colony::AnimalRecord record) {
    record.place.text = "/animals/" + std::to_string(records.animals.size());
    records.animals.push_back(std::move(record));
    return *this;
  }
  template <class What>
  RecordsBuilder& observe(What what) {
    colony::ObservationRecord record;
    const std::size_t position = records.observations.size();
    record.id = "o" + std::to_string(position + 1);
    record.what = std::move(what);
    record.place.text = "/observations/" + std::to_string(position);
    records.observations.push_back(std::move(record));
    return *this;
  }
};

/// The checked colony; throws with all the faults if it has any.
inline colony::Colony colony_of(std::shared_ptr<const colony::Model> model,
                                const colony::Records& records) {
  auto result = colony::Colony::make(std::move(model), records);
  if (const auto* faults = std::get_if<colony::Faults>(&result)) {
    throw std::invalid_argument(told(*faults));
  }
  return std::get<colony::Colony>(std::move(result));
}

}  // namespace likelihet::support
