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
  for (const Member& member : plan_->leaves().families[f].members) {
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

template <class Number>
void Pass<Number>::leaf_posteriors(std::span<const Number> values) {
  const Network& network = plan_->network();
  const LeafFamilies& leaves = plan_->leaves();
  for (std::size_t r = 0; r < leaves.runs.size(); ++r) {
    const Pattern& pattern = leaves.patterns[leaves.runs[r].pattern];
    const Number* conditional = values.data() + network.offset(pattern.conditional);
    const Number* evidence = values.data() + network.offset(pattern.evidence);
    const Number* sums = sums_.data() + pattern.offset;
    Number* out = posteriors_.data() + run_begin_[r];
    std::fill_n(out, pattern.states, Number{});
    for (const auto& [family, weight] : leaves.runs[r].branches) {
      const FamilyPlace& place = plan_->families()[family];
      if (place.state == FamilyPlace::State::dead) continue;
      const auto& cells = plan_->cell_list(place.cell_list);
      const Number* belief = arena_.data() + place.offset;
      for (std::size_t c = 0; c < cells.size(); ++c) {
        const Number* row = conditional + std::size_t{cells[c]} * pattern.states;
        const Number share = divide(belief[c], sums[cells[c]]);
        const Number scaled = weight == 1.0 ? share : share * Number(weight);
        for (std::uint32_t x = 0; x < pattern.states; ++x) out[x] += row[x] * scaled;
      }
    }
    Number whole{};
    for (std::uint32_t x = 0; x < pattern.states; ++x) {
      out[x] *= evidence[x];
      whole += out[x];
    }
    for (std::uint32_t x = 0; x < pattern.states; ++x) out[x] = divide(out[x], whole);
  }
}

template void Pass<double>::sum_patterns(std::span<const double>);
template void Pass<double>::fold_family(std::uint32_t);
template void Pass<double>::leaf_posteriors(std::span<const double>);
template void Pass<Lanes<8>>::sum_patterns(std::span<const Lanes<8>>);
template void Pass<Lanes<8>>::fold_family(std::uint32_t);
template void Pass<Lanes<8>>::leaf_posteriors(std::span<const Lanes<8>>);
template void Pass<Extended>::sum_patterns(std::span<const Extended>);
template void Pass<Extended>::fold_family(std::uint32_t);
template void Pass<Extended>::leaf_posteriors(std::span<const Extended>);

}  // namespace likelihet::inference
