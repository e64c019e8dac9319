// Arc consistency with a work list.
#include <algorithm>
#include <deque>
#include <numeric>

#include <likelihet/inference/domains.hpp>

namespace likelihet::inference {

namespace {

// Above so many cells a constraint is not searched: it then removes nothing, which is safe.
constexpr std::size_t search_limit = std::size_t{1} << 20U;

class Propagation {
 public:
  Propagation(const Network& network, const LeafFamilies& leaves)
      : network_(network), leaves_(leaves) {
    domains_.of.resize(network.variables());
    for (Variable v = 0; v < network.variables(); ++v) {
      domains_.of[v].resize(network.states(v));
      std::iota(domains_.of[v].begin(), domains_.of[v].end(), 0U);
    }
    support_families();
    link();
  }

  // Every constraint waits once; a changed variable wakes its others (Mackworth 1977, AC-3).
  Domains run() {
    waiting_.assign(constraints(), true);
    std::deque<std::uint32_t> queue(constraints());
    std::iota(queue.begin(), queue.end(), 0U);
    while (!queue.empty() && !domains_.impossible) {
      const std::uint32_t c = queue.front();
      queue.pop_front();
      waiting_[c] = false;
      changed_.clear();
      c < network_.factors() ? revise_factor(c) : revise_family(c - network_.factors());
      for (Variable v : changed_) {
        for (std::size_t i = link_begin_[v]; i < link_begin_[v + 1]; ++i) {
          const std::uint32_t other = links_[i];
          if (other == c || waiting_[other]) continue;
          waiting_[other] = true;
          queue.push_back(other);
        }
      }
    }
    return std::move(domains_);
  }

 private:
  std::size_t constraints() const { return network_.factors() + leaves_.families.size(); }

  // The variables of a constraint: a factor's scope, or a family's pair and guard.
  std::vector<Variable> scope(std::size_t c) const {
    if (c < network_.factors()) {
      const auto s = network_.scope(c);
      return {s.begin(), s.end()};
    }
    const Family& family = leaves_.families[c - network_.factors()];
    std::vector<Variable> s{family.first, family.second};
    if (family.guard) s.push_back(*family.guard);
    return s;
  }

  void link() {
    link_begin_.assign(network_.variables() + 1, 0);
    for (std::size_t c = 0; c < constraints(); ++c) {
      for (Variable v : scope(c)) ++link_begin_[v + 1];
    }
    std::partial_sum(link_begin_.begin(), link_begin_.end(), link_begin_.begin());
    links_.resize(link_begin_.back());
    auto next = link_begin_;
    for (std::size_t c = 0; c < constraints(); ++c) {
      for (Variable v : scope(c)) links_[next[v]++] = static_cast<std::uint32_t>(c);
    }
  }

  // A pair of a family is supported where every member's sum is positive there.
  void support_families() {
    std::vector<double> sums(leaves_.sums);
    for (const Pattern& p : leaves_.patterns) {
      sum_leaf<double>(network_.values(), network_, p, sums.data() + p.offset);
    }
    family_support_.resize(leaves_.families.size());
    for (std::size_t f = 0; f < leaves_.families.size(); ++f) {
      for (const Member& member : leaves_.members_of(leaves_.families[f])) {
        const Pattern& p = leaves_.patterns[member.pattern];
        auto& support = family_support_[f];
        if (support.empty()) support.assign(p.cells, 1);
        for (std::size_t cell = 0; cell < p.cells; ++cell) {
          if (!(sums[p.offset + cell] > 0)) support[cell] = 0;
        }
      }
    }
  }

  void keep(Variable v, const std::vector<std::uint8_t>& supported) {
    auto& domain = domains_.of[v];
    const std::size_t before = domain.size();
    std::size_t kept = 0;
    for (std::size_t i = 0; i < before; ++i) {
      if (supported[i] != 0) domain[kept++] = domain[i];
    }
    domain.resize(kept);
    if (kept < before) changed_.push_back(v);
    if (kept == 0) domains_.impossible = true;
  }

  void revise_factor(std::size_t factor) {
    const auto s = network_.scope(factor);
    const auto table = network_.table(network_.factor_table(factor));
    std::size_t cells = 1;
    for (Variable v : s) cells *= domains_.of[v].size();
    if (cells > search_limit) return;
    supported_.resize(s.size());
    for (std::size_t i = 0; i < s.size(); ++i) supported_[i].assign(domains_.of[s[i]].size(), 0);
    position_.assign(s.size(), 0);
    for (std::size_t cell = 0; cell < cells; ++cell) {
      std::size_t index = 0;
      for (std::size_t i = 0; i < s.size(); ++i) {
        index = index * network_.states(s[i]) + domains_.of[s[i]][position_[i]];
      }
      if (table[index] > 0) {
        for (std::size_t i = 0; i < s.size(); ++i) supported_[i][position_[i]] = 1;
      }
      for (std::size_t i = s.size(); i-- > 0;) {
        if (++position_[i] < domains_.of[s[i]].size()) break;
        position_[i] = 0;
      }
    }
    for (std::size_t i = 0; i < s.size(); ++i) keep(s[i], supported_[i]);
  }

  void revise_family(std::size_t f) {
    const Family& family = leaves_.families[f];
    const auto& support = family_support_[f];
    if (support.empty()) return;
    if (family.guard) {
      const auto& guard = domains_.of[*family.guard];
      if (!std::binary_search(guard.begin(), guard.end(), family.guard_state)) return;
    }
    const auto& firsts = domains_.of[family.first];
    const auto& seconds = domains_.of[family.second];
    supported_.resize(std::max<std::size_t>(supported_.size(), 2));
    supported_[0].assign(firsts.size(), 0);
    supported_[1].assign(seconds.size(), 0);
    bool any = false;
    for (std::size_t i = 0; i < firsts.size(); ++i) {
      for (std::size_t j = 0; j < seconds.size(); ++j) {
        if (support[firsts[i] * network_.states(family.second) + seconds[j]] == 0) continue;
        supported_[0][i] = supported_[1][j] = 1;
        any = true;
      }
    }
    if (family.guard && domains_.of[*family.guard].size() > 1) {
      if (any) return;  // while the guard may be elsewhere, every pair stands
      const auto& guard = domains_.of[*family.guard];
      std::vector<std::uint8_t> rest(guard.size());
      for (std::size_t i = 0; i < guard.size(); ++i) rest[i] = guard[i] != family.guard_state;
      keep(*family.guard, rest);
      return;
    }
    const std::vector<std::uint8_t> second = supported_[1];
    keep(family.first, supported_[0]);
    keep(family.second, second);
  }

  const Network& network_;
  const LeafFamilies& leaves_;
  Domains domains_;
  std::vector<std::vector<std::uint8_t>> family_support_;
  std::vector<std::size_t> link_begin_;
  std::vector<std::uint32_t> links_;
  std::vector<bool> waiting_;
  std::vector<Variable> changed_;
  std::vector<std::vector<std::uint8_t>> supported_;
  std::vector<std::size_t> position_;
};

}  // namespace

Domains propagate(const Network& network, const LeafFamilies& leaves) {
  return Propagation(network, leaves).run();
}

}  // namespace likelihet::inference
