// One run of a set of numbers through a plan: up the tree, and down again.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include <likelihet/inference/numbers.hpp>
#include <likelihet/inference/plan.hpp>

namespace likelihet::inference {

/// Holds a variable in one of the states left to it, by position in its domain.
struct Clamp {
  std::uint32_t bucket = 0;
  std::uint32_t state = 0;
};

/// Working memory for runs through one plan; after construction a run allocates nothing. `Number`
/// is double, Lanes<8> (eight sets of numbers side by side) or Extended (no underflow, slow). The
/// plan must outlive it. Shafer and Shenoy (1990) messages upwards, beliefs downwards by the
/// division of Jensen, Lauritzen and Olesen (1990).
template <class Number>
class Pass {
 public:
  explicit Pass(const Plan& plan);

  /// Multiplies and sums out everything. `values` has the layout of Network::values(). The plan
  /// must not be impossible().
  void collect(std::span<const Number> values, std::optional<Clamp> clamp = std::nullopt);
  /// Whether some number grew too small to trust in doubles, or the whole came to 0; a pass in
  /// Extended numbers settles which.
  [[nodiscard]] bool in_doubt() const { return scale_.in_doubt(); }
  /// The sum over all states of the product of everything is total() x 2^scale() x
  /// exp(plan.silent_log()).
  [[nodiscard]] const Number& total() const { return total_; }
  [[nodiscard]] const Scale<Number>& scale() const { return scale_; }

  /// After collect(): beliefs of all cliques and families. Needs total() > 0 (in each lane that is
  /// looked at).
  void distribute();
  /// After distribute(): P(variable = state | all), over the variable's full states.
  void marginal(Variable v, std::span<Number> out) const;
  /// After distribute(): the posterior of every leaf of a run, over the leaf's states.
  [[nodiscard]] std::span<const Number> run_posterior(std::uint32_t run) const {
    return {posteriors_.data() + run_begin_[run], posteriors_.data() + run_begin_[run + 1]};
  }
  void leaf_posteriors(std::span<const Number> values);

  /// Read access to a bucket's clique: after collect() the product of its inputs, after
  /// distribute() the belief; the bucket's variable fastest.
  [[nodiscard]] std::span<const Number> clique(const Bucket& bucket) const {
    return {arena_.data() + bucket.clique, bucket.separator_cells * bucket.states};
  }
  /// After distribute(): a family's belief over its cells while its guard is in its state.
  [[nodiscard]] std::span<Number> family(std::uint32_t f) {
    return {arena_.data() + plan_->families()[f].offset, plan_->families()[f].cells};
  }

 private:
  void sum_patterns(std::span<const Number> values);
  void share_patterns(std::span<const Number> values);
  template <std::uint32_t fixed>
  void add_branch(const FamilyPlace& place, const Number* shares, double weight,
                  std::span<Number> out) const;
  void fold_family(std::uint32_t f);
  void collect_bucket(std::span<const Number> values, std::uint32_t b,
                      const std::optional<Clamp>& clamp);
  void multiply(Number* clique, const Number* from, const IndexMap& map, bool first) const;
  void distribute_bucket(std::uint32_t b);
  void gather(const Number* clique, const IndexMap& map, Number* to) const;

  const Plan* plan_;
  std::vector<Number> arena_;
  std::vector<Number> sums_;     // patterns' m
  std::vector<Number> scratch_;  // one message
  std::vector<Number> shares_;   // patterns' P(leaf | pair, evidence)
  std::vector<std::size_t> share_begin_;
  std::vector<std::size_t> run_begin_;
  std::vector<Number> posteriors_;
  Number total_{};
  Scale<Number> scale_;
};

extern template class Pass<double>;
extern template class Pass<Lanes<8>>;
extern template class Pass<Extended>;

}  // namespace likelihet::inference
