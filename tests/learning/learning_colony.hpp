// Small colonies whose markers can be learned from, by hand or by chain.
#pragma once

#include <memory>
#include <optional>
#include <string>

#include "support/small_model.hpp"
#include <gtest/gtest.h>

#include <likelihet/learning/expectation.hpp>
#include <likelihet/odds/scenario.hpp>

namespace likelihet::learning {

/// A colony made ready: everything that learning's parts take.
class Ready {
 public:
  Ready(const colony::ModelDescription& description, const colony::Records& records) {
    auto model = colony::Model::make(description);
    if (const auto* faults = std::get_if<colony::Faults>(&model)) {
      throw std::logic_error(support::told(*faults));
    }
    auto made = colony::Colony::make(
        std::make_shared<const colony::Model>(std::get<colony::Model>(std::move(model))), records);
    if (const auto* faults = std::get_if<colony::Faults>(&made)) {
      throw std::logic_error(support::told(*faults));
    }
    colony_ = std::make_unique<colony::Colony>(std::get<colony::Colony>(std::move(made)));
    auto prepared =
        odds::prepare(odds::scenario(*colony_, std::nullopt), believed(), std::size_t{1} << 30U);
    prepared_ = std::move(std::get<std::unique_ptr<odds::Prepared>>(prepared));
  }

  [[nodiscard]] const colony::Colony& colony() const { return *colony_; }
  [[nodiscard]] const colony::Model& model() const { return colony_->model(); }
  [[nodiscard]] const odds::Prepared& prepared() const { return *prepared_; }
  [[nodiscard]] odds::Tables believed() const { return odds::believed(model()); }

 private:
  std::unique_ptr<colony::Colony> colony_;
  std::unique_ptr<odds::Prepared> prepared_;
};

/// Ten animals out of "bought" that show e/e; crown-fleck is read for sure, clear on six of them
/// and absent on four.
inline colony::Records ten_visuals() {
  support::RecordsBuilder records;
  for (int i = 0; i < 10; ++i) {
    const std::string id = "V" + std::to_string(i);
    records.founder(id, std::nullopt, "bought").shows(id, "tarnbrook", "tarnbrook");
    records.score(id, "crown-fleck", i < 6 ? "strong" : "absent");
  }
  return records.records;
}

}  // namespace likelihet::learning
