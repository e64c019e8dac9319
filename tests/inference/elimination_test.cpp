// Elimination orders, domains and index lists on their own.
#include <gtest/gtest.h>

#include <likelihet/inference/domains.hpp>
#include <likelihet/inference/elimination.hpp>
#include <likelihet/inference/index_map.hpp>

namespace likelihet::test::elimination_test {
namespace {

using namespace inference;

Elimination order_of(std::vector<std::uint32_t> sizes,
                     const std::vector<std::vector<std::uint32_t>>& scopes) {
  InteractionGraph graph(std::move(sizes));
  for (const auto& scope : scopes) graph.join(scope);
  graph.sort_edges();
  auto made = min_fill(graph, 1e12);
  return std::get<Elimination>(made);
}

TEST(MinFill, TreeNeedsNoFill) {
  const auto out = order_of({2, 2, 2, 2, 2}, {{0, 1}, {1, 2}, {2, 3}, {2, 4}});
  for (const auto& separator : out.separators) EXPECT_LE(separator.size(), 1U);
}

// A cycle of n needs exactly n - 3 fill edges: every clique has three vertices or fewer.
TEST(MinFill, CycleHasWidthTwo) {
  std::vector<std::vector<std::uint32_t>> scopes;
  for (std::uint32_t i = 0; i < 12; ++i) scopes.push_back({i, (i + 1) % 12});
  const auto out = order_of(std::vector<std::uint32_t>(12, 3), scopes);
  for (const auto& separator : out.separators) EXPECT_LE(separator.size(), 2U);
}

// A k x k grid has treewidth k (Bodlaender 1998, Theoretical Computer Science 209:1, Corollary 89);
// min-fill finds it for small k.
TEST(MinFill, GridOfFourHasWidthFour) {
  std::vector<std::vector<std::uint32_t>> scopes;
  for (std::uint32_t r = 0; r < 4; ++r) {
    for (std::uint32_t c = 0; c < 4; ++c) {
      if (c < 3) scopes.push_back({4 * r + c, 4 * r + c + 1});
      if (r < 3) scopes.push_back({4 * r + c, 4 * r + 4 + c});
    }
  }
  const auto out = order_of(std::vector<std::uint32_t>(16, 2), scopes);
  std::size_t width = 0;
  for (const auto& separator : out.separators) width = std::max(width, separator.size());
  EXPECT_EQ(width, 4U);
}

TEST(MinFill, EveryVertexGoesOnceAndSeparatorsComeLater) {
  const auto out = order_of({2, 3, 2, 3, 2, 3}, {{0, 1, 2}, {2, 3}, {3, 4, 5}, {0, 5}});
  std::vector<std::size_t> position(6);
  for (std::size_t p = 0; p < 6; ++p) position[out.order[p]] = p;
  for (std::size_t p = 0; p < 6; ++p) {
    for (std::uint32_t v : out.separators[p]) EXPECT_GT(position[v], p);
  }
}

TEST(Domains, ZerosTravelAlongFactorsAndLeaves) {
  Network network;
  const Variable dam = network.add_variable(3);
  const Variable sire = network.add_variable(3);
  // A hatchling that shows a recessive trait needs a copy from each parent.
  std::vector<double> mendel;
  for (int d = 0; d < 3; ++d) {
    for (int s = 0; s < 3; ++s) {
      const double a = d / 2.0;
      const double b = s / 2.0;
      mendel.insert(mendel.end(), {(1 - a) * (1 - b), a * (1 - b) + b * (1 - a), a * b});
    }
  }
  const auto visual = network.add_table(std::vector<double>{0, 0, 1});
  network.add_leaf(3, network.add_table(mendel), visual, false,
                   std::vector<Branch>{{dam, sire, std::nullopt, 0, 1.0}});
  const Domains domains = propagate(network, LeafFamilies(network));
  EXPECT_EQ(domains.of[dam], (std::vector<std::uint32_t>{1, 2}));
  EXPECT_EQ(domains.of[sire], (std::vector<std::uint32_t>{1, 2}));
}

TEST(IndexMaps, CellsStandWhereTheirOffsetsSay) {
  IndexMaps maps;
  const std::vector<std::vector<std::uint32_t>> offsets{{0, 10}, {0, 0, 0}, {0, 1, 2}};
  const IndexMap map = maps.make(offsets);
  ASSERT_EQ(maps.list(map.outer).size(), 1U);
  const auto inner = maps.list(map.inner);
  ASSERT_EQ(inner.size(), 18U);
  for (std::size_t i = 0; i < 18; ++i) EXPECT_EQ(inner[i], 10 * (i / 9) + i % 3);
  EXPECT_EQ(maps.make(offsets).inner, map.inner) << "the same list is kept once";
}

TEST(IndexMaps, LargeTablesSplitIntoBlocks) {
  IndexMaps maps;
  std::vector<std::vector<std::uint32_t>> offsets;
  for (std::uint32_t d = 0; d < 14; ++d) offsets.push_back({0, 1U << (13 - d)});
  const IndexMap map = maps.make(offsets);
  const auto outer = maps.list(map.outer);
  const auto inner = maps.list(map.inner);
  ASSERT_EQ(outer.size() * inner.size(), 1U << 14U);
  EXPECT_LE(inner.size(), 4096U);
  for (std::uint32_t i = 0; i < (1U << 14U); ++i) {
    EXPECT_EQ(outer[i / inner.size()] + inner[i % inner.size()], i);
  }
}

TEST(Network, RefusesWhatIsNoNetwork) {
  Network network;
  const Variable x = network.add_variable(2);
  EXPECT_THROW(network.add_variable(0), std::invalid_argument);
  EXPECT_THROW(network.add_table(std::vector<double>{-1.0}), std::invalid_argument);
  const auto table = network.add_table(std::vector<double>{1.0, 1.0, 1.0});
  EXPECT_THROW(network.add_factor(std::vector<Variable>{x}, table), std::invalid_argument);
  EXPECT_THROW(network.add_factor(std::vector<Variable>{x, x}, table), std::invalid_argument);
}

}  // namespace
}  // namespace likelihet::test::elimination_test
