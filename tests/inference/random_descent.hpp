// Small networks of descent in which many variables are barren.
#pragma once

#include <cstdint>

#include <likelihet/inference/network.hpp>

namespace likelihet::test {

/// Up to four roots with open priors and up to four that descend from any two before them, so that
/// barren ones mate with barren ones, with their own ancestors and with others of the tree. Some
/// have two candidate second parents under a guard, some a recorded half of their states, a few are
/// seen; leaves, silent or not, hang on pairs.
inference::Network random_descent(std::uint64_t seed);

}  // namespace likelihet::test
