// Tables as one list of numbers, and what each of them is.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include <likelihet/odds/tables.hpp>

namespace likelihet::learning {

/// Every entry of a set of tables: rows (marker, table, row, level, the last fastest), then origins
/// (origin, locus, allele), then scorers, then loadings (group, marker).
std::vector<double> flat(const odds::Tables& tables);

/// The other way, into the shape of `like`.
odds::Tables unflattened(std::span<const double> numbers, odds::Tables like);

/// What an entry of flat() is. Positions in the model.
struct Parameter {
  enum class Kind : std::uint8_t { row, origin, scorer, loading };
  Kind kind = Kind::row;
  std::size_t of = 0;     ///< marker, origin, scorer or group
  std::size_t table = 0;  ///< of a marker: 0 for its own rows, 1 + c for context c
  std::size_t row = 0;    ///< of a table; of an origin: the locus
  std::size_t entry = 0;  ///< level or allele; of a group: the marker, by its place there
  bool open = false;      ///< whether learning may move it
};

/// One for each entry of flat(), in its order.
std::vector<Parameter> parameters(const colony::Model& model);

}  // namespace likelihet::learning
