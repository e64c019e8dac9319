// What an odds computation is asked for.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>

#include <likelihet/colony/date.hpp>

namespace likelihet::odds {

struct Options {
  std::optional<colony::Date> as_of;                ///< nothing: all that is recorded counts
  std::size_t memory_bytes = std::size_t{2} << 30;  ///< the most that exact inference may take
  unsigned draws =
      1000;  ///< draws of the tables behind each interval; 0: intervals are [mean, mean]
  std::uint64_t seed = 1;  ///< of those draws
  bool surprises = true;   ///< whether to look for them
};

}  // namespace likelihet::odds
