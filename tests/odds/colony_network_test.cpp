// The network of a colony: what is a variable and what a leaf, its numbers by layer, its order.
#include <algorithm>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <support/solved_colony.hpp>

#include <likelihet/inference/random_bits.hpp>
#include <likelihet/odds/colony_network.hpp>
#include <likelihet/odds/renewal.hpp>

namespace likelihet::odds::colony_network_test {
namespace {

using genetics::Chromosome;
using genetics::Sex;
using support::RecordsBuilder;

ColonyNetwork network_of(const colony::Colony& colony) {
  return colony_network(scenario(colony, std::nullopt), believed(colony.model()));
}

RecordsBuilder family() {
  RecordsBuilder records;
  records.founder("D", Sex::female, "bought").founder("S", Sex::male, "bought");
  records.clutch("C", "D", {"S"}).hatchling("H", "C").hatchling("I", "C").hatchling("J", "C");
  records.founder("T").clutch("E", "H", {"T"}).hatchling("N", "E");
  return records;
}

bool is_leaf(const colony::Colony& colony, const ColonyNetwork& net, const std::string& animal,
             std::size_t locus = 0) {
  return net.node(*colony.find_animal(animal), locus).leaf;
}

TEST(ColonyNetwork, HasLeavesForAnimalsWithoutOffspring) {
  const auto colony = support::colony_of(support::recessive_model(), family());
  const auto net = network_of(colony);
  for (const char* breeder : {"D", "S", "H", "T"}) EXPECT_FALSE(is_leaf(colony, net, breeder));
  for (const char* offspring : {"I", "J", "N"}) EXPECT_TRUE(is_leaf(colony, net, offspring));
  EXPECT_EQ(net.network().variables(), 4U);
  EXPECT_EQ(net.network().leaves(), 3U);
  for (const char* breeder : {"D", "H"}) {
    const Owner& owner = net.owner(net.node(*colony.find_animal(breeder), 0).id);
    EXPECT_EQ(owner.kind, Owner::Kind::animal);
    EXPECT_EQ(owner.index, *colony.find_animal(breeder));
  }
}

// A brood, a marker over two loci, and a hundred reports each need room of their own.
TEST(ColonyNetwork, HasVariablesWhereEvidenceNeedsThem) {
  auto model = support::masked_model();
  model.markers[0].contexts.clear();
  model.markers[0].rows = {{{{"tarnbrook", "+/e"}, {"brackmoor", "+/s"}}, {0.2, 0.3, 0.5}, 5.0},
                           {{}, {0.8, 0.1, 0.1}, 5.0}};
  RecordsBuilder records = family();
  records.brood("I", "tarnbrook", "+/e", {{"plain", 2}}).score("J", "crown-fleck", "strong");
  for (int i = 0; i < 100; ++i) records.result("N", "shed-pcr", "carrier");
  const auto colony = support::colony_of(model, records);
  const auto net = network_of(colony);
  EXPECT_FALSE(is_leaf(colony, net, "I", 0));
  EXPECT_TRUE(is_leaf(colony, net, "I", 1));
  EXPECT_FALSE(is_leaf(colony, net, "J", 0));
  EXPECT_FALSE(is_leaf(colony, net, "J", 1));
  EXPECT_FALSE(is_leaf(colony, net, "N", 0));
  EXPECT_TRUE(is_leaf(colony, net, "N", 1));
}

TEST(ColonyNetwork, NamesUnnamedParentsAndSires) {
  RecordsBuilder records;
  records.founder("D").founder("A").founder("B");
  records.clutch("C", "D", {"A", "B"}).hatchling("H", "C").shows("H", "tarnbrook", "plain");
  records.clutch("E", std::nullopt, {}).hatchling("I", "E");
  const auto colony = support::colony_of(support::recessive_model(), records);
  const auto net = network_of(colony);
  std::size_t kinds[5] = {0, 0, 0, 0, 0};
  for (inference::Variable v = 0; v < net.network().variables(); ++v) {
    ++kinds[static_cast<std::size_t>(net.owner(v).kind)];
  }
  EXPECT_EQ(kinds[0], 3U);
  EXPECT_EQ(kinds[1], 1U);
  EXPECT_EQ(kinds[2], 1U);
  EXPECT_EQ(kinds[3], 1U) << "one sire for the clutch";
  EXPECT_EQ(kinds[4], 0U);
}

// Nobody's evidence tells the sires apart: no variable asks who it was.
TEST(ColonyNetwork, AsksForNoSireWhereNothingTells) {
  RecordsBuilder records;
  records.founder("D").founder("A").founder("B");
  records.clutch("C", "D", {"A", "B"}).hatchling("H", "C");
  const auto colony = support::colony_of(support::recessive_model(), records);
  EXPECT_EQ(network_of(colony).network().variables(), 3U);
}

// Layer by layer fewer terms are 1: the numbers of H's evidence.
TEST(ColonyNetwork, WritesTheNumbersOfALayer) {
  RecordsBuilder records = family();
  records.shows("I", "tarnbrook", "plain").score("I", "crown-fleck", "strong");
  records.result("I", "shed-pcr", "carrier");
  auto model = support::recessive_model();
  model.assays[0].mix_up = 0;
  const auto colony = support::colony_of(model, records);
  const auto net = network_of(colony);
  const Tables tables = believed(colony.model());
  const auto& leaf = net.network().leaf(net.node(*colony.find_animal("I"), 0).id);
  const std::size_t at = net.network().offset(leaf.evidence);
  const auto numbers = [&](Layer layer) {
    const auto values = net.values(layer, tables);
    return std::vector<double>(values.begin() + static_cast<std::ptrdiff_t>(at),
                               values.begin() + static_cast<std::ptrdiff_t>(at) + 3);
  };
  EXPECT_EQ(numbers(Layer::sexes), (std::vector<double>{1, 1, 1}));
  EXPECT_EQ(numbers(Layer::pedigree), (std::vector<double>{1, 1, 0}));
  EXPECT_EQ(numbers(Layer::scored), (std::vector<double>{0.05, 0.4, 0}));
  const auto all = numbers(Layer::posterior);
  EXPECT_NEAR(all[0], 0.05 * 0.003, 1e-18);
  EXPECT_NEAR(all[1], 0.4 * 0.985, 1e-16);
}

// Renewing at the belief writes what values() writes, and touches only what depends on tables.
TEST(ColonyNetwork, RenewsWhatHangsOnBeliefs) {
  RecordsBuilder records = family();
  records.shows("I", "tarnbrook", "plain").score("I", "crown-fleck", "strong", "ana");
  records.result("J", "shed-pcr", "carrier");
  const auto colony = support::colony_of(support::recessive_model(), records);
  const auto net = network_of(colony);
  EXPECT_TRUE(net.uncertain());
  const Tables centre = believed(colony.model());
  const auto values = net.values(Layer::posterior, centre);
  inference::RandomBits random(4);
  auto other = values;
  Renewal<double> renewal(net, Layer::posterior);
  renewal.take(drawn(colony.model(), random));
  renewal.write(Layer::posterior, other);
  EXPECT_NE(other, values);
  std::vector<bool> may_change(values.size(), false);
  for (const auto& slot : net.slots()) {
    const auto begin =
        may_change.begin() + static_cast<std::ptrdiff_t>(net.network().offset(slot.table));
    if (slot.depends) std::fill_n(begin, net.network().size(slot.table), true);
  }
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (may_change[i]) continue;
    EXPECT_EQ(other[i], values[i]) << i;
  }
  renewal.take(centre);
  renewal.write(Layer::posterior, other);
  EXPECT_EQ(other, values);
}

// Every layer at once, a set of tables in each lane: to the bit what values() gives one by one.
TEST(ColonyNetwork, RenewsEightSetsAndEveryLayer) {
  RecordsBuilder records = family();
  records.shows("I", "tarnbrook", "plain").score("I", "crown-fleck", "strong", "ana");
  records.score("J", "crown-fleck", "faint", "ana").result("J", "shed-pcr", "carrier");
  const auto colony = support::colony_of(support::recessive_model(), records);
  const auto net = network_of(colony);
  inference::RandomBits random(7);
  std::vector<Tables> sets;
  Renewal<inference::Lanes<8>> renewal(net, Layer::posterior);
  for (std::size_t k = 0; k < 8; ++k) {
    renewal.take(sets.emplace_back(drawn(colony.model(), random)), k);
  }
  for (Layer layer : {Layer::sexes, Layer::pedigree, Layer::scored, Layer::posterior}) {
    std::vector<inference::Lanes<8>> lanes;
    for (double v : net.values(layer, believed(colony.model()))) lanes.emplace_back(v);
    renewal.write(layer, lanes);
    for (std::size_t k = 0; k < 8; ++k) {
      const auto alone = net.values(layer, sets[k]);
      for (std::size_t i = 0; i < alone.size(); ++i) EXPECT_EQ(lanes[i].lane[k], alone[i]);
    }
  }
}

TEST(ColonyNetwork, IsCertainWithoutMarkersAndOrigins) {
  RecordsBuilder records;
  records.founder("D").founder("S").clutch("C", "D", {"S"}).hatchling("H", "C");
  records.result("H", "shed-pcr", "clear");
  const auto colony = support::colony_of(support::recessive_model(), records);
  const auto net = network_of(colony);
  EXPECT_FALSE(net.uncertain());
}

// Animals that are alike share their tables: a hundred siblings of one look take no more numbers
// than one.
TEST(ColonyNetwork, SharesTablesOfEqualEvidence) {
  RecordsBuilder few = family();
  few.shows("I", "tarnbrook", "plain");
  RecordsBuilder many = family();
  many.shows("I", "tarnbrook", "plain");
  for (int i = 0; i < 100; ++i) {
    std::string id = "K";
    id += std::to_string(i);
    many.hatchling(id, "C").shows(id, "tarnbrook", "plain");
  }
  const auto small = support::colony_of(support::recessive_model(), few);
  const auto large = support::colony_of(support::recessive_model(), many);
  EXPECT_EQ(network_of(small).network().values().size(),
            network_of(large).network().values().size());
}

// Records in another order give the same network, number by number.
TEST(ColonyNetwork, DoesNotDependOnTheOrderOfRecords) {
  RecordsBuilder records = family();
  records.shows("I", "tarnbrook", "plain").score("N", "crown-fleck", "strong", "ana");
  records.score("N", "crown-fleck", "faint").sure(0.7).result("H", "shed-pcr", "clear");
  const auto there = support::colony_of(support::recessive_model(), records);
  const auto first = network_of(there);
  std::reverse(records.records.animals.begin(), records.records.animals.end());
  std::reverse(records.records.clutches.begin(), records.records.clutches.end());
  std::reverse(records.records.observations.begin(), records.records.observations.end());
  const auto back = support::colony_of(support::recessive_model(), records);
  const auto second = network_of(back);
  EXPECT_EQ(first.network().values(), second.network().values());
  ASSERT_EQ(first.network().factors(), second.network().factors());
  for (std::size_t f = 0; f < first.network().factors(); ++f) {
    const auto a = first.network().scope(f);
    const auto b = second.network().scope(f);
    EXPECT_TRUE(std::equal(a.begin(), a.end(), b.begin(), b.end()));
  }
}

}  // namespace
}  // namespace likelihet::odds::colony_network_test
