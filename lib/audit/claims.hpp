// Published percentages held against what came true: a claim is a forecast like any other.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include <likelihet/audit/curves.hpp>
#include <likelihet/audit/forecast.hpp>

namespace likelihet::audit {

/// One published number: that an animal has exactly one copy of an allele, with a probability from
/// `low` to `high`.
struct Claimed {
  std::string code;
  Event event;
  double low = 0, high = 0;  ///< equal where one number was published
  colony::Date on;           ///< the day it was published

  /// What it is scored as: the middle of the range.
  [[nodiscard]] double probability() const { return (low + high) / 2; }
};

/// A claim whose truth became known after the day it was published.
struct ClaimResolved {
  std::size_t claim = 0;  ///< a position in the claims given
  std::size_t truth = 0;  ///< a position in Forecasts::truths
};

/// Everything that was published, and what came of it. A claim counts as it was made, also where it
/// was withdrawn or another took its place later: a record that forgets its mistakes is none.
struct ClaimCheck {
  std::size_t made = 0;
  std::size_t known_already = 0;        ///< whose truth was known by the day they were published
  std::size_t open = 0;                 ///< whose truth is not known yet
  std::vector<ClaimResolved> resolved;  ///< by day of publication, then code, then event
  double expected = 0;                  ///< hets among the resolved, by what was published
  double observed = 0;                  ///< each outcome with its own probability
  std::optional<double> brier;          ///< of the resolved; nothing where there is none
  /// Ten bands of 10 %, those without a resolved claim left out. An animal that was published in
  /// one band more than once, for one allele, counts in it once.
  std::vector<Band> bands;
};

ClaimCheck check_claims(const std::vector<Claimed>& claims, const Forecasts& forecasts);

}  // namespace likelihet::audit
