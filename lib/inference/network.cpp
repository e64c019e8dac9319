// Building a network, with the checks that keep an invalid one from existing.
#include <algorithm>
#include <cmath>
#include <stdexcept>

#include <likelihet/inference/network.hpp>

namespace likelihet::inference {

namespace {
void require(bool condition, const char* what) {
  if (!condition) throw std::invalid_argument(what);
}
}  // namespace

Variable Network::add_variable(std::uint32_t states) {
  require(states >= 1, "a variable has at least one state");
  states_.push_back(states);
  return static_cast<Variable>(states_.size() - 1);
}

Table Network::add_table(std::span<const double> values) {
  for (double value : values) {
    require(std::isfinite(value) && value >= 0, "table values are finite and not negative");
  }
  values_.insert(values_.end(), values.begin(), values.end());
  table_ends_.push_back(values_.size());
  return static_cast<Table>(table_ends_.size() - 2);
}

void Network::add_factor(std::span<const Variable> scope, Table table, Role role) {
  require(role != Role::conditional || !scope.empty(), "a conditional table is of some variable");
  std::size_t cells = 1;
  for (std::size_t i = 0; i < scope.size(); ++i) {
    require(scope[i] < states_.size(), "a factor's variables exist");
    require(std::find(scope.begin(), scope.begin() + static_cast<std::ptrdiff_t>(i), scope[i]) ==
                scope.begin() + static_cast<std::ptrdiff_t>(i),
            "a factor names a variable once");
    cells *= states_[scope[i]];
  }
  require(size(table) == cells, "a factor's table fits its variables");
  scopes_.insert(scopes_.end(), scope.begin(), scope.end());
  scope_ends_.push_back(scopes_.size());
  factor_tables_.push_back(table);
  roles_.push_back(role);
}

Leaf Network::add_leaf(std::uint32_t states, Table conditional, Table evidence, bool fixed,
                       std::span<const Branch> branches) {
  require(!branches.empty(), "a leaf hangs somewhere");
  require(size(evidence) == states, "a leaf's evidence fits its states");
  for (const Branch& branch : branches) {
    require(branch.first < states_.size() && branch.second < states_.size() &&
                branch.first != branch.second,
            "a leaf hangs on two variables");
    require(!branch.guard ||
                (*branch.guard < states_.size() && branch.guard_state < states_[*branch.guard]),
            "a guard has that state");
    require(
        size(conditional) == std::size_t{states_[branch.first]} * states_[branch.second] * states,
        "a leaf's conditional table fits its variables");
    require(branches.size() == 1 || branch.guard || fixed, "branches are guarded or tell nothing");
  }
  leaves_.push_back({states, conditional, evidence, fixed});
  branches_.insert(branches_.end(), branches.begin(), branches.end());
  branch_ends_.push_back(branches_.size());
  return static_cast<Leaf>(leaves_.size() - 1);
}

}  // namespace likelihet::inference
