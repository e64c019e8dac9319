// Sorting leaves by parents and by evidence.
#include <algorithm>
#include <cmath>
#include <map>
#include <unordered_map>

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
    std::uint64_t h = key.first;
    for (std::uint64_t part :
         {std::uint64_t{key.second}, std::uint64_t{key.guard}, std::uint64_t{key.state}}) {
      h = (h ^ part) * 0x9e3779b97f4a7c15ULL;
      h ^= h >> 29U;
    }
    return static_cast<std::size_t>(h);
  }
};

// m where it is the same for every pair that can have a leaf at all, else 0; rounding of a few
// units in the last place is not information.
double common_sum(const Network& network, const Pattern& pattern) {
  std::vector<double> sums(pattern.cells);
  sum_leaf<double>(network.values(), network, pattern, sums.data());
  const auto conditional = network.table(pattern.conditional);
  double common = 0;
  for (std::size_t cell = 0; cell < pattern.cells; ++cell) {
    const auto row = conditional.subspan(cell * pattern.states, pattern.states);
    if (std::all_of(row.begin(), row.end(), [](double p) { return p <= 0; })) continue;
    if (common <= 0) common = sums[cell];
    if (!(std::abs(sums[cell] - common) <= 8e-16 * common)) return 0;
  }
  return common;
}

class Sorter {
 public:
  Sorter(const Network& network, LeafFamilies& out) : network_(network), out_(out) {}

  void sort() {
    out_.run_of.resize(network_.leaves());
    for (Leaf l = 0; l < network_.leaves(); ++l) out_.run_of[l] = run(l);
    std::vector<std::uint32_t> members(out_.runs.size(), 0);
    for (std::uint32_t r : out_.run_of) ++members[r];
    for (std::uint32_t r = 0; r < out_.runs.size(); ++r) {
      const Pattern& of = out_.patterns[out_.runs[r].pattern];
      if (of.silent()) {
        out_.silent_log += members[r] * std::log(of.silent_sum);
        continue;
      }
      for (const auto& [family, weight] : out_.runs[r].branches) {
        out_.families[family].members.push_back({out_.runs[r].pattern, members[r]});
      }
    }
  }

 private:
  std::uint32_t pattern(Leaf l) {
    const auto& leaf = network_.leaf(l);
    const std::uint64_t key = (std::uint64_t{leaf.conditional} << 32U) | leaf.evidence;
    const auto [found, fresh] =
        patterns_.try_emplace(key, static_cast<std::uint32_t>(out_.patterns.size()));
    if (fresh) {
      Pattern made{leaf.conditional, leaf.evidence,
                   leaf.states,      network_.size(leaf.conditional) / leaf.states,
                   out_.sums,        0.0};
      if (leaf.fixed) made.silent_sum = common_sum(network_, made);
      out_.sums += made.cells;
      out_.patterns.push_back(made);
    }
    return found->second;
  }

  std::uint32_t family(const Branch& branch) {
    const FamilyKey key{branch.first, branch.second, branch.guard ? *branch.guard + 1 : 0,
                        branch.guard_state};
    const auto [found, fresh] =
        families_.try_emplace(key, static_cast<std::uint32_t>(out_.families.size()));
    if (fresh) {
      out_.families.push_back({branch.first, branch.second, branch.guard, branch.guard_state, {}});
    }
    return found->second;
  }

  std::uint32_t run(Leaf l) {
    const std::uint32_t of_pattern = pattern(l);
    std::vector<std::pair<std::uint32_t, double>> branches;
    for (const Branch& branch : network_.branches(l)) {
      branches.emplace_back(family(branch), branch.weight);
    }
    if (branches.size() == 1 && branches.front().second == 1.0) {
      const std::uint64_t key = (std::uint64_t{branches.front().first} << 32U) | of_pattern;
      const auto [found, fresh] =
          single_runs_.try_emplace(key, static_cast<std::uint32_t>(out_.runs.size()));
      if (fresh) out_.runs.push_back({of_pattern, std::move(branches)});
      return found->second;
    }
    const auto [found, fresh] = forked_runs_.try_emplace(
        {of_pattern, branches}, static_cast<std::uint32_t>(out_.runs.size()));
    if (fresh) out_.runs.push_back({of_pattern, std::move(branches)});
    return found->second;
  }

  const Network& network_;
  LeafFamilies& out_;
  std::unordered_map<std::uint64_t, std::uint32_t> patterns_;
  std::unordered_map<FamilyKey, std::uint32_t, FamilyKeyHash> families_;
  std::unordered_map<std::uint64_t, std::uint32_t> single_runs_;
  std::map<std::pair<std::uint32_t, std::vector<std::pair<std::uint32_t, double>>>, std::uint32_t>
      forked_runs_;
};

}  // namespace

LeafFamilies::LeafFamilies(const Network& network) {
  Sorter(network, *this).sort();
}

}  // namespace likelihet::inference
