// Up and down the junction tree.
#include <algorithm>
#include <utility>

#include <likelihet/inference/lower.hpp>
#include <likelihet/inference/pass.hpp>
#include <likelihet/inference/product.hpp>

namespace likelihet::inference {

namespace {

// Numbers that stand first to ascending positions, of which none is before its own number's.
template <class Number>
void spread_out(std::span<Number> out, std::span<const std::uint32_t> positions) {
  for (std::size_t i = positions.size(); i-- > 0;) {
    if (positions[i] != i) out[positions[i]] = std::exchange(out[i], Number{});
  }
}

}  // namespace

template <class Number>
Pass<Number>::Pass(const Plan& plan, const Loops<Number>& loops)
    : plan_(&plan),
      loops_(&loops),
      arena_(plan.arena_size(), Number(1.0)),
      sums_(plan.leaves().sums),
      scratch_(plan.largest_message()) {
  for (const FamilyPlace& place : plan.families()) {
    scratch_.resize(std::max<std::size_t>(scratch_.size(), place.table_cells));
  }
  std::size_t shares = 0;
  for (const Pattern& pattern : plan.leaves().patterns) {
    share_begin_.push_back(shares);
    shares += pattern.cells * pattern.states;
  }
  shares_.resize(shares);
  run_begin_.push_back(0);
  for (const Run& run : plan.leaves().runs) {
    run_begin_.push_back(run_begin_.back() + plan.leaves().patterns[run.pattern].states);
  }
  for (std::uint32_t r = 0; r < plan.leaves().runs.size(); ++r) {
    if (!early(plan.leaves().runs[r])) late_runs_.push_back(r);
  }
  posteriors_.resize(run_begin_.back());
}

template <class Number>
void Pass<Number>::collect_outside(std::span<const Number> values) {
  scale_ = {};
  total_ = Number(1.0);
  sum_patterns(values);
  const auto& places = plan_->families();
  for (std::uint32_t f = 0; f < places.size(); ++f) {
    if (places[f].state == FamilyPlace::State::fixed) {
      fold_family(f);
      total_ *= arena_[places[f].offset];
      scale_.normalise(&total_, 1);
    }
  }
  std::size_t since = 0;
  for (std::size_t constant : plan_->constants()) {
    total_ *= values[constant];
    if (++since % factors_between_checks == 0) scale_.normalise(&total_, 1);
  }
  scale_.normalise(&total_, 1);
}

template <class Number>
void Pass<Number>::collect(std::span<const Number> values, std::optional<Clamp> clamp) {
  collect_outside(values);
  for (std::uint32_t b = 0; b < plan_->buckets().size(); ++b) collect_bucket(values, b, clamp);
  scale_.normalise(&total_, 1);
}

template <class Number>
void Pass<Number>::propagate(std::span<const Number> values) {
  collect_outside(values);
  clear_fixed();
  share_patterns(values);
  const auto& buckets = plan_->buckets();
  std::uint32_t first = 0;  // of the tree
  std::uint32_t run = 0;
  for (std::uint32_t root = 0; root < buckets.size(); ++root) {
    collect_bucket(values, root, std::nullopt);
    if (buckets[root].parent) continue;
    for (std::uint32_t b = root + 1; b-- > first;) distribute_bucket(b);
    first = root + 1;
    run = mix_tree(run, buckets[root].message);
  }
  scale_.normalise(&total_, 1);
}

template <class Number>
void Pass<Number>::collect_bucket(std::span<const Number> values, std::uint32_t b,
                                  const std::optional<Clamp>& clamp) {
  const Bucket& bucket = plan_->buckets()[b];
  const std::size_t cells = bucket.separator_cells * bucket.states;
  Number* clique = arena_.data() + bucket.clique;
  Number* message = arena_.data() + bucket.message;
  const Shape whole = bucket.inputs_begin < bucket.inputs_end
                          ? shape(plan_->inputs()[bucket.inputs_begin].map)
                          : Shape{1, cells};
  Product<Number> product(*loops_, clique, whole, scale_);
  for (std::size_t i = bucket.inputs_begin; i < bucket.inputs_end; ++i) {
    const Input& input = plan_->inputs()[i];
    const Number* from = arena_.data() + input.offset;
    if (input.kind == Input::Kind::table) from = values.data() + input.offset;
    if (input.kind == Input::Kind::family) {
      // A family that tells nothing asks for its belief alone.
      if (plan_->leaves().families[input.source].silent()) continue;
      fold_family(input.source);
    }
    product.multiply(factor(from, input.map));
  }
  product.finish();
  if (clamp && clamp->bucket == b) {
    for (std::size_t i = 0; i < cells; ++i) {
      if (i % bucket.states != clamp->state) clique[i] = Number{};
    }
  }
  if (!loops_->sum_out(message, bucket.separator_cells, clique, bucket.states)) {
    scale_.normalise(message, bucket.separator_cells, clique, cells);
  }
  if (!bucket.parent) {
    total_ *= message[0];
    scale_.normalise(&total_, 1);
  }
}

template <class Number>
void Pass<Number>::clear_fixed() {
  const auto& places = plan_->families();
  for (std::uint32_t f = 0; f < places.size(); ++f) {
    if (places[f].state == FamilyPlace::State::fixed) arena_[places[f].offset] = Number(1.0);
  }
}

template <class Number>
void Pass<Number>::distribute() {
  clear_fixed();
  for (std::size_t b = plan_->buckets().size(); b-- > 0;) {
    distribute_bucket(static_cast<std::uint32_t>(b));
  }
}

template <class Number>
void Pass<Number>::distribute_bucket(std::uint32_t b) {
  const Bucket& bucket = plan_->buckets()[b];
  Number* clique = arena_.data() + bucket.clique;
  Number* message = arena_.data() + bucket.message;
  // The message slot now holds what the rest of the tree says, as belief / message.
  if (!bucket.parent) message[0] = divide(Number(1.0), message[0]);
  loops_->spread(clique, bucket.separator_cells, bucket.states, message);
  for (std::size_t i = bucket.inputs_begin; i < bucket.inputs_end; ++i) {
    const Input& input = plan_->inputs()[i];
    if (input.kind == Input::Kind::table) continue;
    if (input.kind == Input::Kind::family) {
      const FamilyPlace& place = plan_->families()[input.source];
      gather(clique, input.map, arena_.data() + place.table, place.table_cells);
      continue;
    }
    const Bucket& child = plan_->buckets()[input.source];
    gather(clique, input.map, scratch_.data(), child.separator_cells);
    loops_->divide_into(arena_.data() + child.message, scratch_.data(), child.separator_cells);
  }
}

template <class Number>
void Pass<Number>::marginal(Variable v, std::span<Number> out) const {
  std::fill(out.begin(), out.end(), Number{});
  const auto& domain = plan_->domain(v);
  const auto b = plan_->bucket_of(v);
  if (!b && domain.size() > 1) {
    below().marginal(plan_->lower()->variable[v], out.first(domain.size()));
    return spread_out<Number>(out, domain);
  }
  if (!b) {
    out[domain.front()] = Number(1.0);
    return;
  }
  const Bucket& bucket = plan_->buckets()[*b];
  const Number* clique = arena_.data() + bucket.clique;
  Number whole{};
  for (std::uint32_t k = 0; k < bucket.states; ++k) {
    Number sum{};
    for (std::size_t s = 0; s < bucket.separator_cells; ++s) sum += clique[s * bucket.states + k];
    out[domain[k]] = sum;
    whole += sum;
  }
  for (std::uint32_t s : domain) out[s] = divide(out[s], whole);
}

template <class Number>
void Pass<Number>::factor_belief(std::uint32_t factor, std::span<Number> out) const {
  const Network& network = plan_->network();
  std::fill(out.begin(), out.end(), Number{});
  if (plan_->barren().factor[factor]) {
    const auto cells = cells_left(*plan_, network.scope(factor));
    below().factor_belief(plan_->lower()->factor[factor], out.first(cells.size()));
    return spread_out<Number>(out, cells);
  }
  const auto& place = plan_->factor(factor);
  if (!place) {
    std::size_t cell = 0;
    for (Variable v : network.scope(factor)) {
      cell = cell * network.states(v) + plan_->domain(v).front();
    }
    out[cell] = Number(1.0);
    return;
  }
  const Bucket& bucket = plan_->buckets()[place->bucket];
  const Input& input = plan_->inputs()[place->input];
  // Input offsets count from the first of all values; states that are fixed are part of them.
  const std::size_t first = input.offset - network.offset(network.factor_table(factor));
  gather(arena_.data() + bucket.clique, input.map, out.data() + first, out.size() - first);
  Number whole{};
  for (const Number& p : out) whole += p;
  for (Number& p : out) p = divide(p, whole);
}

template class Pass<double>;
template class Pass<Lanes<8>>;
template class Pass<Extended>;

}  // namespace likelihet::inference
