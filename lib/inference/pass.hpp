// One run of a set of numbers through a plan: up the tree, and down again.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include <likelihet/inference/loops.hpp>
#include <likelihet/inference/numbers.hpp>
#include <likelihet/inference/plan.hpp>

namespace likelihet::inference {

/// Holds a variable in one of the states left to it, by position in its domain. What turns a belief
/// about everything into one given that state. All cells of the other states count as 0 for that
/// run.
struct Clamp {
  std::uint32_t bucket = 0;
  /// Position among Plan::domain(), not the state itself.
  std::uint32_t state = 0;
};

/// Working memory for runs through one plan; after construction a run allocates nothing. `Number`
/// is double, Lanes<8> (eight sets of numbers side by side) or Extended (no underflow, slow). The
/// plan must outlive it. Shafer and Shenoy (1990) messages upwards, beliefs downwards by the
/// division of Jensen, Lauritzen and Olesen (1990).
template <class Number>
class Pass {
 public:
  /// Allocates all memory at once: the arena, one message, and the leaves' sums and posteriors,
  /// each number as wide as `Number`. Eight lanes take eight times the memory of doubles, and run
  /// on the widest instructions of the processor unless told to use others by lane_loops().
  explicit Pass(const Plan& plan, const Loops<Number>& loops = inference::loops<Number>());

  /// Multiplies and sums out everything. `values` has the layout of Network::values(). The plan
  /// must not be impossible(). Overwrites what the last run left; nothing needs clearing between
  /// runs.
  void collect(std::span<const Number> values, std::optional<Clamp> clamp = std::nullopt);
  /// Whether some number grew too small to trust in doubles, or the whole came to 0; a pass in
  /// Extended numbers settles which.
  [[nodiscard]] bool in_doubt() const { return scale_.in_doubt(); }
  /// The sum over all states of the product of everything is total() x 2^scale() x
  /// exp(plan.silent_log()).
  [[nodiscard]] const Number& total() const { return total_; }
  [[nodiscard]] const Scale<Number>& scale() const { return scale_; }

  /// After collect(): beliefs of all cliques and families. Needs total() > 0 (in each lane that is
  /// looked at). The cells of each clique then sum to 1 but for rounding, which marginal() divides
  /// out. Once for each collect(), since it writes over the messages.
  void distribute();
  /// collect() and distribute() in one, and run_posterior() of most runs: the same numbers to the
  /// last bit, but each tree goes up, down and to its leaves while it is in the cache. Where it is
  /// then in_doubt(), or total() is 0, no belief may be read.
  void propagate(std::span<const Number> values);
  /// The run_posterior() that propagate() left: of runs whose leaves may hang in several places, or
  /// on a pair whose belief is put in through family().
  void late_posteriors();
  /// After distribute(), or propagate(): P(variable = state | all), over the variable's full
  /// states. A state outside Plan::domain() gets 0; a variable with one state left gets 1 there. Of
  /// a barren variable only after look_below(), else throws std::logic_error.
  void marginal(Variable v, std::span<Number> out) const;
  /// After propagate() and late_posteriors(): the posterior of every leaf of a run, over the leaf's
  /// states.
  [[nodiscard]] std::span<const Number> run_posterior(std::uint32_t run) const {
    return {posteriors_.data() + run_begin_[run], posteriors_.data() + run_begin_[run + 1]};
  }
  /// After distribute(): P(a factor's variables | all), over the cells of its table. As marginal()
  /// for factors of barren variables.
  void factor_belief(std::uint32_t factor, std::span<Number> out) const;

  /// After distribute() or propagate(): what the lower network takes from the tree, into its set of
  /// numbers (layout of the lower Network::values()). Only for plans with a lower network.
  void fill_ties(std::span<Number> lower_values) const;
  /// Where the beliefs of barren variables stand from now on: a finished run through the plan of
  /// Plan::lower() with those numbers, which must outlive this. Takes over the beliefs of families
  /// that hang on barren variables, for late_posteriors().
  void look_below(const Pass& lower);

  /// Read access to a bucket's clique: after collect() the product of its inputs, after
  /// distribute() the belief; the bucket's variable fastest.
  [[nodiscard]] std::span<const Number> clique(const Bucket& bucket) const {
    return {arena_.data() + bucket.clique, bucket.separator_cells * bucket.states};
  }
  /// After distribute(): a family's belief over its cells while its guard is in its state.
  /// Writable, since beliefs of pairs that share no clique are put in from outside. Index: first
  /// slowest, over the states left to both.
  [[nodiscard]] std::span<Number> family(std::uint32_t f) {
    return {arena_.data() + plan_->families()[f].offset, plan_->families()[f].cells};
  }
  [[nodiscard]] std::span<const Number> family(std::uint32_t f) const {
    return {arena_.data() + plan_->families()[f].offset, plan_->families()[f].cells};
  }

 private:
  // m of every pattern for these numbers (Elston and Stewart 1971, peeling from below).
  void sum_patterns(std::span<const Number> values);
  // P(x | pair, evidence) of every pattern, worked out once however many leaves share it.
  void share_patterns(std::span<const Number> values);
  // Whether the run's posterior needs only the family of its first branch, in the tree.
  [[nodiscard]] bool early(const Run& run) const;
  // The early ones from `run` on whose families stand before `end` in the arena; the next run.
  std::uint32_t mix_tree(std::uint32_t run, std::size_t end);
  void mix(std::uint32_t run);
  // Product of m over a family's members, into its place in the arena.
  void fold_family(std::uint32_t f);
  // The same at once for a small family in doubles, as nearly all are, to the last bit. False where
  // it is none, or where its product is out of range.
  bool fold_small_family(std::uint32_t f);
  // The same with an exponent for each cell.
  void fold_large_family(std::uint32_t f, Scale<Number>& own);
  // The same with one exponent for all cells.
  void fold_in_one(std::uint32_t f, Scale<Number>& own);
  [[nodiscard]] std::uint32_t members_in(std::uint32_t f) const;
  // All that is not in a bucket, into total_.
  void collect_outside(std::span<const Number> values);
  void clear_fixed();
  void collect_bucket(std::span<const Number> values, std::uint32_t b,
                      const std::optional<Clamp>& clamp);
  [[nodiscard]] Factor<Number> factor(const Number* from, const IndexMap& map) const {
    return {from, plan_->maps().list(map.outer).data(), plan_->maps().list(map.inner).data()};
  }
  [[nodiscard]] Shape shape(const IndexMap& map) const {
    return {plan_->maps().list(map.outer).size(), plan_->maps().list(map.inner).size()};
  }
  void distribute_bucket(std::uint32_t b);
  // The lower pass; throws where there is none yet.
  [[nodiscard]] const Pass& below() const;
  // Adds a clique's cells up into a smaller table of `n` cells.
  void gather(const Number* clique, const IndexMap& map, Number* to, std::size_t n) const {
    loops_->gather(to, n, clique, shape(map), factor(nullptr, map));
  }

  const Plan* plan_;
  const Loops<Number>* loops_;
  const Pass* below_ = nullptr;
  std::vector<Number> arena_;
  std::vector<Number> sums_;  // patterns' m
  bool sums_at_most_two_ = false;
  std::vector<Number> scratch_;  // one message
  std::vector<Number> shares_;   // patterns' P(leaf | pair, evidence)
  std::vector<std::size_t> share_begin_;
  std::vector<std::size_t> run_begin_;
  std::vector<std::uint32_t> late_runs_;
  std::vector<WeightedBelief<Number>> branches_;  // of one run
  std::vector<Number> posteriors_;
  Number total_{};
  Scale<Number> scale_;
};

extern template class Pass<double>;
extern template class Pass<Lanes<8>>;
extern template class Pass<Extended>;

}  // namespace likelihet::inference
