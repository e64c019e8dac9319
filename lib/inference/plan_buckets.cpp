// From an elimination order to buckets in one arena.
#include <algorithm>

#include <likelihet/inference/plan_maker.hpp>

namespace likelihet::inference {

namespace {

// Offsets of the states of a dimension that a compact table steps over by `stride`.
std::vector<std::uint32_t> steps(std::uint32_t states, std::size_t stride) {
  std::vector<std::uint32_t> out(states);
  for (std::uint32_t s = 0; s < states; ++s) out[s] = static_cast<std::uint32_t>(s * stride);
  return out;
}

// Buckets numbered so that children stand before and near their parents.
std::vector<std::uint32_t> post_order(const std::vector<std::uint32_t>& parent,
                                      std::uint32_t none) {
  const auto n = static_cast<std::uint32_t>(parent.size());
  std::vector<std::vector<std::uint32_t>> children(n);
  std::vector<std::uint32_t> stack;
  for (std::uint32_t b = n; b-- > 0;) {
    parent[b] == none ? stack.push_back(b) : children[parent[b]].push_back(b);
  }
  std::vector<std::uint32_t> reversed;
  while (!stack.empty()) {
    const std::uint32_t b = stack.back();
    stack.pop_back();
    reversed.push_back(b);
    for (std::uint32_t child : children[b]) stack.push_back(child);
  }
  std::reverse(reversed.begin(), reversed.end());
  return reversed;
}

}  // namespace

// A message goes to the first variable of its separator to be summed out (Dechter 1999, Artificial
// Intelligence 113:41).
void PlanMaker::make_buckets(const Elimination& elimination) {
  const std::size_t n = elimination.order.size();
  std::vector<std::uint32_t> position(n);
  for (std::uint32_t p = 0; p < n; ++p) position[elimination.order[p]] = p;
  std::vector<std::uint32_t> parent(n, none);
  for (std::size_t p = 0; p < n; ++p) {
    const auto& separator = elimination.separators[p];
    if (!separator.empty()) parent[p] = position[separator.front()];
  }
  const auto sequence = post_order(parent, none);
  std::vector<std::uint32_t> number(n);
  for (std::uint32_t b = 0; b < n; ++b) number[sequence[b]] = b;

  plan_.bucket_of_.assign(network_.variables(), Plan::none);
  plan_.buckets_.resize(n);
  for (std::uint32_t b = 0; b < n; ++b) {
    Bucket& bucket = plan_.buckets_[b];
    const std::uint32_t p = sequence[b];
    bucket.variable = variable_[elimination.order[p]];
    bucket.states = free_states(bucket.variable);
    if (parent[p] != none) bucket.parent = number[parent[p]];
    for (std::uint32_t v : elimination.separators[p]) {
      bucket.separator.push_back(variable_[v]);
      bucket.separator_cells *= free_states(variable_[v]);
    }
    plan_.bucket_of_[bucket.variable] = b;
  }
  sort_into_buckets();
  order_families();
  for (std::uint32_t b = 0; b < n; ++b) lay_out(b);
}

void PlanMaker::sort_into_buckets() {
  waiting_.resize(plan_.buckets_.size());
  plan_.factor_places_.resize(network_.factors());
  const auto first_bucket = [&](const std::vector<std::uint32_t>& vertices) {
    std::uint32_t first = none;
    for (std::uint32_t v : vertices) first = std::min(first, plan_.bucket_of_[variable_[v]]);
    return first;
  };
  for (std::uint32_t f = 0; f < network_.factors(); ++f) {
    if (plan_.barren_.factor[f]) continue;
    const auto vertices = free_of(network_.scope(f));
    if (!vertices.empty()) {
      waiting_[first_bucket(vertices)].factors.push_back(f);
      continue;
    }
    std::size_t index = 0;
    for (Variable v : network_.scope(f)) {
      index = index * network_.states(v) + plan_.domains_.of[v].front();
    }
    plan_.constants_.push_back(network_.offset(network_.factor_table(f)) + index);
  }
  for (std::uint32_t f = 0; f < plan_.places_.size(); ++f) {
    auto& place = plan_.places_[f];
    if (place.state == FamilyPlace::State::live) {
      waiting_[first_bucket(free_of(plan_.leaves_.families[f]))].families.push_back(f);
    } else if (place.state != FamilyPlace::State::dead) {
      place_family(f);
    }
  }
  for (std::uint32_t b = 0; b < plan_.buckets_.size(); ++b) {
    if (plan_.buckets_[b].parent) waiting_[*plan_.buckets_[b].parent].children.push_back(b);
  }
}

// Families and their leaves in the order of the arena, so that a pass reads memory forwards.
void PlanMaker::order_families() {
  std::vector<std::uint32_t> order;
  order.reserve(plan_.places_.size());
  for (const Waiting& waiting : waiting_) {
    order.insert(order.end(), waiting.families.begin(), waiting.families.end());
  }
  for (std::uint32_t f = 0; f < plan_.places_.size(); ++f) {
    if (plan_.places_[f].state != FamilyPlace::State::live) order.push_back(f);
  }
  plan_.leaves_.reorder(order);
  std::vector<FamilyPlace> places;
  places.reserve(order.size());
  for (std::uint32_t f : order) places.push_back(plan_.places_[f]);
  plan_.places_ = std::move(places);
  std::uint32_t next = 0;
  for (Waiting& waiting : waiting_) {
    for (std::uint32_t& f : waiting.families) f = next++;
  }
}

void PlanMaker::place_family(std::uint32_t f) {
  const Family& family = plan_.leaves_.families[f];
  FamilyPlace& place = plan_.places_[f];
  place.cells = free_states(family.first) * free_states(family.second);
  place.cell_list = cell_list(family);
  place.table = plan_.arena_;
  place.table_cells = place.cells;
  place.offset = place.table;
  if (family.guard && vertex_[*family.guard] != none) {
    const auto& guard = plan_.domains_.of[*family.guard];
    place.table_cells = static_cast<std::uint32_t>(guard.size()) * place.cells;
    const auto at = std::lower_bound(guard.begin(), guard.end(), family.guard_state);
    place.offset += static_cast<std::size_t>(at - guard.begin()) * place.cells;
  }
  plan_.arena_ += place.table_cells;
}

std::uint32_t PlanMaker::cell_list(const Family& family) {
  std::vector<std::uint32_t> cells;
  for (std::uint32_t i : plan_.domains_.of[family.first]) {
    for (std::uint32_t j : plan_.domains_.of[family.second]) {
      cells.push_back(i * network_.states(family.second) + j);
    }
  }
  const auto [found, fresh] =
      known_cell_lists_.try_emplace(cells, static_cast<std::uint32_t>(plan_.cell_lists_.size()));
  if (fresh) plan_.cell_lists_.push_back(std::move(cells));
  return found->second;
}

std::vector<Variable> PlanMaker::dimensions(const Bucket& bucket) {
  std::vector<Variable> all = bucket.separator;
  all.push_back(bucket.variable);
  return all;
}

void PlanMaker::lay_out(std::uint32_t b) {
  Bucket& bucket = plan_.buckets_[b];
  Waiting& waiting = waiting_[b];
  bucket.inputs_begin = plan_.inputs_.size();
  for (std::uint32_t f : waiting.factors) {
    plan_.factor_places_[f] = FactorPlace{b, static_cast<std::uint32_t>(plan_.inputs_.size())};
    plan_.inputs_.push_back(table_input(bucket, f));
  }
  for (std::uint32_t f : waiting.families) {
    place_family(f);
    plan_.inputs_.push_back(family_input(bucket, f));
  }
  for (std::uint32_t c : waiting.children) plan_.inputs_.push_back(message_input(bucket, c));
  bucket.inputs_end = plan_.inputs_.size();
  bucket.clique = plan_.arena_;
  const std::size_t cells = bucket.separator_cells * bucket.states;
  plan_.arena_ += cells;
  bucket.message = plan_.arena_;
  plan_.arena_ += bucket.separator_cells;
  plan_.largest_message_ = std::max(plan_.largest_message_, bucket.separator_cells);
  plan_.largest_clique_ = std::max(plan_.largest_clique_, cells);
  waiting = {};
}

Input PlanMaker::table_input(const Bucket& bucket, std::uint32_t factor) {
  const auto scope = network_.scope(factor);
  std::vector<std::size_t> stride(scope.size());
  std::size_t step = 1;
  for (std::size_t i = scope.size(); i-- > 0;) {
    stride[i] = step;
    step *= network_.states(scope[i]);
  }
  Input input;
  input.kind = Input::Kind::table;
  input.source = factor;
  input.offset = network_.offset(network_.factor_table(factor));
  for (std::size_t i = 0; i < scope.size(); ++i) {
    if (vertex_[scope[i]] == none) {
      input.offset += stride[i] * plan_.domains_.of[scope[i]].front();
    }
  }
  std::vector<std::vector<std::uint32_t>> offsets;
  for (Variable v : dimensions(bucket)) {
    const auto at = std::find(scope.begin(), scope.end(), v);
    const std::size_t by =
        at == scope.end() ? 0 : stride[static_cast<std::size_t>(at - scope.begin())];
    std::vector<std::uint32_t> dimension;
    for (std::uint32_t s : plan_.domains_.of[v]) {
      dimension.push_back(static_cast<std::uint32_t>(s * by));
    }
    offsets.push_back(std::move(dimension));
  }
  input.map = plan_.maps_.make(offsets);
  return input;
}

Input PlanMaker::family_input(const Bucket& bucket, std::uint32_t f) {
  const Family& family = plan_.leaves_.families[f];
  std::vector<std::vector<std::uint32_t>> offsets;
  for (Variable v : dimensions(bucket)) {
    std::size_t stride = 0;
    if (v == family.second) stride = 1;
    if (v == family.first) stride = free_states(family.second);
    if (family.guard && v == *family.guard) stride = plan_.places_[f].cells;
    offsets.push_back(steps(free_states(v), stride));
  }
  return {Input::Kind::family, f, plan_.places_[f].table, plan_.maps_.make(offsets)};
}

Input PlanMaker::message_input(const Bucket& bucket, std::uint32_t child) {
  const Bucket& from = plan_.buckets_[child];
  std::vector<std::vector<std::uint32_t>> offsets;
  for (Variable v : dimensions(bucket)) {
    std::size_t stride = 0;
    std::size_t step = 1;
    for (std::size_t i = from.separator.size(); i-- > 0;) {
      if (from.separator[i] == v) stride = step;
      step *= free_states(from.separator[i]);
    }
    offsets.push_back(steps(free_states(v), stride));
  }
  return {Input::Kind::message, child, from.message, plan_.maps_.make(offsets)};
}

}  // namespace likelihet::inference
