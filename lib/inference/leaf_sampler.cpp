// Shared distributions first, then leaf by leaf.
#include <cmath>
#include <limits>

#include <likelihet/inference/leaf_sampler.hpp>
#include <likelihet/inference/pick.hpp>
#include <likelihet/inference/random_bits.hpp>

namespace likelihet::inference {

namespace {

// Adding a pair's distribution up costs about as much as drawing one leaf without.
constexpr std::size_t leaves_that_pay = 2;

std::size_t cell_of(const Network& network, const Branch& branch,
                    std::span<const std::uint32_t> states) {
  return std::size_t{states[branch.first]} * network.states(branch.second) + states[branch.second];
}

std::uint32_t draw_alone(const Network& network, Leaf l, std::span<const double> values,
                         std::span<const std::uint32_t> states, RandomBits& random) {
  const auto branches = network.branches(l);
  const auto chance = [&](std::uint32_t i) {
    const Branch& branch = branches[i];
    return branch.guard && states[*branch.guard] != branch.guard_state ? 0.0 : branch.weight;
  };
  const std::uint32_t at =
      branches.size() == 1 ? 0 : pick(static_cast<std::uint32_t>(branches.size()), chance, random);
  const auto& parts = network.leaf(l);
  const double* row = values.data() + network.offset(parts.conditional) +
                      cell_of(network, branches[at], states) * parts.states;
  const double* evidence = values.data() + network.offset(parts.evidence);
  return pick(
      parts.states, [&](std::uint32_t x) { return row[x] * evidence[x]; }, random);
}

// Whether its numbers of states fit into a LeafSampler's places.
bool fits(const Pattern& pattern) {
  return pattern.states <= UINT16_MAX && pattern.cells <= UINT16_MAX;
}

// Ends of one pair's distribution, but that of the last state. Those from the last possible state
// on are never reached, whatever rounding does.
void add_up_pair(std::uint32_t states, const double* row, const double* evidence,
                 std::uint64_t* ends) {
  double whole = 0;
  std::uint32_t last = 0;
  for (std::uint32_t x = 0; x < states; ++x) {
    const double weight = row[x] * evidence[x];
    whole += weight;
    if (weight > 0) last = x;
  }
  double sum = 0;
  for (std::uint32_t x = 0; x + 1 < states; ++x) {
    sum += row[x] * evidence[x];
    ends[x] = x < last ? static_cast<std::uint64_t>(std::ceil(sum / whole * 0x1p53))
                       : std::numeric_limits<std::uint64_t>::max();
  }
}

}  // namespace

LeafSampler::LeafSampler(const Plan& plan) : plan_(&plan) {
  const Network& network = plan.network();
  const LeafFamilies& families = plan.leaves();
  places_.resize(network.leaves());
  std::vector<std::size_t> leaves_of(families.patterns.size(), 0);
  const auto pattern_of = [&](Leaf l) { return families.runs[families.run_of[l]].pattern; };
  for (Leaf l = 0; l < network.leaves(); ++l) {
    if (network.branches(l).size() == 1) ++leaves_of[pattern_of(l)];
  }
  std::vector<std::uint32_t> ends_of(families.patterns.size(), 0);
  std::size_t ends = 0;
  for (std::uint32_t p = 0; p < families.patterns.size(); ++p) {
    const Pattern& pattern = families.patterns[p];
    const std::size_t size = pattern.cells * (pattern.states - 1);
    if (leaves_of[p] < leaves_that_pay * pattern.cells || !fits(pattern) ||
        ends + size > UINT32_MAX) {
      leaves_of[p] = 0;
      continue;
    }
    ends_of[p] = static_cast<std::uint32_t>(ends);
    shared_.push_back({p, ends_of[p]});
    ends += size;
  }
  ends_.resize(ends);
  for (Leaf l = 0; l < network.leaves(); ++l) {
    const auto branches = network.branches(l);
    if (branches.size() != 1 || leaves_of[pattern_of(l)] == 0) continue;
    const Branch& branch = branches.front();
    places_[l] = {branch.first, branch.second, ends_of[pattern_of(l)],
                  static_cast<std::uint16_t>(network.states(branch.second)),
                  static_cast<std::uint16_t>(network.leaf(l).states)};
  }
}

void LeafSampler::add_up(std::span<const double> values) {
  const Network& network = plan_->network();
  for (const Shared& shared : shared_) {
    const Pattern& pattern = plan_->leaves().patterns[shared.pattern];
    const double* row = values.data() + network.offset(pattern.conditional);
    const double* evidence = values.data() + network.offset(pattern.evidence);
    std::uint64_t* ends = ends_.data() + shared.ends;
    for (std::size_t cell = 0; cell < pattern.cells; ++cell) {
      add_up_pair(pattern.states, row, evidence, ends);
      row += pattern.states;
      ends += pattern.states - 1;
    }
  }
}

void LeafSampler::draw(std::span<const double> values, std::span<const std::uint32_t> states,
                       RandomBits& random, std::span<std::uint32_t> leaves) {
  add_up(values);
  for (Leaf l = 0; l < places_.size(); ++l) {
    const Place& place = places_[l];
    if (place.states == 0) {
      leaves[l] = draw_alone(plan_->network(), l, values, states, random);
      continue;
    }
    const std::size_t cell =
        std::size_t{states[place.first]} * place.second_states + states[place.second];
    const std::uint64_t* ends = ends_.data() + place.ends + cell * (place.states - 1U);
    const std::uint64_t at = random() >> 11U;
    std::uint32_t state = 0;
    // Counting takes no branch that the processor would have to guess. Three states are the common
    // case.
    if (place.states == 3) {
      leaves[l] = (at >= ends[0] ? 1U : 0U) + (at >= ends[1] ? 1U : 0U);
      continue;
    }
    for (std::uint32_t x = 0; x + 1U < place.states; ++x) state += at >= ends[x] ? 1U : 0U;
    leaves[l] = state;
  }
}

}  // namespace likelihet::inference
