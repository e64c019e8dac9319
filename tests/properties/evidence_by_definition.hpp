// What each observation says about an animal's joint state, written from the definition.
#pragma once

#include <vector>

#include "properties/joint_state.hpp"

#include <likelihet/colony/colony.hpp>

namespace likelihet::properties {

/// Which evidence counts; each includes those before it.
enum class Layer { sexes, pedigree, scored, posterior };

/// likelihood[animal][state]: the product of all that was seen of the animal itself, its recorded
/// sex included, by the observations at `counting` positions.
std::vector<std::vector<double>> likelihoods(const colony::Colony& colony,
                                             const std::vector<std::size_t>& counting,
                                             const std::vector<JointState>& states, Layer layer);

}  // namespace likelihet::properties
