// Backward sampling in the tree, forward sampling below it.
#include <algorithm>
#include <cmath>

#include <likelihet/inference/pick.hpp>
#include <likelihet/inference/random_bits.hpp>
#include <likelihet/inference/sampling.hpp>

namespace likelihet::inference {

namespace {

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
void draw_barren(const Plan& plan, std::span<const double> values, RandomBits& random,
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

Sampler::Sampler(const Plan& plan)
    : plan_(&plan), leaves_(plan), positions_(plan.network().variables(), 0) {}

template <class Number>
void Sampler::draw(const Pass<Number>& pass, std::span<const double> values, RandomBits& random,
                   Draw& out) {
  const Network& network = plan_->network();
  out.variables.resize(network.variables());
  for (Variable v = 0; v < network.variables(); ++v) out.variables[v] = plan_->domain(v).front();
  for (std::size_t b = plan_->buckets().size(); b-- > 0;) {
    const Bucket& bucket = plan_->buckets()[b];
    std::size_t cell = 0;
    for (Variable v : bucket.separator) cell = cell * plan_->domain(v).size() + positions_[v];
    const Number* row = pass.clique(bucket).data() + cell * bucket.states;
    const std::int64_t unit = largest_exponent(row, bucket.states);
    const std::uint32_t k = pick(
        bucket.states, [&](std::uint32_t i) { return in_units(row[i], unit); }, random);
    positions_[bucket.variable] = k;
    out.variables[bucket.variable] = plan_->domain(bucket.variable)[k];
  }
  draw_barren(*plan_, values, random, out.variables);
  out.leaves.resize(network.leaves());
  leaves_.draw(values, out.variables, random, out.leaves);
}

template void Sampler::draw(const Pass<double>&, std::span<const double>, RandomBits&, Draw&);
template void Sampler::draw(const Pass<Extended>&, std::span<const double>, RandomBits&, Draw&);

}  // namespace likelihet::inference
