// Markers as tests of unknown accuracy, and their maximum-likelihood tables.
#include "published/taught.hpp"

#include <stdexcept>

#include <likelihet/odds/scenario.hpp>

namespace likelihet::published {

void add_test(Json& model, const std::string& id, double sensitivity, double false_positives) {
  model["markers"].push_back({{"id", id},
                              {"levels", {"negative", "positive"}},
                              {"rows",
                               {{{"at", {{"trait", "a/a"}}},
                                 {"expect", {1 - sensitivity, sensitivity}},
                                 {"worth", hardly_any}},
                                {{"at", Json::object()},
                                 {"expect", {1 - false_positives, false_positives}},
                                 {"worth", hardly_any}}}}});
}

Likeliest likeliest_with_height(const colony::Colony& colony) {
  const odds::Scenario all = odds::scenario(colony, std::nullopt);
  const odds::Tables believed = odds::believed(colony.model());
  auto made = odds::prepare(all, believed, std::size_t{2} << 30U);
  const auto& prepared = *std::get<std::unique_ptr<odds::Prepared>>(made);
  learning::Expecting expecting(prepared, colony.model());
  learning::ClimbSettings settings;
  settings.tolerance = 1e-10;
  settings.most_steps = 100'000;
  const auto end = learning::climb(expecting, colony.model(),
                                   learning::off_the_saddle(colony.model(), believed), settings);
  if (!end || !end->converged) throw std::runtime_error("no mode");
  return {end->tables, expecting.at(end->tables)->log_evidence};
}

odds::Tables likeliest(const colony::Colony& colony) {
  return likeliest_with_height(colony).tables;
}

}  // namespace likelihet::published
