// The order in which variables are summed out: min-fill, with counts kept up to date. The order
// decides the size of every table; finding the best one is NP-complete (Yannakakis 1981, SIAM J.
// Algebraic Discrete Methods 2:77), hence a greedy rule.
#pragma once

#include <cstdint>
#include <span>
#include <utility>
#include <variant>
#include <vector>

namespace likelihet::inference {

/// Vertices 0..n-1 joined by edges; `sizes[v]` (>= 1) is how many states a vertex has. An edge says
/// that some factor reads both variables, or that summing one out makes a table that does.
struct InteractionGraph {
  std::vector<std::uint32_t> sizes;
  std::vector<std::vector<std::uint32_t>> neighbours;  ///< ascending, symmetric, without loops

  /// Without edges.
  explicit InteractionGraph(std::vector<std::uint32_t> vertex_sizes);
  /// Joins every two of `scope`; sort_edges() must follow before use. A scope of one vertex adds
  /// nothing. Repeats are allowed, here and between calls: sort_edges() takes them out.
  void join(std::span<const std::uint32_t> scope);
  /// Call it once, after the last join().
  void sort_edges();
};

/// An order that fits, with the cliques that summing out in that order makes. They are a junction
/// tree: the parent of a clique is that of the first vertex of its separator (Lauritzen and
/// Spiegelhalter 1988, JRSS B 50:157, use the same trees).
struct Elimination {
  /// Every vertex once, the first to be summed out first.
  std::vector<std::uint32_t> order;
  /// By position in `order`: the vertices joined to it when it goes, ascending by position.
  std::vector<std::vector<std::uint32_t>> separators;
  double cells = 0;  ///< Σ over positions of the states of the vertex and its separator together
};

/// The search stopped: exact inference would not fit. What it met so far is for the message.
struct TooWide {
  std::vector<std::uint32_t> clique;  ///< the largest met
  double cells = 0;                   ///< its states together
};

/// Removes the vertex whose neighbours lack the fewest edges, again and again (min-fill: Kjærulff
/// 1990, Triangulation of graphs, Aalborg R-90-09; Koller and Friedman 2009, Probabilistic
/// Graphical Models, section 9.4.3.2); ties go to the smaller clique, then to the lower number.
/// Fill counts are updated from the edges added and the vertex removed, never recounted. Stops
/// where the cells of all cliques together would pass `cell_limit`. `graph` must be sorted and is
/// used up. Cells are counted in doubles, since wide cliques pass 2^64. The same graph gives the
/// same order.
std::variant<Elimination, TooWide> min_fill(InteractionGraph graph, double cell_limit);

}  // namespace likelihet::inference
