// Forecasts with outcomes, as properties and worst cases take them.
#pragma once

#include <vector>

#include <rapidcheck.h>

#include <likelihet/audit/score.hpp>

namespace likelihet::audit {

using Cases = std::vector<Case>;

/// Any number of cases, none too, of a few different forecasts (0 and 1 among them, and many ties)
/// in up to five clusters. Outcomes are 0 or 1, or also quarters between.
inline rc::Gen<Cases> random_cases(bool in_part = false) {
  const auto of = [in_part](const std::tuple<int, int, int>& drawn) {
    const auto [forecast, outcome, cluster] = drawn;
    return Case{forecast / 20.0, in_part ? outcome / 4.0 : outcome % 2,
                static_cast<std::size_t>(cluster)};
  };
  return rc::gen::container<Cases>(rc::gen::map(
      rc::gen::tuple(rc::gen::inRange(0, 21), rc::gen::inRange(0, 5), rc::gen::inRange(0, 5)), of));
}

/// `count` cases of one forecast, the first `events` of them so, each its own cluster from `first`.
inline void add(Cases& cases, double forecast, int count, int events, std::size_t first = 0) {
  for (int i = 0; i < count; ++i) {
    cases.push_back({forecast, i < events ? 1.0 : 0.0, first + static_cast<std::size_t>(i)});
  }
}

}  // namespace likelihet::audit
