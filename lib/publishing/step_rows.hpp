// An account of odds as the rows of a table, few enough for a sheet. Private to the layer.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include <likelihet/colony/colony.hpp>
#include <likelihet/odds/why.hpp>

namespace likelihet::publishing {

/// Texts as they are printed, neither cut short nor escaped.
struct StepRow {
  std::string from;   ///< the day, or the first of several; "undated"; empty at the start
  std::string until;  ///< the last of several days; else empty
  /// "shed-pcr: carrier", "3 records of relatives", "4 pieces of evidence together".
  std::string what;
  /// Odds with it / odds before it, as odds::factor_in_words(). In the first row the odds that the
  /// factors multiply: "start at 1 : 3".
  std::string factor;
  std::string chance;  ///< with it, rounded down to a tenth of a percent
};

/// The start, then at most `most` (> 0) rows of evidence in the order in which it came: start odds
/// x the factors down to a row = the odds of that row's chance, but for the digits that are not
/// printed. Where there are more steps, neighbours that weigh least are one row, with the product
/// of their factors. Records that tell nothing of it, such as of another locus, are none.
std::vector<StepRow> step_rows(const colony::Colony& colony, const odds::Account& account,
                               std::size_t most);

}  // namespace likelihet::publishing
