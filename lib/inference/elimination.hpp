// The order in which variables are summed out: min-fill, with counts kept up to date.
#pragma once

#include <cstdint>
#include <span>
#include <utility>
#include <variant>
#include <vector>

namespace likelihet::inference {

/// Vertices 0..n-1 joined by edges; `sizes[v]` (>= 1) is how many states a vertex has.
struct InteractionGraph {
  std::vector<std::uint32_t> sizes;
  std::vector<std::vector<std::uint32_t>> neighbours;  ///< ascending, symmetric, without loops

  explicit InteractionGraph(std::vector<std::uint32_t> vertex_sizes);
  /// Joins every two of `scope`; sort_edges() must follow before use.
  void join(std::span<const std::uint32_t> scope);
  void sort_edges();
};

struct Elimination {
  std::vector<std::uint32_t> order;
  /// By position in `order`: the vertices joined to it when it goes, ascending by position.
  std::vector<std::vector<std::uint32_t>> separators;
  double cells = 0;  ///< Σ over positions of the states of the vertex and its separator together
};

struct TooWide {
  std::vector<std::uint32_t> clique;  ///< the largest met
  double cells = 0;                   ///< its states together
};

/// Removes the vertex whose neighbours lack the fewest edges, again and again (min-fill: Kjærulff
/// 1990, Triangulation of graphs, Aalborg R-90-09; Koller and Friedman 2009, Probabilistic
/// Graphical Models, section 9.4.3.2); ties go to the smaller clique, then to the lower number.
/// Fill counts are updated from the edges added and the vertex removed, never recounted. Stops
/// where the cells of all cliques together would pass `cell_limit`.
std::variant<Elimination, TooWide> min_fill(InteractionGraph graph, double cell_limit);

}  // namespace likelihet::inference
