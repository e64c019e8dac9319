// Whole runs, and the fall-back to numbers without underflow.
#include <limits>
#include <map>
#include <stdexcept>

#include <likelihet/inference/engine.hpp>
#include <likelihet/inference/lower.hpp>

namespace likelihet::inference {

namespace {

std::vector<Extended> widen(std::span<const double> values) {
  std::vector<Extended> wide;
  wide.reserve(values.size());
  for (double value : values) wide.emplace_back(value);
  return wide;
}

template <class Number>
double log_of_whole(const Plan& plan, const Pass<Number>& pass) {
  return log_of(pass.total(), pass.scale()) + plan.silent_log();
}

template <class Number>
Beliefs read(const Plan& plan, const Pass<Number>& pass) {
  const Network& network = plan.network();
  Beliefs out;
  out.possible = true;
  out.log_evidence = log_of_whole(plan, pass);
  out.variable_begin.push_back(0);
  std::vector<Number> state;
  for (Variable v = 0; v < network.variables(); ++v) {
    state.assign(network.states(v), Number{});
    pass.marginal(v, state);
    for (const Number& p : state) out.variables.push_back(as_double(p));
    out.variable_begin.push_back(out.variables.size());
  }
  out.run_begin.push_back(0);
  for (std::uint32_t r = 0; r < plan.leaves().runs.size(); ++r) {
    for (const Number& p : pass.run_posterior(r)) out.leaves.push_back(as_double(p));
    out.run_begin.push_back(out.leaves.size());
  }
  return out;
}

bool above_zero(const Extended& value) {
  return value.mantissa > 0;
}

}  // namespace

template <class Number>
Runner<Number>::Runner(const Plan& plan, const Loops<Number>& loops)
    : plan_(&plan), pass_(plan, loops) {
  if (plan.impossible()) throw std::invalid_argument("nothing can run through an impossible plan");
  for (const FamilyPlace& place : plan.families()) {
    if (place.state == FamilyPlace::State::outside && !clamped_) {
      clamped_ = std::make_unique<Pass<Number>>(plan, loops);
    }
  }
  if (const Lower* lower = plan.lower()) {
    lower_ = std::make_unique<Runner>(*lower->plan, loops);
    const auto& values = lower->network.values();
    lower_values_.reserve(values.size());
    for (double value : values) lower_values_.emplace_back(value);
  }
}

template <class Number>
bool Runner<Number>::run(std::span<const Number> values) {
  pass_.propagate(values);
  if (pass_.in_doubt()) return false;
  if (clamped_) believe_outside(values);
  if (lower_ && !believe_below()) return false;
  pass_.late_posteriors();
  return true;
}

// P(first, second) for pairs that share no clique, as P(first = i) P(second | first = i): a run
// with the first held for each of its states serves all its partners.
template <class Number>
void Runner<Number>::believe_outside(std::span<const Number> values) {
  std::map<Variable, std::vector<std::uint32_t>> by_first;
  for (std::uint32_t f = 0; f < plan_->families().size(); ++f) {
    if (plan_->families()[f].state != FamilyPlace::State::outside) continue;
    by_first[plan_->leaves().families[f].first].push_back(f);
  }
  const Network& network = plan_->network();
  std::vector<Number> first;
  std::vector<Number> second;
  for (const auto& [v, families] : by_first) {
    first.assign(network.states(v), Number{});
    pass_.marginal(v, first);
    const auto& domain = plan_->domain(v);
    for (std::uint32_t i = 0; i < domain.size(); ++i) {
      clamped_->collect(values, Clamp{*plan_->bucket_of(v), i});
      clamped_->distribute();
      for (std::uint32_t f : families) {
        const Variable partner = plan_->leaves().families[f].second;
        second.assign(network.states(partner), Number{});
        clamped_->marginal(partner, second);
        const auto& partner_domain = plan_->domain(partner);
        auto cells = pass_.family(f);
        for (std::size_t j = 0; j < partner_domain.size(); ++j) {
          cells[i * partner_domain.size() + j] = first[domain[i]] * second[partner_domain[j]];
        }
      }
    }
  }
}

template <class Number>
bool Runner<Number>::believe_below() {
  pass_.fill_ties(lower_values_);
  if (!lower_->run(lower_values_)) return false;
  pass_.look_below(lower_->pass());
  return true;
}

Beliefs infer(const Plan& plan, std::span<const double> values) {
  if (plan.impossible()) return {};
  Runner<double> quick(plan);
  if (quick.run(values)) return read(plan, quick.pass());
  const auto wide = widen(values);
  Runner<Extended> slow(plan);
  slow.run(wide);
  if (!above_zero(slow.pass().total())) return {};
  return read(plan, slow.pass());
}

double log_evidence(const Plan& plan, std::span<const double> values) {
  constexpr double nothing = -std::numeric_limits<double>::infinity();
  if (plan.impossible()) return nothing;
  Pass<double> quick(plan);
  quick.collect(values);
  if (!quick.in_doubt()) return log_of_whole(plan, quick);
  const auto wide = widen(values);
  Pass<Extended> slow(plan);
  slow.collect(wide);
  if (!above_zero(slow.total())) return nothing;
  return log_of_whole(plan, slow);
}

template class Runner<double>;
template class Runner<Lanes<8>>;
template class Runner<Extended>;

}  // namespace likelihet::inference
