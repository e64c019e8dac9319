// Small colony documents, and their odds through the readers and the engine.
#include "published/worked_colony.hpp"

#include <memory>
#include <stdexcept>
#include <utility>
#include <variant>

#include "support/small_model.hpp"

#include <likelihet/documents/colony_document.hpp>
#include <likelihet/documents/model_document.hpp>

namespace likelihet::published {

namespace {

// What a step made, or a throw that tells its faults.
template <class Value>
Value made(std::variant<Value, colony::Faults> outcome) {
  if (auto* faults = std::get_if<colony::Faults>(&outcome)) {
    throw std::runtime_error(support::told(*faults));
  }
  return std::get<Value>(std::move(outcome));
}

}  // namespace

double half_unit(int places) {
  double unit = 1;
  for (int k = 0; k < places; ++k) unit /= 10;
  return unit / 2;
}

Json recessive_model(double q, const std::string& on) {
  Json appearance = {{"default", "clear"}, {"a/a", "affected"}};
  if (on == "X") appearance["a/Y"] = "affected";
  if (on == "Z") appearance["a/W"] = "affected";
  const Json locus = {{"id", "trait"},
                      {"on", on},
                      {"alleles", {"+", "a"}},
                      {"appearance", appearance},
                      {"viability", Json::object()},
                      {"caution", ""}};
  const Json origin = {{"id", "population"}, {"frequencies", {{"trait", {{"a", q}}}}}};
  return {{"format", "likelihet-model"},
          {"version", 1},
          {"name", "worked example"},
          {"sex_chromosomes", on == "X" ? "XY" : on == "Z" ? "ZW" : "none"},
          {"loci", Json::array({locus})},
          {"origins", Json::array({origin})},
          {"markers", Json::array()},
          {"assays", Json::array()},
          {"scorers", Json::array()}};
}

void add_assay(Json& model, const std::string& id, const std::vector<std::string>& reports,
               const std::vector<std::string>& keys, const std::vector<std::vector<double>>& rows) {
  Json table = Json::array();
  for (std::size_t k = 0; k < keys.size(); ++k) {
    table.push_back({{"at", keys[k]}, {"expect", rows[k]}});
  }
  model["assays"].push_back(
      {{"id", id}, {"locus", "trait"}, {"reports", reports}, {"rows", table}});
}

Answer::Answer(colony::Colony colony, odds::ColonyOdds odds)
    : colony_(std::move(colony)), odds_(std::move(odds)) {}

double Answer::posterior(const std::string& animal, const std::string& key,
                         const std::string& locus) const {
  return at(animal, key, locus, &odds::LocusOdds::posterior);
}

double Answer::scored(const std::string& animal, const std::string& key,
                      const std::string& locus) const {
  return at(animal, key, locus, &odds::LocusOdds::scored);
}

double Answer::pedigree(const std::string& animal, const std::string& key,
                        const std::string& locus) const {
  return at(animal, key, locus, &odds::LocusOdds::pedigree);
}

double Answer::at(const std::string& animal, const std::string& key, const std::string& locus,
                  std::vector<double> odds::LocusOdds::*layer) const {
  const std::size_t a = colony_.find_animal(animal).value();
  const std::size_t l = colony_.model().find_locus(locus).value();
  return (odds_.animals[a].loci[l].*layer)[colony_.model().loci()[l].find(key).value()];
}

colony::Colony read(const std::string& model_text, const std::string& colony_text) {
  const auto model = std::make_shared<const colony::Model>(
      made(colony::Model::make(made(documents::read_model(model_text)))));
  return made(colony::Colony::make(model, made(documents::read_colony(colony_text))));
}

Answer solve(const std::string& model_text, const std::string& colony_text) {
  auto colony = read(model_text, colony_text);
  odds::Options options;
  options.draws = 0;
  options.surprises = false;
  auto outcome = odds::compute(colony, options);
  if (const auto* found = std::get_if<odds::Contradiction>(&outcome)) {
    throw std::runtime_error(found->what);
  }
  return {std::move(colony), std::get<odds::ColonyOdds>(std::move(outcome))};
}

Json surely(const std::string& key) {
  return {{key, 1.0}};
}

Json either(const std::string& key, double probability, const std::string& other) {
  return {{key, probability}, {other, 1 - probability}};
}

WorkedColony& WorkedColony::founder(const std::string& id, const Json& odds) {
  Json animal = {{"id", id}, {"origin", "population"}};
  if (!odds.is_null()) {
    animal["bought_as"] = Json::array({{{"locus", "trait"}, {"odds", odds}}});
  }
  animals_.push_back(animal);
  return *this;
}

WorkedColony& WorkedColony::young(const std::vector<std::string>& ids, const std::string& dam,
                                  const std::string& sire, const std::string& sex) {
  const std::string clutch = "of " + ids.front();
  clutches_.push_back({{"id", clutch}, {"dam", dam}, {"sires", Json::array({{{"id", sire}}})}});
  for (const std::string& id : ids) {
    Json animal = {{"id", id}, {"clutch", clutch}};
    if (!sex.empty()) animal["sex"] = sex;
    animals_.push_back(animal);
  }
  return *this;
}

WorkedColony& WorkedColony::sex(const std::string& id, const std::string& sex) {
  for (Json& animal : animals_) {
    if (animal["id"] == id) animal["sex"] = sex;
  }
  return *this;
}

WorkedColony& WorkedColony::shows(const std::string& id, const std::string& appearance,
                                  const std::string& locus) {
  return observe({{"kind", "appearance"}, {"animal", id}, {"locus", locus}, {"shows", appearance}});
}

WorkedColony& WorkedColony::score(const std::string& id, const std::string& marker,
                                  const std::string& level) {
  return observe({{"kind", "score"}, {"animal", id}, {"marker", marker}, {"level", level}});
}

WorkedColony& WorkedColony::result(const std::string& id, const std::string& assay,
                                   const std::string& report) {
  return observe({{"kind", "result"}, {"animal", id}, {"assay", assay}, {"report", report}});
}

WorkedColony& WorkedColony::brood(const std::string& id, const std::string& partner, int clear,
                                  int affected) {
  return observe({{"kind", "brood"},
                  {"animal", id},
                  {"locus", "trait"},
                  {"partner", partner},
                  {"offspring", {{"clear", clear}, {"affected", affected}}}});
}

WorkedColony& WorkedColony::observe(Json observation) {
  observation["id"] = numbered("o", observations_.size());
  observations_.push_back(std::move(observation));
  return *this;
}

Json WorkedColony::document() const {
  return {{"format", "likelihet-colony"},
          {"version", 1},
          {"animals", animals_},
          {"clutches", clutches_},
          {"observations", observations_}};
}

Answer WorkedColony::solve() const {
  return published::solve(model_.dump(), document().dump());
}

colony::Colony WorkedColony::colony() const {
  return read(model_.dump(), document().dump());
}

}  // namespace likelihet::published
