// Leaves: what they say of their parents, and what the tree then says of them.
#include <algorithm>
#include <type_traits>

#include <likelihet/inference/pass.hpp>
#include <likelihet/inference/product.hpp>

namespace likelihet::inference {

template <class Number>
void Pass<Number>::sum_patterns(std::span<const Number> values) {
  for (const Pattern& pattern : plan_->leaves().patterns) {
    sum_leaf<Number>(values, plan_->network(), pattern, sums_.data() + pattern.offset);
  }
  if constexpr (std::is_same_v<Number, double>) {
    sums_at_most_two_ =
        std::all_of(sums_.begin(), sums_.end(), [](double sum) { return sum <= 2; });
  }
}

// P(x | pair of the parents' states, evidence), in place of what the evidence says of the pair: the
// same for all leaves of the pattern.
template <class Number>
void Pass<Number>::share_patterns(std::span<const Number> values) {
  const Network& network = plan_->network();
  Number* share = shares_.data();
  for (const Pattern& pattern : plan_->leaves().patterns) {
    const Number* conditional = values.data() + network.offset(pattern.conditional);
    const Number* evidence = values.data() + network.offset(pattern.evidence);
    loops_->share(share, pattern.cells, pattern.states, conditional, evidence,
                  sums_.data() + pattern.offset);
    share += pattern.cells * pattern.states;
  }
}

template <class Number>
bool Pass<Number>::early(const Run& run) const {
  const auto branches = plan_->leaves().branches_of(run);
  return branches.size() == 1 &&
         plan_->families()[branches.front().family].state == FamilyPlace::State::live;
}

// Live families stand in the arena tree by tree, and runs in the order of their first families, the
// live ones first.
template <class Number>
std::uint32_t Pass<Number>::mix_tree(std::uint32_t run, std::size_t end) {
  const LeafFamilies& leaves = plan_->leaves();
  for (; run < leaves.runs.size(); ++run) {
    const std::uint32_t family = leaves.branches[leaves.runs[run].branches_begin].family;
    const FamilyPlace& place = plan_->families()[family];
    if (place.state != FamilyPlace::State::live || place.offset >= end) break;
    if (early(leaves.runs[run])) mix(run);
  }
  return run;
}

template <class Number>
void Pass<Number>::late_posteriors() {
  for (std::uint32_t run : late_runs_) mix(run);
}

template <class Number>
void Pass<Number>::mix(std::uint32_t run) {
  const Run& of = plan_->leaves().runs[run];
  branches_.clear();
  for (const auto& [family, weight] : plan_->leaves().branches_of(of)) {
    const FamilyPlace& place = plan_->families()[family];
    if (place.state == FamilyPlace::State::dead) continue;
    const auto& row = plan_->cell_list(place.cell_list);
    branches_.push_back({arena_.data() + place.offset, row.data(), row.size(), weight});
  }
  loops_->mix(posteriors_.data() + run_begin_[run], run_begin_[run + 1] - run_begin_[run],
              shares_.data() + share_begin_[of.pattern], branches_.data(), branches_.size());
}

template void Pass<double>::sum_patterns(std::span<const double>);
template void Pass<double>::share_patterns(std::span<const double>);
template bool Pass<double>::early(const Run&) const;
template std::uint32_t Pass<double>::mix_tree(std::uint32_t, std::size_t);
template void Pass<double>::late_posteriors();
template void Pass<double>::mix(std::uint32_t);
template void Pass<Lanes<8>>::sum_patterns(std::span<const Lanes<8>>);
template void Pass<Lanes<8>>::share_patterns(std::span<const Lanes<8>>);
template bool Pass<Lanes<8>>::early(const Run&) const;
template std::uint32_t Pass<Lanes<8>>::mix_tree(std::uint32_t, std::size_t);
template void Pass<Lanes<8>>::late_posteriors();
template void Pass<Lanes<8>>::mix(std::uint32_t);
template void Pass<Extended>::sum_patterns(std::span<const Extended>);
template void Pass<Extended>::share_patterns(std::span<const Extended>);
template bool Pass<Extended>::early(const Run&) const;
template std::uint32_t Pass<Extended>::mix_tree(std::uint32_t, std::size_t);
template void Pass<Extended>::late_posteriors();
template void Pass<Extended>::mix(std::uint32_t);

}  // namespace likelihet::inference
