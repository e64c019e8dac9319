// The laws that joint posteriors obey, on random colonies: margins, order, independence of parts,
// and memory.
#include <algorithm>
#include <cmath>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "properties/dice.hpp"
#include "properties/random_colony.hpp"
#include "properties/random_records.hpp"
#include <gtest/gtest.h>
#include <support/solved_colony.hpp>

#include <likelihet/odds/joint.hpp>

namespace likelihet::properties::joint_margins_test {
namespace {

constexpr std::uint64_t colonies = 150;
constexpr double tolerance = 1e-12;

using Cells = std::map<std::vector<std::uint32_t>, double>;

Cells cells_of(const odds::JointTable& table) {
  Cells out;
  for (std::size_t c = 0; c < table.cells(); ++c) {
    const auto cell = table.cell(c);
    out[{cell.begin(), cell.end()}] = table.probability[c];
  }
  return out;
}

// A random colony with everything held, and its odds. Position: animal x loci + locus.
struct Held {
  RandomColony drawn;
  odds::ColonyOdds odds;
  std::unique_ptr<odds::JointBeliefs> beliefs;
  std::size_t loci = 0;

  [[nodiscard]] std::size_t genotypes() const { return odds.animals.size() * loci; }
  [[nodiscard]] const std::vector<double>& posterior(std::size_t position) const {
    return odds.animals[position / loci].loci[position % loci].posterior;
  }
  Cells joint(const std::vector<std::size_t>& positions) const {
    return cells_of(std::get<odds::JointTable>(beliefs->joint(positions)));
  }
};

// Nothing where the records contradict each other.
std::optional<Held> held(std::uint64_t seed) {
  Dice dice(seed);
  Held out{random_colony(dice), {}, nullptr, 0};
  auto solved = odds::compute(*out.drawn.colony, support::only_odds());
  auto* odds = std::get_if<odds::ColonyOdds>(&solved);
  if (odds == nullptr) return std::nullopt;
  out.odds = std::move(*odds);
  out.loci = out.drawn.model->loci().size();
  odds::Scenario all = odds::scenario(*out.drawn.colony, std::nullopt);
  for (std::size_t a = 0; a < out.odds.animals.size(); ++a) {
    for (std::size_t l = 0; l < out.loci; ++l) all.held.push_back({a, l});
  }
  auto made = odds::JointBeliefs::make(all, support::only_odds());
  out.beliefs = std::get<std::unique_ptr<odds::JointBeliefs>>(std::move(made));
  return out;
}

template <class Check>
void for_colonies(const Check& check) {
  std::size_t possible = 0;
  for (std::uint64_t seed = 1; seed <= colonies && !testing::Test::HasFailure(); ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    const auto colony = held(seed);
    if (!colony) continue;
    ++possible;
    check(*colony, seed);
  }
  EXPECT_GT(possible, colonies / 3);
}

// The sums over either side of a table of two.
std::pair<std::vector<double>, std::vector<double>> margins(const Cells& cells, std::size_t first,
                                                            std::size_t second) {
  std::pair out(std::vector<double>(first, 0.0), std::vector<double>(second, 0.0));
  for (const auto& [cell, p] : cells) {
    out.first[cell[0]] += p;
    out.second[cell[1]] += p;
  }
  return out;
}

void expect_all_near(const std::vector<double>& found, const std::vector<double>& expected) {
  ASSERT_EQ(found.size(), expected.size());
  for (std::size_t g = 0; g < found.size(); ++g) ASSERT_NEAR(found[g], expected[g], tolerance);
}

// Also of two loci of one animal, which share its sex, its scores and its sire.
TEST(JointMargins, AreThePosteriorsOfEveryPairOfGenotypes) {
  for_colonies([](const Held& colony, std::uint64_t) {
    for (std::size_t one = 0; one < colony.genotypes(); ++one) {
      for (std::size_t other = one + 1; other < colony.genotypes(); ++other) {
        const auto& first = colony.posterior(one);
        const auto& second = colony.posterior(other);
        const auto sums = margins(colony.joint({one, other}), first.size(), second.size());
        expect_all_near(sums.first, first);
        expect_all_near(sums.second, second);
      }
    }
  });
}

// The order in which genotypes are named orders the cells and nothing else.
TEST(JointMargins, DoNotDependOnTheOrderOfPlaces) {
  for_colonies([](const Held& colony, std::uint64_t seed) {
    if (colony.genotypes() < 3) return;
    Dice dice(seed + 1000);
    std::vector<std::size_t> all(colony.genotypes());
    for (std::size_t k = 0; k < all.size(); ++k) all[k] = k;
    dice.shuffle(all);
    const std::vector<std::size_t> three(all.begin(), all.begin() + 3);
    const Cells forth = colony.joint(three);
    const Cells back = colony.joint({three[2], three[0], three[1]});
    ASSERT_EQ(forth.size(), back.size());
    for (const auto& [cell, p] : forth) {
      ASSERT_NEAR(back.at({cell[2], cell[0], cell[1]}), p, tolerance);
    }
  });
}

// Summed over a third genotype, a joint of three is the joint of two.
TEST(JointMargins, ATableOfThreeHoldsThatOfTwo) {
  for_colonies([](const Held& colony, std::uint64_t seed) {
    if (colony.genotypes() < 3) return;
    Dice dice(seed + 2000);
    const std::size_t one = dice.roll(colony.genotypes());
    const std::size_t other = (one + 1) % colony.genotypes();
    const std::size_t third = (one + 2) % colony.genotypes();
    Cells summed;
    for (const auto& [cell, p] : colony.joint({one, third, other})) summed[{cell[0], cell[2]}] += p;
    const Cells two = colony.joint({one, other});
    ASSERT_EQ(summed.size(), two.size());
    for (const auto& [cell, p] : two) ASSERT_NEAR(summed.at(cell), p, tolerance);
  });
}

// Parts that nothing joins multiply; the mutual information of two genotypes is 0 there, never
// below 0 elsewhere, and never above the entropy of either.
TEST(JointMargins, InformationOfTwoGenotypes) {
  std::size_t apart = 0, tied = 0;
  for_colonies([&](const Held& colony, std::uint64_t) {
    for (std::size_t one = 0; one < colony.genotypes(); ++one) {
      for (std::size_t other = one + 1; other < colony.genotypes(); ++other) {
        double information = 0, entropy = 0;
        for (const auto& [cell, p] : colony.joint({one, other})) {
          const double product = colony.posterior(one)[cell[0]] * colony.posterior(other)[cell[1]];
          information += p * std::log2(p / product);
        }
        for (double p : colony.posterior(one)) entropy -= p > 0 ? p * std::log2(p) : 0;
        ASSERT_GE(information, -1e-12);
        ASSERT_LE(information, entropy + 1e-12);
        if (colony.beliefs->part(one) != colony.beliefs->part(other)) {
          ASSERT_NEAR(information, 0, 1e-12);
          ++apart;
        } else if (information > 1e-6) {
          ++tied;
        }
      }
    }
  });
  EXPECT_GT(apart, 100u);
  EXPECT_GT(tied, 100u);
}

// Cells that are told are possible, each once, and come in the order of their states.
TEST(JointMargins, CellsAreInOrder) {
  for_colonies([](const Held& colony, std::uint64_t) {
    const std::size_t last = colony.genotypes() - 1;
    if (last == 0) return;
    const std::vector<std::size_t> ends = {0, last};
    const auto table = std::get<odds::JointTable>(colony.beliefs->joint(ends));
    ASSERT_EQ(cells_of(table).size(), table.cells());
    for (std::size_t c = 0; c < table.cells(); ++c) {
      ASSERT_GT(table.probability[c], 0.0);
      if (c == 0) continue;
      const auto before = table.cell(c - 1), now = table.cell(c);
      ASSERT_TRUE(
          std::lexicographical_compare(before.begin(), before.end(), now.begin(), now.end()));
    }
  });
}

// The same records in another order: the same table, cell for cell.
TEST(JointMargins, DoNotDependOnTheOrderOfRecords) {
  Dice order(17);
  for_colonies([&](const Held& colony, std::uint64_t) {
    const auto other =
        support::colony_of(colony.drawn.model, shuffled(order, colony.drawn.records));
    odds::Scenario two = odds::scenario(other, std::nullopt);
    const auto& animals = colony.drawn.colony->animals();
    two.held = {{*other.find_animal(animals.front().id), 0},
                {*other.find_animal(animals.back().id), colony.loci - 1}};
    auto made = odds::JointBeliefs::make(two, support::only_odds());
    const std::vector<std::size_t> places = {0, 1};
    auto& again = *std::get<std::unique_ptr<odds::JointBeliefs>>(made);
    if (colony.genotypes() < 2) return;
    const Cells moved = cells_of(std::get<odds::JointTable>(again.joint(places)));
    const Cells first = colony.joint({0, colony.genotypes() - 1});
    ASSERT_EQ(moved.size(), first.size());
    for (const auto& [cell, p] : first) ASSERT_NEAR(moved.at(cell), p, tolerance);
  });
}

}  // namespace
}  // namespace likelihet::properties::joint_margins_test
