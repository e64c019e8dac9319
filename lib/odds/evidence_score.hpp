// From readings of a marker to a likelihood.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include <likelihet/colony/model.hpp>

namespace likelihet::odds {

/// One reading: the level read, and P(the level read is the level there).
struct Reading {
  std::size_t level = 0;
  double sure = 1;
  friend auto operator<=>(const Reading&, const Reading&) = default;
};

/// Π over readings of r(level): `sure` where it was read, (1 - sure) / (levels - 1) elsewhere. All
/// readings look at one true level, so they multiply before the levels are summed out.
std::vector<double> reading_likelihood(std::size_t levels, const std::vector<Reading>& readings);

/// Which of a marker's tables holds for an animal: 0 for its own rows, 1 + c for context c; nothing
/// where the context says that the sign cannot be read. `shows[l]` are the appearances recorded for
/// the animal at locus l.
std::optional<std::size_t> table_in_force(const colony::Marker& marker,
                                          const std::vector<std::vector<std::size_t>>& shows,
                                          const std::string& line);

/// Rows of a table in force.
const std::vector<colony::MarkerRow>& rows_of(const colony::Marker& marker, std::size_t table);

/// The loci that some row reads, ascending.
std::vector<std::size_t> loci_read(const std::vector<colony::MarkerRow>& rows);

/// The row that holds for each joint genotype of loci_read(rows), the last locus fastest; one
/// number where no row reads a locus. Rows are tried in order; the last one matches every animal.
std::vector<std::size_t> row_of_genotypes(const colony::Model& model,
                                          const std::vector<colony::MarkerRow>& rows);

/// L(row) = (Σ_level P(level | row) r(level))^weight for each row; weight 0 gives ones. A power of
/// a likelihood discounts evidence that repeats other evidence (Bissiri, Holmes and Walker 2016,
/// JRSS B 78:1103).
std::vector<double> row_likelihood(const std::vector<std::vector<double>>& expect,
                                   const std::vector<double>& reading, double weight);

}  // namespace likelihet::odds
