// From barren variables to a network of their own.
#include <algorithm>
#include <map>
#include <numeric>
#include <set>
#include <utility>
#include <variant>

#include <likelihet/inference/lower.hpp>

namespace likelihet::inference {

namespace {

// Shared copies of the tree are not questioned up to so many times the numbers of the tree...
constexpr std::size_t shared_factor = 8;
// ...and never below so many.
constexpr std::size_t least_questioned = std::size_t{1} << 18U;

class LowerMaker {
 public:
  LowerMaker(const Plan& tree, bool shared) : tree_(tree), main_(tree.network()), shared_(shared) {
    made_->variable.assign(main_.variables(), Lower::none);
    made_->factor.assign(main_.factors(), Lower::none);
    tree_of_.resize(tree.buckets().size());
    for (auto b = static_cast<std::uint32_t>(tree_of_.size()); b-- > 0;) {
      const auto parent = tree.buckets()[b].parent;
      tree_of_[b] = parent ? tree_of_[*parent] : b;
    }
  }

  std::shared_ptr<const Lower> make(std::size_t memory_bytes) {
    connect();
    for (Variable v : tree_.barren().order) made_->variable[v] = copy(group(v), v);
    add_factors();
    const auto leaves = add_leaves();
    for (const auto& [group_and_tree, buckets] : hangs_on_) tie(group_and_tree.first, buckets);
    auto planned = Plan::make(made_->network, memory_bytes);
    if (!std::holds_alternative<Plan>(planned)) return nullptr;
    made_->plan = std::get<Plan>(std::move(planned));
    for (std::size_t i = 0; i < leaves.size(); ++i) {
      const LeafFamilies& here = made_->plan->leaves();
      const Run& run = here.runs[here.run_of[leaves[i]]];
      made_->asked[i].here = here.branches_of(run).front().family;
    }
    return std::move(made_);
  }

 private:
  // Barren variables that stand in one factor or family are of one group.
  void connect() {
    group_.resize(main_.variables());
    std::iota(group_.begin(), group_.end(), Variable{0});
    for (std::uint32_t f = 0; f < main_.factors(); ++f) {
      if (tree_.barren().factor[f]) join(main_.scope(f));
    }
    for (std::uint32_t f = 0; f < tree_.families().size(); ++f) {
      if (below(f)) join(scope(tree_.leaves().families[f]));
    }
  }

  void join(std::span<const Variable> scope) {
    std::optional<Variable> first;
    for (Variable v : scope) {
      if (!tree_.barren().variable[v]) continue;
      if (first) group_[root(v)] = root(*first);
      first = v;
    }
  }

  Variable root(Variable v) {
    while (group_[v] != v) v = group_[v] = group_[group_[v]];
    return v;
  }

  Variable group(Variable barren) { return shared_ ? 0 : root(barren); }

  Variable group(std::span<const Variable> scope) {
    return group(*std::find_if(scope.begin(), scope.end(),
                               [&](Variable v) { return tree_.barren().variable[v]; }));
  }

  bool below(std::uint32_t family) const {
    return tree_.families()[family].state == FamilyPlace::State::below;
  }

  static std::vector<Variable> scope(const Family& family) {
    std::vector<Variable> out{family.first, family.second};
    if (family.guard) out.push_back(*family.guard);
    return out;
  }

  Variable copy(Variable group, Variable v) {
    const auto [found, fresh] = copies_.try_emplace({group, v}, Variable{0});
    if (fresh) {
      found->second =
          made_->network.add_variable(static_cast<std::uint32_t>(tree_.domain(v).size()));
    }
    return found->second;
  }

  // Copies that need the tree's belief.
  std::vector<Variable> hang(Variable group, std::span<const Variable> scope) {
    std::vector<Variable> out;
    for (Variable v : scope) {
      out.push_back(copy(group, v));
      if (const auto bucket = tree_.bucket_of(v)) {
        hangs_on_[{group, tree_of_[*bucket]}].insert(*bucket);
      }
    }
    return out;
  }

  void add_factors() {
    for (std::uint32_t f = 0; f < main_.factors(); ++f) {
      if (!tree_.barren().factor[f]) continue;
      const auto scope = main_.scope(f);
      made_->factor[f] = static_cast<std::uint32_t>(made_->network.factors());
      made_->network.add_factor(hang(group(scope), scope), table(main_.factor_table(f), scope));
    }
  }

  // The numbers of a table for the states that are left.
  Table table(Table main, std::span<const Variable> scope) {
    const auto cells = cells_left(tree_, scope);
    const auto [found, fresh] = tables_.try_emplace({main, cells}, Table{0});
    if (fresh) {
      std::vector<double> numbers;
      numbers.reserve(cells.size());
      for (std::uint32_t cell : cells) numbers.push_back(main_.table(main)[cell]);
      found->second = made_->network.add_table(numbers);
    }
    return found->second;
  }

  // A leaf of one state asks for the joint belief of its parents and tells nothing.
  std::vector<Leaf> add_leaves() {
    std::vector<Leaf> leaves;
    const Table one = made_->network.add_table(std::vector<double>{1.0});
    for (std::uint32_t f = 0; f < tree_.families().size(); ++f) {
      if (!below(f)) continue;
      const Family& family = tree_.leaves().families[f];
      const auto of = scope(family);
      const auto here = hang(group(of), of);
      Branch branch{here[0], here[1], std::nullopt, 0, 1.0};
      if (family.guard) {
        const auto& states = tree_.domain(*family.guard);
        const auto at = std::lower_bound(states.begin(), states.end(), family.guard_state);
        branch.guard = here[2];
        branch.guard_state = static_cast<std::uint32_t>(at - states.begin());
      }
      leaves.push_back(made_->network.add_leaf(1, ones(tree_.families()[f].cells), one, true,
                                               std::span(&branch, 1)));
      made_->asked.push_back({f, 0});
    }
    return leaves;
  }

  Table ones(std::size_t size) {
    const auto [found, fresh] = ones_.try_emplace(size, Table{0});
    if (fresh) found->second = made_->network.add_table(std::vector<double>(size, 1.0));
    return found->second;
  }

  // Upwards from the lowest, since children stand before parents, until one bucket is left: it has
  // all the others below it.
  void tie(Variable group, std::set<std::uint32_t> buckets) {
    while (buckets.size() > 1) {
      const std::uint32_t lowest = *buckets.begin();
      buckets.erase(buckets.begin());
      buckets.insert(*tree_.buckets()[lowest].parent);
      tie_conditional(group, lowest);
    }
    tie_belief(group, *buckets.begin());
  }

  // P(variable | separator).
  void tie_conditional(Variable group, std::uint32_t bucket) {
    std::vector<Variable> here;
    for (Variable v : clique(bucket)) here.push_back(copy(group, v));
    std::size_t cells = 1;
    for (Variable v : here) cells *= made_->network.states(v);
    add_tie(bucket, here, cells, {});
  }

  // P of those in the clique that are asked for here.
  void tie_belief(Variable group, std::uint32_t bucket) {
    std::vector<Variable> here;
    std::vector<std::uint32_t> cell{0};
    std::size_t cells = 1;
    for (Variable v : clique(bucket)) {
      const auto known = copies_.find({group, v});
      const auto states = static_cast<std::uint32_t>(tree_.domain(v).size());
      std::vector<std::uint32_t> longer;
      longer.reserve(cell.size() * states);
      for (std::uint32_t base : cell) {
        for (std::uint32_t s = 0; s < states; ++s) {
          longer.push_back(known == copies_.end() ? base : base * states + s);
        }
      }
      cell = std::move(longer);
      if (known == copies_.end()) continue;
      here.push_back(known->second);
      cells *= states;
    }
    add_tie(bucket, here, cells, std::move(cell));
  }

  std::vector<Variable> clique(std::uint32_t bucket) const {
    std::vector<Variable> out = tree_.buckets()[bucket].separator;
    out.push_back(tree_.buckets()[bucket].variable);
    return out;
  }

  void add_tie(std::uint32_t bucket, std::span<const Variable> scope, std::size_t cells,
               std::vector<std::uint32_t> cell) {
    const Table table = made_->network.add_table(std::vector<double>(cells, 1.0));
    made_->network.add_factor(scope, table);
    made_->ties.push_back({bucket, made_->network.offset(table), cells, std::move(cell)});
  }

  const Plan& tree_;
  const Network& main_;
  bool shared_;
  std::shared_ptr<Lower> made_ = std::make_shared<Lower>();
  std::vector<Variable> group_;         // by main variable: another of its group, or itself
  std::vector<std::uint32_t> tree_of_;  // by bucket: its root
  // Those asked for here, by group and tree.
  std::map<std::pair<Variable, std::uint32_t>, std::set<std::uint32_t>> hangs_on_;
  std::map<std::pair<Variable, Variable>, Variable> copies_;  // by group and main variable
  std::map<std::pair<Table, std::vector<std::uint32_t>>, Table> tables_;
  std::map<std::size_t, Table> ones_;
};

}  // namespace

std::shared_ptr<const Lower> make_lower(const Plan& tree, std::size_t memory_bytes) {
  const auto size = [](const Lower& lower) { return lower.plan->arena_size(); };
  auto shared = LowerMaker(tree, true).make(memory_bytes);
  if (shared && size(*shared) <= std::max(least_questioned, shared_factor * tree.arena_size())) {
    return shared;
  }
  auto apart = LowerMaker(tree, false).make(memory_bytes);
  return shared && (!apart || size(*shared) <= size(*apart)) ? shared : apart;
}

std::vector<std::uint32_t> cells_left(const Plan& plan, std::span<const Variable> scope) {
  std::vector<std::uint32_t> cells{0};
  for (Variable v : scope) {
    std::vector<std::uint32_t> longer;
    longer.reserve(cells.size() * plan.domain(v).size());
    for (std::uint32_t base : cells) {
      for (std::uint32_t s : plan.domain(v)) {
        longer.push_back(base * plan.network().states(v) + s);
      }
    }
    cells = std::move(longer);
  }
  return cells;
}

}  // namespace likelihet::inference
