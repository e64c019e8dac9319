// The generator's animals as a keeper's records.
#pragma once

#include <cstddef>
#include <cstdint>

#include <likelihet/colony/colony.hpp>

namespace likelihet::bench {

/// `related` is the share of pairings between relatives (bench/pedigree.hpp). The same every time.
struct HerdShape {
  std::size_t animals = 0;
  double related = 0;
  std::uint64_t seed = 753;
  std::size_t markers = 1;  ///< "crown-fleck", then "marker-2", "marker-3", ...
  bool results = false;     ///< whether a tenth of the animals were tested
  bool scorer = true;       ///< whether "ana", who may err, read them; else they are sure
};

/// Invented tables for so many markers, some telling much and some little: "tarnbrook", "shed-pcr",
/// "ana".
colony::ModelDescription herd_model(std::size_t markers);

/// Each animal with an appearance and a reading of each marker.
colony::Records herd_records(const HerdShape& shape);

/// One marker and no results.
colony::Colony recorded_herd(std::size_t animals, double related);

/// The colony of herd_model() and herd_records().
colony::Colony recorded_herd(const HerdShape& shape);

}  // namespace likelihet::bench
