// Leaves: what they say of their parents, and what the tree then says of them.
#include <algorithm>

#include <likelihet/inference/pass.hpp>

namespace likelihet::inference {

namespace {
constexpr std::uint32_t leaves_between_checks = 4;
}

template <class Number>
void Pass<Number>::sum_patterns(std::span<const Number> values) {
  for (const Pattern& pattern : plan_->leaves().patterns) {
    sum_leaf<Number>(values, plan_->network(), pattern, sums_.data() + pattern.offset);
  }
}

// The product of what the members say, cell by cell. Where a guard may be in other states the cells
// of its state keep their true size beside the ones.
template <class Number>
void Pass<Number>::fold_family(std::uint32_t f) {
  const FamilyPlace& place = plan_->families()[f];
  const auto& cells = plan_->cell_list(place.cell_list);
  Number* table = arena_.data() + place.table;
  Number* product = arena_.data() + place.offset;
  const bool guarded = place.table_cells > place.cells;
  if (guarded) std::fill_n(table, place.table_cells, Number(1.0));
  std::fill_n(product, place.cells, Number(1.0));
  Scale<Number> own;
  std::uint32_t since = 0;
  const LeafFamilies& leaves = plan_->leaves();
  for (const Member& member : leaves.members_of(leaves.families[f])) {
    const Number* sums = sums_.data() + plan_->leaves().patterns[member.pattern].offset;
    for (std::uint32_t n = 0; n < member.count; ++n) {
      for (std::size_t c = 0; c < cells.size(); ++c) product[c] *= sums[cells[c]];
      if (++since % leaves_between_checks == 0) own.normalise(product, place.cells);
    }
  }
  own.normalise(product, place.cells);
  if (guarded) {
    own.put_back(product, place.cells);
    scale_.add(own.doubt());
  } else {
    scale_.add(own);
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
    const Number* sums = sums_.data() + pattern.offset;
    for (std::size_t cell = 0; cell < pattern.cells; ++cell) {
      for (std::uint32_t x = 0; x < pattern.states; ++x) {
        *share++ = divide(conditional[cell * pattern.states + x] * evidence[x], sums[cell]);
      }
    }
  }
}

// Adds weight x belief of each pair x P(x | pair). `fixed` is the number of states where the
// compiler is to know it.
template <class Number>
template <std::uint32_t fixed>
void Pass<Number>::add_branch(const FamilyPlace& place, const Number* shares, double weight,
                              std::span<Number> out) const {
  const std::size_t states = fixed != 0 ? fixed : out.size();
  const auto& cells = plan_->cell_list(place.cell_list);
  const Number* belief = arena_.data() + place.offset;
  for (std::size_t c = 0; c < cells.size(); ++c) {
    const Number* share = shares + std::size_t{cells[c]} * states;
    const Number weighted = weight == 1.0 ? belief[c] : belief[c] * Number(weight);
    for (std::size_t x = 0; x < states; ++x) out[x] += share[x] * weighted;
  }
}

template <class Number>
void Pass<Number>::leaf_posteriors(std::span<const Number> values) {
  share_patterns(values);
  const LeafFamilies& leaves = plan_->leaves();
  for (std::size_t r = 0; r < leaves.runs.size(); ++r) {
    const std::span<Number> out(posteriors_.data() + run_begin_[r],
                                run_begin_[r + 1] - run_begin_[r]);
    const Number* shares = shares_.data() + share_begin_[leaves.runs[r].pattern];
    std::fill(out.begin(), out.end(), Number{});
    for (const auto& [family, weight] : leaves.branches_of(leaves.runs[r])) {
      const FamilyPlace& place = plan_->families()[family];
      if (place.state == FamilyPlace::State::dead) continue;
      if (out.size() == 3) {
        add_branch<3>(place, shares, weight, out);
      } else {
        add_branch<0>(place, shares, weight, out);
      }
    }
    Number whole{};
    for (const Number& p : out) whole += p;
    const Number one = divide(Number(1.0), whole);
    for (Number& p : out) p *= one;
  }
}

template void Pass<double>::sum_patterns(std::span<const double>);
template void Pass<double>::fold_family(std::uint32_t);
template void Pass<double>::share_patterns(std::span<const double>);
template void Pass<double>::leaf_posteriors(std::span<const double>);
template void Pass<Lanes<8>>::sum_patterns(std::span<const Lanes<8>>);
template void Pass<Lanes<8>>::fold_family(std::uint32_t);
template void Pass<Lanes<8>>::share_patterns(std::span<const Lanes<8>>);
template void Pass<Lanes<8>>::leaf_posteriors(std::span<const Lanes<8>>);
template void Pass<Extended>::sum_patterns(std::span<const Extended>);
template void Pass<Extended>::fold_family(std::uint32_t);
template void Pass<Extended>::share_patterns(std::span<const Extended>);
template void Pass<Extended>::leaf_posteriors(std::span<const Extended>);

}  // namespace likelihet::inference
