// Records as a buyer reads of them: by what they are and when, never by their ids. Private to the
// layer.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include <likelihet/colony/colony.hpp>

namespace likelihet::publishing {

/// "its own look (2025-08-14)", "3 results of relatives (2025-10-17 to 2025-10-23)": observations
/// of an animal and of others, one entry for each kind of either, in the order looks, broods,
/// readings, results. Days are those on which they were seen, else became known; records without
/// one are counted alone. Positions in the colony.
std::vector<std::string> records_named(const colony::Colony& colony, std::size_t animal,
                                       const std::vector<std::size_t>& observations);

/// "a look of 25-C8-07 (2025-08-14)": one of them. A withdrawal is "a withdrawal".
std::string record_named(const colony::Colony& colony, std::size_t observation);

}  // namespace likelihet::publishing
