// How many of several fall on each of several positions.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include <likelihet/inference/random_bits.hpp>

namespace likelihet::inference {

/// Draws how many of `n` fall on each position, each in proportion to `weights`, whose sum is above
/// 0: binomials in turn (Devroye 1986, Non-Uniform Random Variate Generation, chapter XI.1.4), or
/// one by one where they are few. Written over `out`, one number a position; n in all, none where
/// the weight is 0. The same numbers as n draws of one would give, in distribution.
void multinomial(std::size_t n, std::span<const double> weights, RandomBits& random,
                 std::vector<std::size_t>& out);

}  // namespace likelihet::inference
