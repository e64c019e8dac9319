// Sorting leaves by parents and by evidence.
#include <algorithm>
#include <cmath>
#include <compare>
#include <numeric>
#include <span>
#include <unordered_map>

#include <likelihet/inference/common_sum.hpp>
#include <likelihet/inference/leaf_families.hpp>

namespace likelihet::inference {

namespace {

struct FamilyKey {
  Variable first, second, guard;
  std::uint32_t state;
  bool operator==(const FamilyKey&) const = default;
};
// Multiplicative hashing by the golden ratio (Knuth 1998, The Art of Computer Programming 3,
// section 6.4).
struct FamilyKeyHash {
  std::size_t operator()(const FamilyKey& key) const {
    std::uint64_t h = 0;
    for (std::uint64_t part : {std::uint64_t{key.first}, std::uint64_t{key.second},
                               std::uint64_t{key.guard}, std::uint64_t{key.state}}) {
      h = (h ^ part) * 0x9e3779b97f4a7c15ULL;
      h ^= h >> 29U;
    }
    return static_cast<std::size_t>(h);
  }
};

class Sorter {
 public:
  Sorter(const Network& network, LeafFamilies& out) : network_(network), out_(out) {}

  void sort() {
    families_.reserve(network_.leaves() / 4);
    sort_runs();
    sort_members();
  }

 private:
  std::uint32_t pattern(Leaf l) {
    const auto& leaf = network_.leaf(l);
    const std::uint64_t key = (std::uint64_t{leaf.conditional} << 32U) | leaf.evidence;
    if (key == last_pattern_.first) return last_pattern_.second;
    const auto [found, fresh] =
        patterns_.try_emplace(key, static_cast<std::uint32_t>(out_.patterns.size()));
    if (fresh) {
      Pattern made{leaf.conditional, leaf.evidence,
                   leaf.states,      network_.size(leaf.conditional) / leaf.states,
                   out_.sums,        0.0};
      if (leaf.fixed) {
        CommonSum sum;
        sum.add(network_.table(leaf.conditional), network_.table(leaf.evidence));
        made.silent_sum = sum.value();
      }
      out_.sums += made.cells;
      out_.patterns.push_back(made);
    }
    last_pattern_ = *found;
    return found->second;
  }

  std::uint32_t family(const Branch& branch) {
    const FamilyKey key{branch.first, branch.second, branch.guard ? *branch.guard + 1 : 0,
                        branch.guard_state};
    if (key == last_family_.first) return last_family_.second;
    const auto [found, fresh] =
        families_.try_emplace(key, static_cast<std::uint32_t>(out_.families.size()));
    if (fresh) {
      out_.families.push_back(
          {branch.first, branch.second, branch.guard, branch.guard_state, 0, 0});
    }
    last_family_ = *found;
    return found->second;
  }

  // Leaves family by family of their first branch, then alike ones beside one another.
  void sort_runs() {
    std::vector<std::uint32_t> pattern_of(network_.leaves());
    std::vector<std::size_t> begin{0};  // of a leaf's branches in `all`
    std::vector<FamilyBranch> all;
    all.reserve(network_.leaves());
    for (Leaf l = 0; l < network_.leaves(); ++l) {
      pattern_of[l] = pattern(l);
      for (const Branch& branch : network_.branches(l)) {
        all.push_back({family(branch), branch.weight});
      }
      begin.push_back(all.size());
    }
    const auto branches = [&](Leaf l) {
      return std::span<const FamilyBranch>(all).subspan(begin[l], begin[l + 1] - begin[l]);
    };
    const auto compare = [&](Leaf a, Leaf b) {
      if (pattern_of[a] != pattern_of[b]) return pattern_of[a] <=> pattern_of[b];
      const auto of_a = branches(a);
      const auto of_b = branches(b);
      return std::lexicographical_compare_three_way(of_a.begin(), of_a.end(), of_b.begin(),
                                                    of_b.end(), by_family_and_weight);
    };
    out_.run_of.resize(network_.leaves());
    std::vector<Leaf> leaves = by_first_family(all, begin);
    for (auto from = leaves.begin(); from != leaves.end();) {
      const auto to = std::find_if(from, leaves.end(), [&](Leaf l) {
        return branches(l).front().family != branches(*from).front().family;
      });
      std::sort(from, to, [&](Leaf a, Leaf b) {
        const auto order = compare(a, b);
        return std::is_lt(order) || (std::is_eq(order) && a < b);
      });
      for (auto at = from; at != to; ++at) {
        if (at == from || std::is_neq(compare(at[-1], *at)))
          add_run(pattern_of[*at], branches(*at));
        out_.run_of[*at] = static_cast<std::uint32_t>(out_.runs.size() - 1);
        ++alike_.back();
      }
      from = to;
    }
  }

  static std::strong_ordering by_family_and_weight(const FamilyBranch& a, const FamilyBranch& b) {
    if (a.family != b.family) return a.family <=> b.family;
    return std::strong_order(a.weight, b.weight);
  }

  std::vector<Leaf> by_first_family(const std::vector<FamilyBranch>& all,
                                    const std::vector<std::size_t>& begin) const {
    std::vector<std::size_t> next(out_.families.size() + 1, 0);
    for (Leaf l = 0; l < network_.leaves(); ++l) ++next[all[begin[l]].family + 1];
    std::partial_sum(next.begin(), next.end(), next.begin());
    std::vector<Leaf> leaves(network_.leaves());
    for (Leaf l = 0; l < network_.leaves(); ++l) leaves[next[all[begin[l]].family]++] = l;
    return leaves;
  }

  void add_run(std::uint32_t of_pattern, std::span<const FamilyBranch> branches) {
    const auto begin = static_cast<std::uint32_t>(out_.branches.size());
    out_.branches.insert(out_.branches.end(), branches.begin(), branches.end());
    out_.runs.push_back({of_pattern, begin, static_cast<std::uint32_t>(out_.branches.size())});
    alike_.push_back(0);
  }

  // Counted first, then placed, so that all stand in one piece.
  void sort_members() {
    for (const Run& run : out_.runs) {
      if (out_.patterns[run.pattern].silent()) continue;
      for (const auto& branch : out_.branches_of(run)) ++out_.families[branch.family].members_end;
    }
    std::uint32_t end = 0;
    for (Family& family : out_.families) {
      family.members_begin = end;
      end += family.members_end;
      family.members_end = family.members_begin;
    }
    out_.members.resize(end);
    for (std::uint32_t r = 0; r < out_.runs.size(); ++r) {
      const Run& run = out_.runs[r];
      const Pattern& of = out_.patterns[run.pattern];
      if (of.silent()) {
        out_.silent_log += alike_[r] * std::log(of.silent_sum);
        continue;
      }
      for (const auto& branch : out_.branches_of(run)) {
        out_.members[out_.families[branch.family].members_end++] = {run.pattern, alike_[r]};
      }
    }
  }

  static constexpr std::uint32_t none = UINT32_MAX;

  const Network& network_;
  LeafFamilies& out_;
  std::unordered_map<std::uint64_t, std::uint32_t> patterns_;
  std::unordered_map<FamilyKey, std::uint32_t, FamilyKeyHash> families_;
  // Brothers and sisters mostly stand together.
  std::pair<std::uint64_t, std::uint32_t> last_pattern_{UINT64_MAX, 0};
  std::pair<FamilyKey, std::uint32_t> last_family_{{none, none, none, none}, 0};
  std::vector<std::uint32_t> alike_;  // leaves of a run
};

}  // namespace

LeafFamilies::LeafFamilies(const Network& network) {
  Sorter(network, *this).sort();
}

void LeafFamilies::reorder(std::span<const std::uint32_t> order) {
  LeafFamilies old(*this);
  families.clear();
  members.clear();
  runs.clear();
  branches.clear();
  run_of.clear();
  std::vector<std::uint32_t> place(order.size());
  for (std::uint32_t f : order) {
    place[f] = static_cast<std::uint32_t>(families.size());
    Family family = old.families[f];
    family.members_begin = static_cast<std::uint32_t>(members.size());
    for (const Member& member : old.members_of(old.families[f])) members.push_back(member);
    family.members_end = static_cast<std::uint32_t>(members.size());
    families.push_back(family);
  }
  // Runs already stand by the family of their first branch; those of a family stay as they were.
  std::vector<std::uint32_t> begin(order.size() + 1, 0);
  const auto first_family = [&](const Run& run) { return old.branches[run.branches_begin].family; };
  for (const Run& run : old.runs) ++begin[place[first_family(run)] + 1];
  std::partial_sum(begin.begin(), begin.end(), begin.begin());
  std::vector<std::uint32_t> run_place(old.runs.size());
  std::vector<std::uint32_t> old_run(old.runs.size());
  for (std::uint32_t r = 0; r < old.runs.size(); ++r) {
    run_place[r] = begin[place[first_family(old.runs[r])]]++;
    old_run[run_place[r]] = r;
  }
  for (std::uint32_t r : old_run) {
    Run run = old.runs[r];
    run.branches_begin = static_cast<std::uint32_t>(branches.size());
    for (const auto& [family, weight] : old.branches_of(old.runs[r])) {
      branches.push_back({place[family], weight});
    }
    run.branches_end = static_cast<std::uint32_t>(branches.size());
    runs.push_back(run);
  }
  run_of.reserve(old.run_of.size());
  for (std::uint32_t r : old.run_of) run_of.push_back(run_place[r]);
}

}  // namespace likelihet::inference
