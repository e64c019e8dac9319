// Which hatchlings of a clutch to keep.
#pragma once

#include <cstddef>
#include <optional>
#include <variant>
#include <vector>

#include <likelihet/planning/kept_sets.hpp>

namespace likelihet::planning {

/// The defaults are those of the command line.
struct HoldbackQuestion {
  SupposedQuestion book;
  std::size_t clutch = 0;
  KeepGoal goal;
  std::size_t keep = 1;     ///< the most; 1 or more
  std::size_t females = 0;  ///< at least so many of those kept
  std::size_t males = 0;
  std::size_t exact = 20'000;  ///< the most sets of one size that are all looked at
};

struct Hatchling {
  std::size_t animal = 0;
  std::optional<genetics::Sex> sex;  ///< as recorded; those without can't count as either
  double chance = 0;                 ///< of meeting the goal
};

/// The best set of one size.
struct Kept {
  std::vector<std::size_t> animals;  ///< by id
  /// P(at least one meets the goal); where sexes are asked: at least one of each sex asked for.
  double chance = 0;
  double product = 0;    ///< the same were the animals independent: what to compare with
  double expected = 0;   ///< how many meet it, on average
  bool searched = true;  ///< every set of the size was looked at
};

struct Holdbacks {
  std::vector<Hatchling> hatchlings;  ///< of the clutch, likeliest first, then by id
  /// By size, from the least that can hold the sexes asked for to `keep`. Empty: no set can.
  std::vector<Kept> sizes;
  /// P(exactly 0, 1, ... of the largest meet the goal); empty above `most_counted` animals.
  std::vector<double> counts;
  /// What greedy choice is sure of, where some size was not searched: 1 - 1/e, whether it began
  /// with nothing or with the best set of j (which has j/k of the best of k, and so no less than j
  /// steps of greedy choice are sure of). Nothing where sexes are asked for, since then one animal
  /// may be worth more beside another.
  std::optional<double> guarantee;
};

inline constexpr std::size_t most_counted = 10;

/// For each size the set of hatchlings with the best chance that at least one meets the goal, from
/// the joint odds of siblings: all sets of the size are looked at where there are at most `exact`,
/// animals that are alike in all records counted once; else one animal at a time is taken that adds
/// most (P(at least one) is a coverage function, so Nemhauser, Wolsey and Fisher 1978, Mathematical
/// Programming 14:265 holds). Of sets with equal chances the one that expects more, then the one
/// whose ids come first. `goal.meets` must fit the model.
std::variant<Holdbacks, odds::Contradiction, odds::TooLarge> holdbacks(
    const colony::Colony& colony, const HoldbackQuestion& question);

}  // namespace likelihet::planning
