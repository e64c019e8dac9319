// Cells of a pair: joint genotypes with the chance of what is wanted.
#include <numeric>

#include "support/small_model.hpp"
#include <gtest/gtest.h>

#include <likelihet/inference/random_bits.hpp>
#include <likelihet/planning/pair_cells.hpp>

namespace likelihet::planning::pair_cells_test {
namespace {

using genetics::Chromosome;
using genetics::Sex;
using support::RecordsBuilder;

std::vector<PairCell> cells_of(const colony::Colony& colony, const PairChances& chances,
                               std::span<const odds::Tables* const> tables = {}) {
  odds::Scenario scenario = odds::scenario(colony, std::nullopt);
  std::vector<std::size_t> dam, sire;
  for (std::size_t l : chances.loci()) {
    dam.push_back(scenario.held.size());
    scenario.held.push_back({*colony.find_animal("F"), l});
    sire.push_back(scenario.held.size());
    scenario.held.push_back({*colony.find_animal("M"), l});
  }
  auto made = odds::JointBeliefs::make(scenario, {});
  auto& beliefs = *std::get<std::unique_ptr<odds::JointBeliefs>>(made);
  return std::get<std::vector<PairCell>>(chances.cells(beliefs, dam, sire, tables));
}

double total(const std::vector<PairCell>& cells) {
  double sum = 0;
  for (const PairCell& cell : cells) sum += cell.weight;
  return sum;
}

RecordsBuilder open_pair() {
  RecordsBuilder builder;
  builder.founder("F", Sex::female).bought_as("tarnbrook", {{"+/+", 0.5}, {"+/e", 0.5}});
  builder.founder("M", Sex::male).bought_as("tarnbrook", {{"+/e", 0.75}, {"e/e", 0.25}});
  return builder;
}

TEST(PairCells, ByHand) {
  const auto colony =
      support::colony_of(support::made(support::recessive_model()), open_pair().records);
  const PairChances chances(colony.model(), wanted_genotype(colony.model(), 0, 2));
  const auto cells = cells_of(colony, chances);
  ASSERT_EQ(cells.size(), 4u);
  EXPECT_NEAR(total(cells), 1.0, 1e-15);
  for (const PairCell& cell : cells) {
    const bool het = cell.dam == 1, visual = cell.sire == 2;
    EXPECT_NEAR(cell.weight, 0.5 * (visual ? 0.25 : 0.75), 1e-15);
    EXPECT_EQ(cell.chance, het ? (visual ? 0.5 : 0.25) : 0.0);
  }
  EXPECT_NEAR(mixture_of(cells).chance(), 0.5 * (0.25 * 0.5 + 0.75 * 0.25), 1e-15);
}

// The same from a table over the pair.
TEST(PairCells, FromATable) {
  const auto model = support::made(support::recessive_model());
  const PairChances chances(*model, wanted_appearance(*model, 0, 0));
  const auto cells = chances.cells({0, 0.5, 0, 0, 0.25, 0, 0, 0, 0.25});
  ASSERT_EQ(cells.size(), 3u);
  const std::size_t plain = model->loci()[0].appearances()[0] == "plain" ? 0 : 1;
  EXPECT_EQ(cells[0].chance, plain == 0 ? 1.0 : 0.0);
  EXPECT_NEAR(total(cells), 1.0, 1e-15);
}

// What is wanted may be shown by several genotypes, each with its own chance.
TEST(PairCells, SoftAppearances) {
  auto model = support::recessive_model();
  model.loci[0].appearance = {{"default", {{"plain", 1.0}}},
                              {"+/e", {{"plain", 0.8}, {"tarnbrook", 0.2}}},
                              {"e/e", {{"tarnbrook", 1.0}}}};
  const auto made = support::made(model);
  const std::size_t tarnbrook = *made->loci()[0].find_appearance("tarnbrook");
  const PairChances chances(*made, wanted_appearance(*made, 0, tarnbrook));
  const std::uint32_t hets[] = {1, 1};
  EXPECT_NEAR(*chances.chance(hets), 0.5 * 0.2 + 0.25, 1e-15);
}

TEST(PairCells, ParentsWithoutLivingOffspringAreLeftOut) {
  auto model = support::recessive_model();
  model.loci[0].viability = {{"e/e", 0.0}};
  RecordsBuilder builder = open_pair();
  const auto made = support::made(model);
  const PairChances chances(*made, wanted_genotype(*made, 0, 1));
  const std::uint32_t none[] = {2, 2};
  EXPECT_FALSE(chances.chance(none));
  const std::uint32_t hets[] = {1, 1};
  EXPECT_NEAR(*chances.chance(hets), 2. / 3, 1e-15);
  const auto cells = chances.cells({0, 0, 0, 0, 0.5, 0, 0, 0, 0.5});
  ASSERT_EQ(cells.size(), 1u);
  EXPECT_EQ(cells[0].weight, 1.0);
}

// A lethal on Z ties the loci there: among the living two thirds are sons, so e/W daughters of a
// het sire at tarnbrook are 1/6 and not 1/4.
TEST(PairCells, LociThatSurvivalTies) {
  auto model = support::sex_linked_model(Chromosome::z);
  model.loci.push_back(support::recessive_locus("hollowmere", Chromosome::z));
  model.loci[1].viability = {{"e/W", 0.0}};
  RecordsBuilder builder;
  builder.founder("F", Sex::female);
  builder.founder("M", Sex::male).bought_as("tarnbrook", {{"+/e", 1.0}});
  builder.bought_as("hollowmere", {{"+/e", 1.0}});
  const auto colony = support::colony_of(support::made(model), builder.records);
  const PairChances chances(colony.model(), wanted_genotype(colony.model(), 0, 4));
  EXPECT_EQ(chances.loci(), (std::vector<std::size_t>{0, 1}));
  EXPECT_NEAR(mixture_of(cells_of(colony, chances)).chance(), 1. / 6, 1e-15);
}

TEST(PairCells, AveragedOverTables) {
  RecordsBuilder builder = open_pair();
  builder.score("F", "crown-fleck", "strong").score("M", "crown-fleck", "absent");
  const auto colony =
      support::colony_of(support::made(support::recessive_model()), builder.records);
  inference::RandomBits random(11);
  const odds::Tables one = odds::drawn(colony.model(), random);
  const odds::Tables two = odds::drawn(colony.model(), random);
  const PairChances chances(colony.model(), wanted_genotype(colony.model(), 0, 2));
  const auto mean = [&](std::vector<const odds::Tables*> tables) {
    return mixture_of(cells_of(colony, chances, tables)).chance();
  };
  EXPECT_NEAR(mean({&one, &two}), (mean({&one}) + mean({&two})) / 2, 1e-14);
  EXPECT_GT(std::abs(mean({&one}) - mean({&two})), 1e-6);
}

}  // namespace
}  // namespace likelihet::planning::pair_cells_test
