// Streams of random numbers that have nothing to do with one another.
#pragma once

#include <cstdint>
#include <random>

#include <likelihet/inference/random_bits.hpp>

namespace likelihet::learning {

/// What a stream is for. Two purposes of one seed, and two numbers of one purpose, share no draws.
enum class Purpose : std::uint32_t { starts, chain_starts, chains, dependence, simulation };

/// The generator of a seed, all 64 bits of it, for a purpose; `number` tells chains apart.
inline inference::RandomBits random_stream(std::uint64_t seed, Purpose purpose,
                                           std::uint64_t number = 0) {
  std::seed_seq words{static_cast<std::uint32_t>(seed), static_cast<std::uint32_t>(seed >> 32U),
                      static_cast<std::uint32_t>(purpose), static_cast<std::uint32_t>(number),
                      static_cast<std::uint32_t>(number >> 32U)};
  return inference::RandomBits(words);
}

}  // namespace likelihet::learning
