// From readings of a marker to a likelihood. Markers are weak evidence that several people read;
// each step from the word read to a likelihood is a function of its own.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include <likelihet/colony/model.hpp>

namespace likelihet::odds {

/// One reading: the level read, and P(the level read is the level there). Ordered, so that the same
/// readings in another order are the same evidence.
struct Reading {
  std::size_t level = 0;
  double sure = 1;
  /// Whose reliability `sure` is, where the reading gave none of its own: learning may move it.
  std::optional<std::size_t> scorer = std::nullopt;
  friend auto operator<=>(const Reading&, const Reading&) = default;
};

/// Π over readings of r(level): `sure` where it was read, (1 - sure) / (levels - 1) elsewhere. All
/// readings look at one true level, so they multiply before the levels are summed out. Each reading
/// is virtual evidence (Pearl 1988, section 2.2.2) on the true level, an error being any other
/// level alike. One number a level, ones without readings; two sure readings of different levels
/// give zeros. `levels` is 2 or more.
std::vector<double> reading_likelihood(std::size_t levels, const std::vector<Reading>& readings);
/// Whether so many readings, or so sure ones, that their product could leave the range of a double.
bool many(const std::vector<Reading>& readings);
/// The same as reading_likelihood() over a common factor, written over `out`, the largest number
/// from 1/2 to 1; gives ln of the factor, nats, 0 for all zeros. What is below the largest by 1e300
/// stands as about 1e-300, so that no level is ruled out by rounding.
double scaled_reading_likelihood(std::size_t levels, const std::vector<Reading>& readings,
                                 std::vector<double>& out);
/// One more reading of `level`: multiplies its r(level) into `likelihood`, one number a level.
void multiply_reading(std::size_t level, double sure, std::vector<double>& likelihood);

/// Which of a marker's tables holds for an animal: 0 for its own rows, 1 + c for context c; nothing
/// where the context says that the sign cannot be read. `shows[l]` are the appearances recorded for
/// the animal at locus l. Contexts are tried in their order and the first that holds decides, also
/// where several would. A context reads what was recorded, not what is likely: an appearance that
/// nobody recorded does not count. `line` is the animal's, perhaps empty.
std::optional<std::size_t> table_in_force(const colony::Marker& marker,
                                          const std::vector<std::vector<std::size_t>>& shows,
                                          const std::string& line);

/// Rows of a table in force. `table` as table_in_force() gives it. Lives as long as the marker.
const std::vector<colony::MarkerRow>& rows_of(const colony::Marker& marker, std::size_t table);

/// The loci that some row reads, ascending. Empty where one row holds for all: the marker then
/// tells nothing of any genotype.
std::vector<std::size_t> loci_read(const std::vector<colony::MarkerRow>& rows);

/// The row that holds for each joint genotype of `loci`, the last locus fastest; one number where
/// there are none. Rows are tried in order; the last one matches every animal. `loci` ascend and
/// hold loci_read(rows). As long as the product of the loci's sizes.
std::vector<std::size_t> row_of_genotypes(const colony::Model& model,
                                          const std::vector<colony::MarkerRow>& rows,
                                          const std::vector<std::size_t>& loci);

/// L(row) = (Σ_level P(level | row) r(level))^weight for each row; weight 0 gives ones. A power of
/// a likelihood discounts evidence that repeats other evidence (Bissiri, Holmes and Walker 2016,
/// JRSS B 78:1103). `expect[r]` is P(level | row r), as believed or as drawn. The same scale for
/// every row, so only ratios matter.
std::vector<double> row_likelihood(const std::vector<std::vector<double>>& expect,
                                   const std::vector<double>& reading, double weight);
/// The same, written over `out`.
void row_likelihood(const std::vector<std::vector<double>>& expect,
                    const std::vector<double>& reading, double weight, std::vector<double>& out);

}  // namespace likelihet::odds
