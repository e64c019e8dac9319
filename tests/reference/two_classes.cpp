// Prediction by what a colony teaches, and its skill.
#include "reference/two_classes.hpp"

#include <cmath>
#include <stdexcept>

#include <likelihet/learning/learn.hpp>

namespace likelihet {

namespace {

const char* const levels[] = {"low", "middle", "high"};

std::string marker_id(std::size_t m) {
  return "marker-" + std::to_string(m + 1);
}

}  // namespace

Skill skill(const std::vector<Marked>& animals, const std::vector<double>& chances) {
  std::vector<double> of_carriers;
  std::vector<double> of_others;
  Skill out;
  std::size_t next = 0;
  for (const Marked& animal : animals) {
    if (animal.tested) continue;
    const double p = chances.at(next++);
    (animal.carrier ? of_carriers : of_others).push_back(std::round(p * 1e9));
    out.brier += std::pow((animal.carrier ? 1.0 : 0.0) - p, 2);
  }
  for (double a : of_carriers) {
    for (double b : of_others) out.auc += a > b ? 1 : a == b ? 0.5 : 0;
  }
  out.auc /= static_cast<double>(of_carriers.size() * of_others.size());
  out.brier /= static_cast<double>(next);
  return out;
}

colony::ModelDescription marked_model(std::size_t markers) {
  colony::ModelDescription model;
  model.name = "two classes";
  model.loci = {support::recessive_locus("trait")};
  model.origins = {{"bought", {{"trait", {{"e", 0.5}}}}, 2.0}};
  const std::vector<double> alike(3, 1.0 / 3);
  for (std::size_t m = 0; m < markers; ++m) {
    colony::MarkerDescription marker;
    marker.id = marker_id(m);
    marker.levels = {levels[0], levels[1], levels[2]};
    marker.rows = {{{{"trait", "+/e"}}, alike, 3.0}, {{}, alike, 3.0}};
    model.markers.push_back(std::move(marker));
  }
  colony::AssayDescription test;
  test.id = "test";
  test.locus = "trait";
  test.reports = {"clear", "carrier", "affected"};
  test.rows = {{"+/+", {1, 0, 0}}, {"+/e", {0, 1, 0}}, {"e/e", {0, 0, 1}}};
  model.assays = {std::move(test)};
  return model;
}

void record(support::RecordsBuilder& records, const std::string& id, const Marked& animal) {
  records.shows(id, "trait", "plain");
  for (std::size_t m = 0; m < animal.levels.size(); ++m) {
    records.score(id, marker_id(m), levels[animal.levels[m]]);
  }
  if (animal.tested) records.result(id, "test", animal.carrier ? "carrier" : "clear");
}

std::vector<double> learned_chances(const colony::Colony& colony,
                                    const std::vector<Marked>& animals, std::size_t first) {
  learning::Settings settings;
  settings.kept = 500;
  const auto learned = std::get<learning::Learned>(learning::learn(colony, settings));
  if (!learned.converged) throw std::runtime_error("chains do not agree");
  odds::Options options;
  options.learned = &learned.draws;
  options.surprises = false;
  const auto odds = std::get<odds::ColonyOdds>(odds::compute(colony, options));
  std::vector<double> out;
  for (std::size_t a = 0; a < animals.size(); ++a) {
    // State order: +/+, +/e, e/e.
    if (!animals[a].tested) out.push_back(odds.animals[first + a].loci[0].posterior[1]);
  }
  return out;
}

}  // namespace likelihet
