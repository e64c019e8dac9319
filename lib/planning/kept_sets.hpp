// The chances of sets of clutch-mates together, not one by one.
#pragma once

#include <cstddef>
#include <map>
#include <vector>

#include <likelihet/planning/keep_goal.hpp>
#include <likelihet/planning/supposed_book.hpp>

namespace likelihet::planning {

/// P(none of a set meets the goal), of any set out of some animals, through one plan: the sum of
/// everything with the set's genotypes held to those that do not meet it, over the sum without.
/// Siblings share parents, so this is not the product of their chances. Each set is worked out
/// once; animals whose odds are alike whatever is supposed stand for each other.
class KeptSets {
 public:
  /// Animals of the book, in an order of theirs; `alike[i]` equals `alike[j]` where i and j may
  /// stand for each other. The book must have room at the goal's locus for each, and outlive this.
  KeptSets(const SupposedBook& book, const KeepGoal& goal, std::vector<std::size_t> animals,
           std::vector<std::size_t> alike);

  /// Positions among the animals, ascending.
  using Set = std::vector<std::size_t>;

  /// P(this one meets the goal).
  [[nodiscard]] double chance(std::size_t position) const { return chances_[position]; }
  /// Works these out together, eight a pass.
  void prepare(const std::vector<Set>& sets);
  /// P(none meets it); 1 for the empty set.
  [[nodiscard]] double none(const Set& set);
  /// P(exactly 0, 1, ... of them meet it). 2^size sums: for small sets.
  [[nodiscard]] std::vector<double> counts(const Set& set) const;
  /// The set's likeness: two sets of one likeness have the same chances.
  [[nodiscard]] std::vector<std::size_t> likeness(const Set& set) const;

 private:
  [[nodiscard]] odds::Supposition held(std::size_t position, bool meets) const;

  const SupposedBook* book_;
  const KeepGoal* goal_;
  std::vector<std::size_t> animals_;
  std::vector<std::size_t> alike_;
  std::vector<double> chances_;
  std::map<std::vector<std::size_t>, double> none_;  // by likeness
};

}  // namespace likelihet::planning
