// The generator's animals as a keeper's records.
#pragma once

#include <cstddef>

#include <likelihet/colony/colony.hpp>

namespace likelihet::bench {

/// A colony of so many animals, each with an appearance and one reading; `related` is the share of
/// pairings between relatives (bench/pedigree.hpp). The same every time.
colony::Colony recorded_herd(std::size_t animals, double related);

}  // namespace likelihet::bench
