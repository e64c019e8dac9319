// What to write in place of a genotype key that a locus does not have. Private to the layer.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <likelihet/colony/fault_list.hpp>
#include <likelihet/colony/value_checks.hpp>

namespace likelihet::colony {

/// "write '+/e': ..." where only the order of the two parts is wrong, else the nearest of `keys`.
/// For the `mend` of a fault whose `what` names the key. `keys` are those of the locus in state
/// order; an unknown key costs a search through them.
std::string key_mend(std::string_view key, const std::vector<std::string>& keys, FaultList& faults);

}  // namespace likelihet::colony
