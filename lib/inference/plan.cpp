// From a network to an elimination order.
#include <algorithm>

#include <likelihet/inference/lower.hpp>
#include <likelihet/inference/plan_maker.hpp>

namespace likelihet::inference {

namespace {
// A clique and its message, in doubles.
constexpr double bytes_a_cell = 12.0;
// Positions in index lists have 32 bits.
constexpr double most_cells = UINT32_MAX;
// Joining the parents of silent leaves in a clique is worth this many times the cells without...
constexpr double request_factor = 8.0;
// ...and is never questioned below so many cells.
constexpr double request_cells = 1U << 18U;
}  // namespace

std::size_t Plan::whole_size() const {
  return arena_ + (lower_ ? lower_->network.values().size() + lower_->plan->whole_size() : 0);
}

std::variant<Plan, TooBig> Plan::make(const Network& network, std::size_t memory_bytes) {
  return PlanMaker(network, memory_bytes, true).make();
}

PlanMaker::PlanMaker(const Network& network, std::size_t memory_bytes, bool peel)
    : network_(network),
      memory_bytes_(memory_bytes),
      cell_limit_(std::min(static_cast<double>(memory_bytes) / bytes_a_cell, most_cells)),
      plan_(network, LeafFamilies(network), peel) {}

std::variant<Plan, TooBig> PlanMaker::make() {
  if (plan_.impossible()) return std::move(plan_);
  number_free_variables();
  classify_families();
  auto ordered = order();
  if (const auto* wide = std::get_if<TooWide>(&ordered)) return too_big(*wide);
  make_buckets(std::get<Elimination>(ordered));
  if (plan_.barren_.order.empty()) return std::move(plan_);
  const auto used = static_cast<std::size_t>(bytes_a_cell * std::get<Elimination>(ordered).cells);
  plan_.lower_ = make_lower(plan_, memory_bytes_ - std::min(memory_bytes_, used));
  // One elimination of everything may do with less than two.
  if (!plan_.lower_) return PlanMaker(network_, memory_bytes_, false).make();
  return std::move(plan_);
}

void PlanMaker::number_free_variables() {
  vertex_.assign(network_.variables(), none);
  for (Variable v = 0; v < network_.variables(); ++v) {
    if (free_states(v) < 2 || plan_.barren_.variable[v]) continue;
    vertex_[v] = static_cast<std::uint32_t>(variable_.size());
    variable_.push_back(v);
  }
}

void PlanMaker::classify_families() {
  plan_.places_.resize(plan_.leaves_.families.size());
  for (std::size_t f = 0; f < plan_.places_.size(); ++f) {
    const Family& family = plan_.leaves_.families[f];
    auto& place = plan_.places_[f];
    if (family.guard) {
      const auto& guard = plan_.domains_.of[*family.guard];
      if (!std::binary_search(guard.begin(), guard.end(), family.guard_state)) continue;
    }
    place.state = below(family)             ? FamilyPlace::State::below
                  : free_of(family).empty() ? FamilyPlace::State::fixed
                                            : FamilyPlace::State::live;
  }
}

std::vector<std::uint32_t> PlanMaker::free_of(std::span<const Variable> scope) const {
  std::vector<std::uint32_t> vertices;
  for (Variable v : scope) {
    if (vertex_[v] != none) vertices.push_back(vertex_[v]);
  }
  return vertices;
}

std::vector<std::uint32_t> PlanMaker::free_of(const Family& family) const {
  std::vector<Variable> scope{family.first, family.second};
  if (family.guard) scope.push_back(*family.guard);
  return free_of(scope);
}

// Whether any of its variables is to be asked for below the tree.
bool PlanMaker::below(const Family& family) const {
  const auto is = [&](Variable v) { return plan_.barren_.variable[v] && free_states(v) > 1; };
  return is(family.first) || is(family.second) || (family.guard && is(*family.guard));
}

// A family that tells nothing of a pair: it only asks for their joint belief.
bool PlanMaker::request(std::size_t family) const {
  const Family& f = plan_.leaves_.families[family];
  return f.silent() && plan_.places_[family].state == FamilyPlace::State::live &&
         (!f.guard || vertex_[*f.guard] == none) && free_of(f).size() == 2;
}

InteractionGraph PlanMaker::graph(bool with_requests) const {
  std::vector<std::uint32_t> sizes(variable_.size());
  for (std::size_t v = 0; v < sizes.size(); ++v) sizes[v] = free_states(variable_[v]);
  InteractionGraph made(std::move(sizes));
  for (std::size_t f = 0; f < network_.factors(); ++f) {
    if (!plan_.barren_.factor[f]) made.join(free_of(network_.scope(f)));
  }
  for (std::size_t f = 0; f < plan_.places_.size(); ++f) {
    if (plan_.places_[f].state != FamilyPlace::State::live) continue;
    if (with_requests || !request(f)) made.join(free_of(plan_.leaves_.families[f]));
  }
  made.sort_edges();
  return made;
}

std::variant<Elimination, TooWide> PlanMaker::order() {
  bool any = false;
  for (std::size_t f = 0; f < plan_.places_.size() && !any; ++f) any = request(f);
  if (!any) return min_fill(graph(true), cell_limit_);
  auto whole = min_fill(graph(true), cell_limit_);
  const auto* fits = std::get_if<Elimination>(&whole);
  if (fits != nullptr && fits->cells <= request_cells) return whole;
  auto bare = min_fill(graph(false), cell_limit_);
  const auto* less = std::get_if<Elimination>(&bare);
  if (less == nullptr || (fits != nullptr && fits->cells <= request_factor * less->cells)) {
    return whole;
  }
  for (std::size_t f = 0; f < plan_.places_.size(); ++f) {
    if (request(f)) plan_.places_[f].state = FamilyPlace::State::outside;
  }
  return bare;
}

TooBig PlanMaker::too_big(const TooWide& wide) const {
  TooBig out;
  for (std::uint32_t v : wide.clique) out.clique.push_back(variable_[v]);
  out.cells = wide.cells;
  out.bytes = bytes_a_cell * std::max(wide.cells, cell_limit_);
  const InteractionGraph whole = graph(false);
  std::vector<bool> met(variable_.size(), false);
  std::vector<std::uint32_t> stack{wide.clique.front()};
  met[stack.front()] = true;
  while (!stack.empty()) {
    const std::uint32_t v = stack.back();
    stack.pop_back();
    ++out.part;
    for (std::uint32_t u : whole.neighbours[v]) {
      if (met[u]) continue;
      met[u] = true;
      stack.push_back(u);
    }
  }
  return out;
}

}  // namespace likelihet::inference
