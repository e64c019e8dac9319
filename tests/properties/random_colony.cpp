// Draws models and records that fit each other.
#include "properties/random_colony.hpp"

#include <stdexcept>
#include <utility>
#include <variant>

#include "properties/enumeration.hpp"
#include "properties/random_model.hpp"
#include "properties/random_records.hpp"
#include "support/small_model.hpp"

namespace likelihet::properties {

namespace {
// Larger ones are drawn again: enumeration would take too long.
constexpr double largest_size = 1e5;
}  // namespace

RandomColony random_colony(Dice& dice,
                           const std::function<void(colony::ModelDescription&)>& change) {
  while (true) {
    colony::ModelDescription description = random_model(dice);
    if (change) change(description);
    RandomColony out;
    out.records = random_records(dice, description);
    auto model = colony::Model::make(description);
    if (auto* faults = std::get_if<colony::Faults>(&model)) {
      throw std::logic_error("random model: " + support::told(*faults));
    }
    out.model = std::make_shared<const colony::Model>(std::get<colony::Model>(std::move(model)));
    auto made = colony::Colony::make(out.model, out.records);
    if (auto* faults = std::get_if<colony::Faults>(&made)) {
      // A withdrawal of its own withdrawal and the like; the generator aims at none.
      throw std::logic_error("random records: " + support::told(*faults));
    }
    out.colony = std::make_shared<const colony::Colony>(std::get<colony::Colony>(std::move(made)));
    if (enumeration_size(*out.colony) <= largest_size) return out;
  }
}

}  // namespace likelihet::properties
