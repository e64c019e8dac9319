// Whether a claim still stands, by what the book holds now.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include <likelihet/publishing/claim.hpp>
#include <likelihet/publishing/listing.hpp>

namespace likelihet::publishing {

/// What became of one published number.
enum class ClaimState : std::uint8_t {
  current,
  too_high,         ///< later evidence puts the chance below what was published
  too_low,          ///< above it
  basis_withdrawn,  ///< a record that its reason names was taken back, or its label has lapsed
  /// It counted markers, and the book's tables were not learned from its present records: whether
  /// it is current is told after learning.
  not_learned,
};

/// One number, then and now.
struct NumberState {
  std::size_t number = 0;  ///< a position among the claim's
  ClaimState state = ClaimState::current;
  std::string now;                     ///< the headline that the book gives today
  double value = 0;                    ///< today's number before rounding
  std::vector<std::string> withdrawn;  ///< ids of observations it rested on that count no longer
  /// The same in words, for those who have no book: "a look of H0301 (2025-08-14)".
  std::vector<std::string> taken_back;
};

/// What became of a claim, one entry a number. `now` must be the listing of the claim's animal.
/// A number is current while today's, before rounding, lies in the range that was published: from
/// its lower end to less than a step above its upper end. A certain one is while it is certain. A
/// number without markers is held against today's without markers, and is too high as well where
/// markers count by now and point below it.
std::vector<NumberState> states_of(const Claim& claim, const colony::Colony& colony,
                                   const Listing& now, bool learned);

/// Whether all of them are current. Not where any is not_learned.
bool all_current(const std::vector<NumberState>& numbers);
/// Whether any is out of date: too high, too low, or its basis withdrawn.
bool out_of_date(const std::vector<NumberState>& numbers);

/// The correction to send to whoever was told: what was said and when, what holds now and why, in
/// plain words. Only for a claim that is out of date; sentences of one paragraph each.
std::vector<std::string> correction(const Claim& claim, const std::string& code,
                                    const std::vector<NumberState>& numbers);

/// "current", "too-high", "too-low", "basis-withdrawn", "not-learned".
std::string_view word_of(ClaimState state);

}  // namespace likelihet::publishing
