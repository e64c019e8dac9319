// Small random colonies over every feature of the colony document.
#pragma once

#include "properties/dice.hpp"

#include <likelihet/colony/model_description.hpp>
#include <likelihet/colony/records.hpp>

namespace likelihet::properties {

/// Founders and hatchlings that may pair with anyone older of the other sex (so siblings,
/// half-siblings and back-crosses pair), anonymous parents, several sires, and observations of
/// every kind with withdrawals, withdrawals of withdrawals and days. The evidence may contradict
/// itself.
colony::Records random_records(Dice& dice, const colony::ModelDescription& model);

/// The same records in another order.
colony::Records shuffled(Dice& dice, colony::Records records);

}  // namespace likelihet::properties
