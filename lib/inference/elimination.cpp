// Min-fill with incremental counts.
#include <algorithm>
#include <cmath>
#include <queue>
#include <tuple>

#include <likelihet/inference/elimination.hpp>

namespace likelihet::inference {

namespace {

using Vertices = std::vector<std::uint32_t>;

// Calls `visit` for every vertex that two ascending lists share; steps through the shorter.
template <class Visit>
void for_each_common(const Vertices& a, const Vertices& b, Visit visit) {
  const Vertices& few = a.size() < b.size() ? a : b;
  const Vertices& many = a.size() < b.size() ? b : a;
  if (many.size() > 16 * few.size()) {
    for (std::uint32_t v : few) {
      if (std::binary_search(many.begin(), many.end(), v)) visit(v);
    }
    return;
  }
  std::size_t i = 0;
  for (std::uint32_t v : few) {
    while (i < many.size() && many[i] < v) ++i;
    if (i < many.size() && many[i] == v) visit(v);
  }
}

class MinFill {
 public:
  MinFill(InteractionGraph graph, double cell_limit)
      : graph_(std::move(graph)),
        limit_(cell_limit),
        fill_(size()),
        bits_(size()),
        gone_(size(), false),
        touched_flag_(size(), false) {
    for (std::uint32_t v = 0; v < size(); ++v) own_bits_.push_back(std::log2(graph_.sizes[v]));
    for (std::uint32_t v = 0; v < size(); ++v) {
      bits_[v] = own_bits_[v];
      for (std::uint32_t u : near(v)) bits_[v] += own_bits_[u];
    }
  }

  std::variant<Elimination, TooWide> run() {
    count_fill();
    for (std::uint32_t v = 0; v < size(); ++v) push(v);
    while (out_.order.size() < size()) {
      const std::uint32_t v = pop();
      if (!eliminate(v)) return largest_;
    }
    by_position();
    return std::move(out_);
  }

 private:
  // Fill, log2 of the clique's states, vertex; the smallest goes first.
  using Entry = std::tuple<std::int64_t, double, std::uint32_t>;

  std::size_t size() const { return graph_.sizes.size(); }
  Vertices& near(std::uint32_t v) { return graph_.neighbours[v]; }

  double cells_of_clique(std::uint32_t v) {
    double cells = graph_.sizes[v];
    for (std::uint32_t u : near(v)) cells *= graph_.sizes[u];
    return cells;
  }
  void push(std::uint32_t v) { queue_.emplace(fill_[v], bits_[v], v); }

  std::uint32_t pop() {
    for (;;) {
      const auto [fill, bits, v] = queue_.top();
      queue_.pop();
      // An older entry of the vertex, of another fill or clique, no longer holds.
      if (!gone_[v] && fill == fill_[v] && !(bits < bits_[v] || bits > bits_[v])) return v;
    }
  }

  // Pairs of neighbours less the edges among them; each triangle is met once at each of its
  // corners.
  void count_fill() {
    for (std::uint32_t v = 0; v < size(); ++v) {
      const auto d = static_cast<std::int64_t>(near(v).size());
      fill_[v] = d * (d - 1) / 2;
    }
    for (std::uint32_t a = 0; a < size(); ++a) {
      for (std::uint32_t b : near(a)) {
        if (b < a) continue;
        for_each_common(near(a), near(b), [&](std::uint32_t w) { --fill_[w]; });
      }
    }
  }

  void touch(std::uint32_t v) {
    if (!touched_flag_[v]) {
      touched_flag_[v] = true;
      touched_.push_back(v);
    }
  }

  void add_edge(std::uint32_t a, std::uint32_t b) {
    std::int64_t common = 0;
    for_each_common(near(a), near(b), [&](std::uint32_t w) {
      --fill_[w];
      ++common;
      touch(w);
    });
    fill_[a] += static_cast<std::int64_t>(near(a).size()) - common;
    fill_[b] += static_cast<std::int64_t>(near(b).size()) - common;
    near(a).insert(std::lower_bound(near(a).begin(), near(a).end(), b), b);
    near(b).insert(std::lower_bound(near(b).begin(), near(b).end(), a), a);
    bits_[a] += own_bits_[b];
    bits_[b] += own_bits_[a];
  }

  // False where the cells pass the limit.
  bool eliminate(std::uint32_t v) {
    const Vertices around = near(v);
    const double cells = cells_of_clique(v);
    if (cells > largest_.cells) {
      largest_.cells = cells;
      largest_.clique = around;
      largest_.clique.push_back(v);
    }
    out_.cells += cells;
    if (out_.cells > limit_) return false;
    if (fill_[v] > 0) {
      for (std::size_t i = 0; i < around.size(); ++i) {
        for (std::size_t j = i + 1; j < around.size(); ++j) {
          const Vertices& n = near(around[i]);
          if (!std::binary_search(n.begin(), n.end(), around[j])) add_edge(around[i], around[j]);
        }
      }
    }
    for (std::uint32_t u : around) {
      // The pairs (v, w) that u's neighbours lacked: w any neighbour of u that v is not joined to.
      fill_[u] -=
          static_cast<std::int64_t>(near(u).size()) - static_cast<std::int64_t>(around.size());
      near(u).erase(std::lower_bound(near(u).begin(), near(u).end(), v));
      bits_[u] -= own_bits_[v];
      touch(u);
    }
    gone_[v] = true;
    for (std::uint32_t u : touched_) {
      touched_flag_[u] = false;
      if (!gone_[u]) push(u);
    }
    touched_.clear();
    out_.order.push_back(v);
    out_.separators.push_back(around);
    return true;
  }

  void by_position() {
    std::vector<std::uint32_t> position(size());
    for (std::uint32_t p = 0; p < out_.order.size(); ++p) position[out_.order[p]] = p;
    for (Vertices& separator : out_.separators) {
      std::sort(separator.begin(), separator.end(),
                [&](std::uint32_t a, std::uint32_t b) { return position[a] < position[b]; });
    }
  }

  InteractionGraph graph_;
  double limit_;
  std::vector<std::int64_t> fill_;
  std::vector<double> own_bits_;  // log2 of a vertex's states
  std::vector<double> bits_;      // of its clique's: for ties alone
  std::vector<bool> gone_;
  std::vector<bool> touched_flag_;
  Vertices touched_;
  std::priority_queue<Entry, std::vector<Entry>, std::greater<>> queue_;
  Elimination out_;
  TooWide largest_;
};

}  // namespace

InteractionGraph::InteractionGraph(std::vector<std::uint32_t> vertex_sizes)
    : sizes(std::move(vertex_sizes)), neighbours(sizes.size()) {}

void InteractionGraph::join(std::span<const std::uint32_t> scope) {
  for (std::uint32_t a : scope) {
    for (std::uint32_t b : scope) {
      if (a != b) neighbours[a].push_back(b);
    }
  }
}

void InteractionGraph::sort_edges() {
  for (auto& list : neighbours) {
    std::sort(list.begin(), list.end());
    list.erase(std::unique(list.begin(), list.end()), list.end());
  }
}

std::variant<Elimination, TooWide> min_fill(InteractionGraph graph, double cell_limit) {
  return MinFill(std::move(graph), cell_limit).run();
}

}  // namespace likelihet::inference
