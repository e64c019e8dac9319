// Leaves sorted into families (same parents) and patterns (same evidence), so that equal work is
// done once.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include <likelihet/inference/network.hpp>

namespace likelihet::inference {

/// A conditional table and an evidence table that occur together. Its sum over the leaf, m(first,
/// second) = Σ_x P(x | first, second) e(x), is what every such leaf says of its parents (Elston and
/// Stewart 1971, Human Heredity 21:523: peeling a terminal individual). Two leaves of one pattern
/// may hang on different parents; m is the same table for both.
struct Pattern {
  /// P(leaf | first, second) of the network, leaf fastest.
  Table conditional = 0;
  /// e(x) over the leaf's states: virtual evidence (Pearl 1988, Probabilistic Reasoning in
  /// Intelligent Systems, section 2.2.2), any numbers of which only ratios matter to beliefs.
  Table evidence = 0;
  std::uint32_t states = 0;
  std::size_t cells = 0;   ///< (first, second) pairs: the size of m
  std::size_t offset = 0;  ///< of m among all patterns' sums
  double silent_sum = 0;   ///< m where it is fixed and the same for every pair; else 0

  /// Tells nothing of its parents: it only multiplies the whole by silent_sum.
  [[nodiscard]] bool silent() const { return silent_sum > 0; }
};

/// So many leaves of one pattern in one family: m to the power of `count`.
struct Member {
  std::uint32_t pattern;
  std::uint32_t count;
};

/// The leaves that hang on one pair of variables under one guard; what they say multiplies. Without
/// members it tells nothing of the pair, and is there for the pair's joint belief alone, from which
/// the posterior of its silent leaves is made.
struct Family {
  Variable first = 0;
  Variable second = 0;
  /// Set where who the second parent is is itself a variable: while that is in another state the
  /// family is a factor of 1.
  std::optional<Variable> guard;
  std::uint32_t guard_state = 0;
  /// Its range in LeafFamilies::members.
  std::uint32_t members_begin = 0, members_end = 0;

  /// Nothing below it tells anything of the pair.
  [[nodiscard]] bool silent() const { return members_begin == members_end; }
};

/// Where a leaf of a run may hang. The weight is that of Branch.
struct FamilyBranch {
  std::uint32_t family = 0;
  double weight = 1;
};

/// Leaves that are alike in pattern and branches have one posterior: that of the branches, added up
/// by their weights.
struct Run {
  std::uint32_t pattern = 0;
  /// Its range in LeafFamilies::branches.
  std::uint32_t branches_begin = 0, branches_end = 0;
};

/// Patterns and families are in the order in which leaves were added, runs in that of their
/// families. About linear in leaves and branches.
struct LeafFamilies {
  std::vector<Pattern> patterns;
  std::vector<Family> families;
  std::vector<Run> runs;
  std::vector<Member> members;  ///< of patterns that tell something: family by family, by pattern
  std::vector<FamilyBranch> branches;  ///< run by run
  std::vector<std::uint32_t> run_of;   ///< by leaf
  std::size_t sums = 0;                ///< numbers in all patterns' m together
  double silent_log = 0;               ///< ln of what all silent leaves multiply the whole by, nats

  /// Reads the network's own numbers only to find silent leaves; the network is not kept.
  explicit LeafFamilies(const Network& network);

  /// Puts family order[i] in place i, with its members and its runs. `order` has every family once.
  void reorder(std::span<const std::uint32_t> order);

  [[nodiscard]] std::span<const Member> members_of(const Family& family) const {
    return std::span(members).subspan(family.members_begin,
                                      family.members_end - family.members_begin);
  }
  [[nodiscard]] std::span<const FamilyBranch> branches_of(const Run& run) const {
    return std::span(branches).subspan(run.branches_begin, run.branches_end - run.branches_begin);
  }
};

/// m of a pattern for one set of numbers, first slowest, added up in leaf order. `sums` has room
/// for pattern.cells numbers.
template <class Number>
void sum_leaf(std::span<const Number> values, const Network& network, const Pattern& pattern,
              Number* sums) {
  const Number* conditional = values.data() + network.offset(pattern.conditional);
  const Number* evidence = values.data() + network.offset(pattern.evidence);
  for (std::size_t cell = 0; cell < pattern.cells; ++cell) {
    Number total{};
    for (std::uint32_t x = 0; x < pattern.states; ++x) {
      total += conditional[cell * pattern.states + x] * evidence[x];
    }
    sums[cell] = total;
  }
}

}  // namespace likelihet::inference
