// Min-fill against its definition, recounted from scratch at every step, on random graphs.
#include <algorithm>
#include <cmath>
#include <random>
#include <set>
#include <vector>

#include <gtest/gtest.h>

#include <likelihet/inference/elimination.hpp>

namespace likelihet::test::min_fill_test {
namespace {

using namespace inference;

using Edges = std::vector<std::set<std::uint32_t>>;

InteractionGraph random_graph(std::mt19937_64& random, std::uint32_t vertices, unsigned per_cent) {
  std::vector<std::uint32_t> sizes;
  for (std::uint32_t v = 0; v < vertices; ++v) {
    sizes.push_back(2 + static_cast<std::uint32_t>(random() % 3));
  }
  InteractionGraph graph(sizes);
  for (std::uint32_t a = 0; a < vertices; ++a) {
    for (std::uint32_t b = a + 1; b < vertices; ++b) {
      if (random() % 100 < per_cent) graph.join(std::vector<std::uint32_t>{a, b});
    }
  }
  graph.sort_edges();
  return graph;
}

// Pairs of neighbours that are not joined.
std::size_t fill_of(const Edges& edges, std::uint32_t v) {
  std::size_t missing = 0;
  for (const std::uint32_t a : edges[v]) {
    for (const std::uint32_t b : edges[v]) missing += a < b && !edges[a].contains(b) ? 1 : 0;
  }
  return missing;
}

double cells_of(const InteractionGraph& graph, const Edges& edges, std::uint32_t v) {
  double cells = graph.sizes[v];
  for (const std::uint32_t u : edges[v]) cells *= graph.sizes[u];
  return cells;
}

void remove_vertex(Edges& edges, std::uint32_t v) {
  for (const std::uint32_t a : edges[v]) {
    for (const std::uint32_t b : edges[v]) {
      if (a != b) edges[a].insert(b);
    }
    edges[a].erase(v);
  }
  edges[v].clear();
}

TEST(MinFillOrder, TakesTheVertexOfLeastFillEachTime) {
  std::mt19937_64 random(1);
  for (unsigned turn = 0; turn < 200; ++turn) {
    const auto vertices = static_cast<std::uint32_t>(2 + random() % 18);
    const auto graph = random_graph(random, vertices, 10 + turn % 60);
    const auto made = min_fill(graph, 1e300);
    const auto& found = std::get<Elimination>(made);
    ASSERT_EQ(found.order.size(), vertices);
    std::vector<std::size_t> place(vertices);
    for (std::size_t p = 0; p < vertices; ++p) place[found.order[p]] = p;
    Edges edges(vertices);
    for (std::uint32_t v = 0; v < vertices; ++v) {
      edges[v] = {graph.neighbours[v].begin(), graph.neighbours[v].end()};
    }
    std::set<std::uint32_t> left;
    for (std::uint32_t v = 0; v < vertices; ++v) left.insert(v);
    double cells = 0;
    for (std::size_t position = 0; position < vertices; ++position) {
      const std::uint32_t v = found.order[position];
      ASSERT_TRUE(left.contains(v));
      for (const std::uint32_t u : left) {
        ASSERT_LE(fill_of(edges, v), fill_of(edges, u)) << "turn " << turn;
        if (fill_of(edges, v) == fill_of(edges, u)) {
          ASSERT_LE(cells_of(graph, edges, v), cells_of(graph, edges, u) * (1 + 1e-9));
        }
      }
      cells += cells_of(graph, edges, v);
      const auto& separator = found.separators[position];
      ASSERT_EQ(std::set<std::uint32_t>(separator.begin(), separator.end()), edges[v]);
      ASSERT_TRUE(std::is_sorted(separator.begin(), separator.end(),
                                 [&](auto a, auto b) { return place[a] < place[b]; }));
      remove_vertex(edges, v);
      left.erase(v);
    }
    EXPECT_NEAR(found.cells, cells, 1e-6 * cells);
  }
}

TEST(MinFillOrder, OfNothingIsEmpty) {
  const auto made = min_fill(InteractionGraph({}), 1);
  EXPECT_TRUE(std::get<Elimination>(made).order.empty());
}

TEST(MinFillOrder, OfStrangersHasNoSeparators) {
  const auto made = min_fill(InteractionGraph({2, 3, 4}), 100);
  const auto& found = std::get<Elimination>(made);
  EXPECT_EQ(found.cells, 9);
  for (const auto& separator : found.separators) EXPECT_TRUE(separator.empty());
  // Equal fill: the smaller clique goes first.
  EXPECT_EQ(found.order, (std::vector<std::uint32_t>{0, 1, 2}));
}

// A clique of n vertices of k states: k^n + k^(n-1) + ... + k cells, and it fits at exactly that.
TEST(MinFillOrder, StopsWhereTheCellsPassTheLimit) {
  InteractionGraph graph(std::vector<std::uint32_t>(8, 3));
  std::vector<std::uint32_t> all;
  for (std::uint32_t v = 0; v < 8; ++v) all.push_back(v);
  graph.join(all);
  graph.sort_edges();
  const double cells = (std::pow(3.0, 9) - 3) / 2;
  EXPECT_TRUE(std::holds_alternative<Elimination>(min_fill(graph, cells)));
  const auto made = min_fill(graph, cells - 1);
  const auto* wide = std::get_if<TooWide>(&made);
  ASSERT_NE(wide, nullptr);
  EXPECT_EQ(wide->clique.size(), 8U);
  EXPECT_EQ(wide->cells, std::pow(3.0, 8));
}

// A chordal graph needs no fill (Rose 1970, from memory): a band of width three keeps its width.
TEST(MinFillOrder, AddsNothingToAChordalGraph) {
  InteractionGraph graph(std::vector<std::uint32_t>(60, 2));
  for (std::uint32_t v = 0; v + 3 < 60; ++v) {
    graph.join(std::vector<std::uint32_t>{v, v + 1, v + 2, v + 3});
  }
  graph.sort_edges();
  const auto made = min_fill(graph, 1e9);
  const auto& found = std::get<Elimination>(made);
  std::size_t edges = 0;
  for (const auto& separator : found.separators) {
    EXPECT_LE(separator.size(), 3U);
    edges += separator.size();
  }
  // 59 + 58 + 57 edges of the band, each in one separator.
  EXPECT_EQ(edges, 174U);
}

TEST(InteractionGraphs, JoinEachPairOnce) {
  InteractionGraph graph({2, 2, 2});
  graph.join(std::vector<std::uint32_t>{2, 0});
  graph.join(std::vector<std::uint32_t>{0, 2});
  graph.join(std::vector<std::uint32_t>{1});
  graph.sort_edges();
  EXPECT_EQ(graph.neighbours[0], (std::vector<std::uint32_t>{2}));
  EXPECT_TRUE(graph.neighbours[1].empty());
  EXPECT_EQ(graph.neighbours[2], (std::vector<std::uint32_t>{0}));
}

}  // namespace
}  // namespace likelihet::test::min_fill_test
