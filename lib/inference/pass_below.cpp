// Between the tree and the network below it.
#include <algorithm>
#include <stdexcept>

#include <likelihet/inference/lower.hpp>
#include <likelihet/inference/pass.hpp>

namespace likelihet::inference {

namespace {
// P(variable | separator), row by row of a clique's belief.
template <class Number>
void condition(std::span<const Number> clique, std::size_t states, Number* to) {
  for (std::size_t row = 0; row < clique.size(); row += states) {
    Number sum{};
    for (std::size_t k = row; k < row + states; ++k) sum += clique[k];
    for (std::size_t k = row; k < row + states; ++k) to[k] = divide(clique[k], sum);
  }
}
}  // namespace

template <class Number>
void Pass<Number>::fill_ties(std::span<Number> lower_values) const {
  for (const Lower::Tie& tie : plan_->lower()->ties) {
    const Bucket& bucket = plan_->buckets()[tie.bucket];
    const auto from = clique(bucket);
    Number* to = lower_values.data() + tie.offset;
    if (tie.cell.empty()) {
      condition(from, bucket.states, to);
      continue;
    }
    std::fill_n(to, tie.size, Number{});
    for (std::size_t i = 0; i < from.size(); ++i) to[tie.cell[i]] += from[i];
  }
}

template <class Number>
void Pass<Number>::look_below(const Pass& lower) {
  below_ = &lower;
  for (const auto& [f, here] : plan_->lower()->asked) {
    const auto to = family(f);
    std::fill(to.begin(), to.end(), Number{});
    const auto from = lower.family(here);
    const auto& cells = lower.plan_->cell_list(lower.plan_->families()[here].cell_list);
    for (std::size_t i = 0; i < from.size(); ++i) to[cells[i]] = from[i];
  }
}

template <class Number>
const Pass<Number>& Pass<Number>::below() const {
  if (below_ == nullptr) throw std::logic_error("nothing was run below the tree");
  return *below_;
}

template void Pass<double>::fill_ties(std::span<double>) const;
template void Pass<double>::look_below(const Pass&);
template const Pass<double>& Pass<double>::below() const;
template void Pass<Lanes<8>>::fill_ties(std::span<Lanes<8>>) const;
template void Pass<Lanes<8>>::look_below(const Pass&);
template const Pass<Lanes<8>>& Pass<Lanes<8>>::below() const;
template void Pass<Extended>::fill_ties(std::span<Extended>) const;
template void Pass<Extended>::look_below(const Pass&);
template const Pass<Extended>& Pass<Extended>::below() const;

}  // namespace likelihet::inference
