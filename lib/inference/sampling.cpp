// Backward sampling in the tree, forward sampling below it.
#include <algorithm>
#include <cmath>

#include <likelihet/inference/sampling.hpp>

namespace likelihet::inference {

namespace {

// In [0, 1): the 53 upper bits. std::uniform_real_distribution takes several times as long.
double unit(std::mt19937_64& random) {
  return static_cast<double>(random() >> 11U) * 0x1p-53;
}

// A position drawn in proportion to `weights`, whose sum is above 0. Inversion by sequential search
// (Devroye 1986, Non-Uniform Random Variate Generation, chapter III).
template <class Weight>
std::uint32_t pick(std::uint32_t n, Weight weight, std::mt19937_64& random) {
  double whole = 0;
  for (std::uint32_t i = 0; i < n; ++i) whole += weight(i);
  double left = unit(random) * whole;
  std::uint32_t last = 0;
  for (std::uint32_t i = 0; i < n; ++i) {
    const double w = weight(i);
    if (!(w > 0)) continue;
    last = i;
    left -= w;
    if (left < 0) break;
  }
  return last;
}

// Weights of one row relative to its largest power of two.
std::int64_t largest_exponent(const double* /*row*/, std::uint32_t /*n*/) {
  return 0;
}
std::int64_t largest_exponent(const Extended* row, std::uint32_t n) {
  std::int64_t largest = INT64_MIN;
  for (std::uint32_t i = 0; i < n; ++i) {
    if (row[i].mantissa > 0) largest = std::max(largest, row[i].exponent);
  }
  return largest;
}
double in_units(double value, std::int64_t /*unit*/) {
  return value;
}
double in_units(const Extended& value, std::int64_t unit) {
  if (!(value.mantissa > 0) || value.exponent < unit - 1100) return 0;
  return std::ldexp(value.mantissa, static_cast<int>(value.exponent - unit));
}

std::uint32_t position(const std::vector<std::uint32_t>& domain, std::uint32_t state) {
  return static_cast<std::uint32_t>(std::lower_bound(domain.begin(), domain.end(), state) -
                                    domain.begin());
}

std::uint32_t draw_leaf(const Network& network, Leaf l, std::span<const double> values,
                        const std::vector<std::uint32_t>& states, std::mt19937_64& random) {
  const auto branches = network.branches(l);
  const auto chance = [&](std::uint32_t i) {
    const Branch& branch = branches[i];
    return branch.guard && states[*branch.guard] != branch.guard_state ? 0.0 : branch.weight;
  };
  const std::uint32_t at =
      branches.size() == 1 ? 0 : pick(static_cast<std::uint32_t>(branches.size()), chance, random);
  const Branch& branch = branches[at];
  const auto& parts = network.leaf(l);
  const std::size_t cell =
      std::size_t{states[branch.first]} * network.states(branch.second) + states[branch.second];
  const double* row = values.data() + network.offset(parts.conditional) + cell * parts.states;
  const double* evidence = values.data() + network.offset(parts.evidence);
  return pick(
      parts.states, [&](std::uint32_t x) { return row[x] * evidence[x]; }, random);
}

// A factor's value with its last variable in `state`.
double value_at(const Network& network, std::uint32_t factor, std::span<const double> values,
                const std::vector<std::uint32_t>& states, std::uint32_t state) {
  const auto scope = network.scope(factor);
  std::size_t cell = 0;
  for (Variable v : scope.first(scope.size() - 1)) cell = cell * network.states(v) + states[v];
  cell = cell * network.states(scope.back()) + state;
  return values[network.offset(network.factor_table(factor)) + cell];
}

// A barren variable stands last in each of its factors.
void draw_barren(const Plan& plan, std::span<const double> values, std::mt19937_64& random,
                 std::vector<std::uint32_t>& states) {
  for (std::size_t i = 0; i < plan.barren().order.size(); ++i) {
    const Variable v = plan.barren().order[i];
    const auto& domain = plan.domain(v);
    if (domain.size() < 2) continue;
    const auto weight = [&](std::uint32_t k) {
      double product = 1;
      for (std::uint32_t f : plan.barren().factors_of(i)) {
        product *= value_at(plan.network(), f, values, states, domain[k]);
      }
      return product;
    };
    states[v] = domain[pick(static_cast<std::uint32_t>(domain.size()), weight, random)];
  }
}

}  // namespace

template <class Number>
void sample(const Plan& plan, const Pass<Number>& pass, std::span<const double> values,
            std::mt19937_64& random, Draw& draw) {
  const Network& network = plan.network();
  draw.variables.resize(network.variables());
  for (Variable v = 0; v < network.variables(); ++v) draw.variables[v] = plan.domain(v).front();
  for (std::size_t b = plan.buckets().size(); b-- > 0;) {
    const Bucket& bucket = plan.buckets()[b];
    std::size_t cell = 0;
    for (Variable v : bucket.separator) {
      cell = cell * plan.domain(v).size() + position(plan.domain(v), draw.variables[v]);
    }
    const Number* row = pass.clique(bucket).data() + cell * bucket.states;
    const std::int64_t unit = largest_exponent(row, bucket.states);
    const std::uint32_t k = pick(
        bucket.states, [&](std::uint32_t i) { return in_units(row[i], unit); }, random);
    draw.variables[bucket.variable] = plan.domain(bucket.variable)[k];
  }
  draw_barren(plan, values, random, draw.variables);
  draw.leaves.resize(network.leaves());
  for (Leaf l = 0; l < network.leaves(); ++l) {
    draw.leaves[l] = draw_leaf(network, l, values, draw.variables, random);
  }
}

template void sample(const Plan&, const Pass<double>&, std::span<const double>, std::mt19937_64&,
                     Draw&);
template void sample(const Plan&, const Pass<Extended>&, std::span<const double>, std::mt19937_64&,
                     Draw&);

Draw sample(const Plan& plan, const Pass<double>& pass, std::span<const double> values,
            std::mt19937_64& random) {
  Draw draw;
  sample(plan, pass, values, random, draw);
  return draw;
}

}  // namespace likelihet::inference
