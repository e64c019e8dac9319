// Which events' truth became known, when, and by what.
#pragma once

#include <variant>
#include <vector>

#include <likelihet/audit/forecast.hpp>
#include <likelihet/odds/odds.hpp>

namespace likelihet::audit {

/// What counts as known, from everything but markers.
struct TruthSettings {
  double yes = 0.99;  ///< P(one copy) of this or more is a carrier; in (0.5, 1]
  double no = 0.01;   ///< of this or less is none; in [0, 0.5)
  std::optional<colony::Date> as_of;
  std::uint64_t seed = 1;  ///< of the draws of tables behind forecasts
  std::size_t memory_bytes = std::size_t{2} << 30U;
};

/// Every event known in the end, by day (empty first), then event. `known_on` is the first day
/// whose records made the event known at all, even if a later record turned it. Records that were
/// withdrawn in the end still counted on the days before.
///
/// `kind` is that of the records new on that day, the first of: a result on the animal at the locus
/// (test); its look at the locus (visual); a brood of it, or any record of its descendants
/// (breeding); else relatives. A network is built for every day on which anything but a score was
/// recorded.
std::variant<std::vector<Truth>, odds::Contradiction, odds::TooLarge> truths(
    const colony::Colony& colony, const TruthSettings& settings);

}  // namespace likelihet::audit
