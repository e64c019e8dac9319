// Peeling barren variables off the network, from below.
#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <optional>

#include <likelihet/inference/barren.hpp>
#include <likelihet/inference/common_sum.hpp>

namespace likelihet::inference {

namespace {

class Peeling {
 public:
  Peeling(const Network& network, const LeafFamilies& leaves) : network_(network) {
    sort_factors();
    count_others(leaves);
  }

  // Barren variables, children before parents, with what each multiplies the whole by.
  std::vector<std::pair<Variable, double>> run() {
    std::vector<std::pair<Variable, double>> out;
    std::vector<Variable> waiting;
    for (Variable v = 0; v < network_.variables(); ++v) {
      if (others_[v] == 0) waiting.push_back(v);
    }
    while (!waiting.empty()) {
      const Variable v = waiting.back();
      waiting.pop_back();
      const double sum = sum_of(v);
      if (!(sum > 0)) continue;
      out.emplace_back(v, sum);
      for (std::uint32_t f : own(v)) {
        for (Variable parent : network_.scope(f)) {
          if (parent != v && --others_[parent] == 0) waiting.push_back(parent);
        }
      }
    }
    return out;
  }

  // Its conditional factors, and the fixed ones over it alone.
  std::span<const std::uint32_t> own(Variable v) const {
    return std::span(own_).subspan(own_begin_[v], own_begin_[v + 1] - own_begin_[v]);
  }

 private:
  // Whose factor it is, if anyone's.
  std::optional<Variable> owner(std::size_t factor) const {
    const auto scope = network_.scope(factor);
    if (network_.role(factor) == Role::conditional) return scope.back();
    if (network_.role(factor) == Role::fixed && scope.size() == 1) return scope.front();
    return std::nullopt;
  }

  void sort_factors() {
    own_begin_.assign(network_.variables() + 1, 0);
    for (std::uint32_t f = 0; f < network_.factors(); ++f) {
      if (const auto v = owner(f)) ++own_begin_[*v + 1];
    }
    std::partial_sum(own_begin_.begin(), own_begin_.end(), own_begin_.begin());
    own_.resize(own_begin_.back());
    auto next = own_begin_;
    for (std::uint32_t f = 0; f < network_.factors(); ++f) {
      if (const auto v = owner(f)) own_[next[*v]++] = f;
    }
  }

  // Whatever else reads a variable: other factors, children, families that tell something.
  void count_others(const LeafFamilies& leaves) {
    others_.assign(network_.variables(), 0);
    for (std::size_t f = 0; f < network_.factors(); ++f) {
      const auto of = owner(f);
      for (Variable v : network_.scope(f)) {
        if (of != v) ++others_[v];
      }
    }
    for (const Family& family : leaves.families) {
      if (family.silent()) continue;
      ++others_[family.first];
      ++others_[family.second];
      if (family.guard) ++others_[*family.guard];
    }
  }

  // What summing the variable out leaves, if that is one number; else 0.
  double sum_of(Variable v) {
    std::vector<std::uint32_t> conditional;
    std::vector<Table> alone;
    for (std::uint32_t f : own(v)) {
      if (network_.role(f) == Role::conditional) {
        conditional.push_back(f);
      } else {
        alone.push_back(network_.factor_table(f));
      }
    }
    if (conditional.empty()) return 0;
    const Variable guard = network_.scope(conditional.front()).front();
    std::vector<std::uint32_t> key{network_.states(v), network_.states(guard)};
    for (std::uint32_t f : conditional) {
      if (conditional.size() > 1 && (guard == v || network_.scope(f).front() != guard)) return 0;
      key.push_back(network_.factor_table(f));
    }
    key.push_back(UINT32_MAX);
    key.insert(key.end(), alone.begin(), alone.end());
    const auto [known, fresh] = known_.try_emplace(key, 0.0);
    if (fresh) {
      std::vector<double> weights(network_.states(v), 1.0);
      for (Table table : alone) {
        for (std::size_t x = 0; x < weights.size(); ++x) weights[x] *= network_.table(table)[x];
      }
      known->second = conditional.size() == 1 ? sum_of(conditional.front(), weights)
                                              : sum_of(conditional, guard, weights);
    }
    return known->second;
  }

  double sum_of(std::uint32_t conditional, std::span<const double> weights) const {
    CommonSum sum;
    sum.add(network_.table(network_.factor_table(conditional)), weights);
    return sum.value();
  }

  // In each state of the guard all but one must be ones.
  double sum_of(std::span<const std::uint32_t> conditional, Variable guard,
                std::span<const double> weights) const {
    CommonSum sum;
    const std::vector<double> ones(weights.size(), 1.0);
    for (std::uint32_t state = 0; state < network_.states(guard); ++state) {
      std::optional<std::span<const double>> acting;
      for (std::uint32_t f : conditional) {
        const auto table = network_.table(network_.factor_table(f));
        const std::size_t size = table.size() / network_.states(guard);
        const auto rows = table.subspan(state * size, size);
        if (std::all_of(rows.begin(), rows.end(), [](double p) { return p == 1; })) continue;
        if (acting) return 0;
        acting = rows;
      }
      sum.add(acting.value_or(ones), weights);
    }
    return sum.value();
  }

  const Network& network_;
  std::vector<std::uint32_t> own_;  // factors, by owner
  std::vector<std::size_t> own_begin_;
  std::vector<std::uint32_t> others_;                   // by variable
  std::map<std::vector<std::uint32_t>, double> known_;  // sums, by states and tables
};

}  // namespace

Barren::Barren(const Network& network, const LeafFamilies& leaves) : Barren(network) {
  Peeling peeling(network, leaves);
  auto peeled = peeling.run();
  std::reverse(peeled.begin(), peeled.end());
  for (const auto& [v, sum] : peeled) {
    order.push_back(v);
    variable[v] = true;
    log_sum += std::log(sum);
    for (std::uint32_t f : peeling.own(v)) {
      factor[f] = true;
      factors_.push_back(f);
    }
    begin_.push_back(factors_.size());
  }
}

}  // namespace likelihet::inference
