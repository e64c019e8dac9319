// A discrete network: variables, factors, and the many small leaves that hang from pairs of them.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace likelihet::inference {

/// Numbers from 0 in the order of adding; each of the three counts by itself.
using Variable = std::uint32_t;
using Table = std::uint32_t;
using Leaf = std::uint32_t;

/// Where a leaf may hang: on the pair (first, second), and where `guard` is set only while that
/// variable is in `guard_state`. `weight` multiplies the branch; it may differ from 1 only on a
/// leaf without evidence, where no variable tells the branches apart. A guard makes the pair matter
/// in one context only (context-specific independence: Boutilier et al. 1996, Uncertainty in
/// Artificial Intelligence 12:115).
struct Branch {
  Variable first = 0;
  Variable second = 0;
  std::optional<Variable> guard;
  std::uint32_t guard_state = 0;
  double weight = 1;
};

/// What is known of a factor beside its numbers. A variable whose conditional factors are all that
/// speaks of it tells nothing and stays out of the tree (barren.hpp).
enum class Role : std::uint8_t {
  open,   ///< any set of numbers may change it
  fixed,  ///< no set of numbers changes it
  /// Fixed, and P(the last of its scope | the others), where combinations of the others for which
  /// the table is all zeros are ruled out elsewhere. A variable may have several such factors, each
  /// for one state of a guard that stands first in all of them, and ones in its other states.
  conditional,
};

/// The structure of p(x) ∝ Π factors × Π leaves, and one set of numbers for it. Many sets of
/// numbers can go through one structure: `values()` is one flat array, and another array of the
/// same layout is another set.
///
/// A leaf is a variable of its own, known only through a conditional table P(leaf | first, second)
/// and an evidence table over its states; the engine sums it out before anything else, so a hundred
/// thousand leaves cost no more than their sums. Guarded branches of one leaf exclude each other:
/// while the guard is in another state the branch is a factor of 1. Grows only and is not
/// normalised: p(x) is whatever is given over its sum.
class Network {
 public:
  /// A variable with so many states (>= 1). Throws std::invalid_argument on 0.
  Variable add_variable(std::uint32_t states);
  /// Numbers (>= 0, finite) for factors to share; throws std::invalid_argument on others. A table
  /// knows no variables: factors and leaves that have the same numbers should name the same table,
  /// which lets equal work be done once.
  Table add_table(std::span<const double> values);
  /// A factor over `scope` (no repeats), its table's last variable fastest. Throws
  /// std::invalid_argument if the table's size is not the product of the states. Also throws for a
  /// variable that does not exist or stands twice. A table of zeros is allowed: the network is then
  /// impossible. An empty scope takes a table of one number, which multiplies the whole.
  /// Throws for a conditional factor over nothing, too. A false role makes beliefs wrong.
  void add_factor(std::span<const Variable> scope, Table table, Role role = Role::open);
  /// A leaf with `states` states. `conditional` is over (first, second, leaf), leaf fastest;
  /// `evidence` over the leaf's states. `fixed` says that no set of numbers changes this evidence,
  /// and that pairs for which the conditional table is all zeros are ruled out elsewhere: where its
  /// sum over the leaf is then the same for every other pair, the leaf tells nothing and never
  /// enters the tree. Throws std::invalid_argument without a branch, for a branch on one variable
  /// twice, for tables or guards that do not fit, and for several branches without guards on a leaf
  /// that is not fixed.
  Leaf add_leaf(std::uint32_t states, Table conditional, Table evidence, bool fixed,
                std::span<const Branch> branches);

  [[nodiscard]] std::size_t variables() const { return states_.size(); }
  [[nodiscard]] std::uint32_t states(Variable v) const { return states_[v]; }
  [[nodiscard]] std::size_t factors() const { return factor_tables_.size(); }
  /// In the order given to add_factor(), the last fastest in the table.
  [[nodiscard]] std::span<const Variable> scope(std::size_t factor) const {
    return {scopes_.data() + scope_ends_[factor], scopes_.data() + scope_ends_[factor + 1]};
  }
  [[nodiscard]] Table factor_table(std::size_t factor) const { return factor_tables_[factor]; }
  [[nodiscard]] Role role(std::size_t factor) const { return roles_[factor]; }

  /// A leaf as it was added; `states` is that of its evidence table.
  struct LeafParts {
    std::uint32_t states;
    Table conditional;
    Table evidence;
    bool fixed;
  };
  [[nodiscard]] std::size_t leaves() const { return leaves_.size(); }
  [[nodiscard]] const LeafParts& leaf(Leaf l) const { return leaves_[l]; }
  /// At least one. Like all spans here, good until the network grows.
  [[nodiscard]] std::span<const Branch> branches(Leaf l) const {
    return {branches_.data() + branch_ends_[l], branches_.data() + branch_ends_[l + 1]};
  }

  /// The numbers of all tables, one after the other.
  [[nodiscard]] const std::vector<double>& values() const { return values_; }
  /// Where the table's first number stands in any array of the layout of values().
  [[nodiscard]] std::size_t offset(Table table) const { return table_ends_[table]; }
  [[nodiscard]] std::size_t size(Table table) const {
    return table_ends_[table + 1] - table_ends_[table];
  }
  [[nodiscard]] std::span<const double> table(Table table) const {
    return {values_.data() + offset(table), size(table)};
  }

 private:
  std::vector<std::uint32_t> states_;
  std::vector<Variable> scopes_;
  std::vector<std::size_t> scope_ends_{0};
  std::vector<Table> factor_tables_;
  std::vector<Role> roles_;
  std::vector<LeafParts> leaves_;
  std::vector<Branch> branches_;
  std::vector<std::size_t> branch_ends_{0};
  std::vector<double> values_;
  std::vector<std::size_t> table_ends_{0};
};

}  // namespace likelihet::inference
