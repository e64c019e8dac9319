// A small random colony with the model and the records that it was made from.
#pragma once

#include <functional>
#include <memory>

#include "properties/dice.hpp"

#include <likelihet/colony/colony.hpp>

namespace likelihet::properties {

struct RandomColony {
  std::shared_ptr<const colony::Model> model;
  colony::Records records;
  std::shared_ptr<const colony::Colony> colony;
};

/// Drawn again until enumerate() can go through it quickly. `change` may alter the model before
/// records are drawn for it. Throws std::logic_error where the generators made something unsound.
RandomColony random_colony(Dice& dice,
                           const std::function<void(colony::ModelDescription&)>& change = nullptr);

}  // namespace likelihet::properties
