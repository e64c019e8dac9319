// Which animals a marker is judged on, and by what chances.
#include "audit/hand_made.hpp"
#include <gtest/gtest.h>

#include <likelihet/odds/scenario.hpp>

namespace likelihet::audit::marker_subjects_test {
namespace {

using support::RecordsBuilder;

std::vector<LevelRead> looks(std::size_t animals) {
  std::vector<LevelRead> out;
  for (std::size_t a = 0; a < animals; ++a) out.push_back(look(a, a % 3));
  return out;
}

// Of founders with these chances at tarnbrook, at the thresholds of the audit.
std::vector<Subject> subjects(const std::vector<HandAnimal>& animals, double yes = 0.99,
                              double no = 0.01) {
  const auto colony = hand_colony(animals);
  return subjects_of(colony, hand_table(colony, animals), looks(animals.size()), 0, 1, yes, no);
}

// By everything but markers, of a real book, on a marker that all of its animals were read for.
std::vector<Subject> subjects_by_records(const colony::Colony& colony, std::uint16_t allele) {
  auto copies =
      markerless_copies(odds::scenario(colony, std::nullopt), events_of(colony), 1U << 30U);
  const MarkerlessTable table(colony, std::get<std::vector<genetics::CopyChances>>(copies));
  return subjects_of(colony, table, looks(colony.animals().size()), 0, allele, 0.99, 0.01);
}

TEST(MarkerSubjects, LeaveOutAnimalsThatRatherHaveTwoCopies) {
  const auto found = subjects({{{0.1, 0.39, 0.51}}, {{0.2, 0.3, 0.5}}, {{0, 0, 1}}});
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].read.animal, 1U);
  EXPECT_EQ(found[0].read.level, 1U);
  EXPECT_DOUBLE_EQ(found[0].carrier, 0.6);  // 0.3 / (0.2 + 0.3)
}

TEST(MarkerSubjects, AreKnownFromTheThresholdsOn) {
  const auto found = subjects({{{0.01, 0.99, 0}},
                               {{0.011, 0.989, 0}},
                               {{0.99, 0.01, 0}},
                               {{0.989, 0.011, 0}},
                               {{0.02, 0.97, 0.01}}});
  ASSERT_EQ(found.size(), 5U);
  EXPECT_EQ(found[0].known, true);
  EXPECT_EQ(found[1].known, std::nullopt);
  EXPECT_EQ(found[2].known, false);
  EXPECT_EQ(found[3].known, std::nullopt);
  // P(one copy) itself, not among one and none: 0.97 / 0.99 = 0.9798
  EXPECT_EQ(found[4].known, std::nullopt);
  EXPECT_NEAR(found[4].carrier, 0.97 / 0.99, 1e-15);
  const auto lenient = subjects({{{0.2, 0.8, 0}}, {{0.8, 0.2, 0}}, {{0.5, 0.5, 0}}}, 0.8, 0.2);
  EXPECT_EQ(lenient.at(0).known, true);
  EXPECT_EQ(lenient.at(1).known, false);
  EXPECT_EQ(lenient.at(2).known, std::nullopt);
}

TEST(MarkerSubjects, ClusterByClutchAndFoundersAlone) {
  RecordsBuilder records;
  records.founder("F").founder("M").clutch("C", "F", {"M"}).clutch("D", "F", {"M"});
  records.hatchling("H1", "D").hatchling("H2", "D");
  const auto colony = hand_colony(records);
  const MarkerlessTable table(colony, std::vector<genetics::CopyChances>(8, {0.5, 0.5, 0}));
  const auto found = subjects_of(colony, table, looks(4), 0, 1, 0.99, 0.01);
  ASSERT_EQ(found.size(), 4U);
  EXPECT_EQ(found[0].cluster, 2U);  // two clutches, then founders
  EXPECT_EQ(found[1].cluster, 3U);
  EXPECT_EQ(found[2].cluster, 1U);
  EXPECT_EQ(found[3].cluster, 1U);
}

// A female of e/W shows the trait, yet has one copy: she is a carrier as the audit has it.
TEST(MarkerSubjects, OneCopyOnASexChromosomeIsOneCopy) {
  RecordsBuilder records;
  records.founder("F", genetics::Sex::female, "bought").bought_as("tarnbrook", {{"e/W", 1.0}}, 1.0);
  records.founder("G", genetics::Sex::female, "bought").bought_as("tarnbrook", {{"+/W", 1.0}}, 1.0);
  records.founder("M", genetics::Sex::male, "bought").bought_as("tarnbrook", {{"+/e", 1.0}}, 1.0);
  records.founder("N", genetics::Sex::male, "bought").bought_as("tarnbrook", {{"e/e", 1.0}}, 1.0);
  records.clutch("C", "G", {"M"}).hatchling("D", "C", genetics::Sex::female);
  const auto colony = support::colony_of(
      support::made(support::sex_linked_model(genetics::Chromosome::z)), records.records);
  const auto found = subjects_by_records(colony, 1);
  ASSERT_EQ(found.size(), 4U);  // N has two copies
  EXPECT_EQ(found[0].known, true);
  EXPECT_EQ(found[1].known, false);
  EXPECT_EQ(found[2].known, true);
  EXPECT_EQ(found[2].read.animal, 2U);
  // A daughter has her sire's one copy with chance 1/2, and never two.
  EXPECT_EQ(found[3].read.animal, 4U);
  EXPECT_NEAR(found[3].carrier, 0.5, 1e-12);
}

// Alleles +, e and a: an e/a animal has one copy of each, an e/e animal none of a.
TEST(MarkerSubjects, AllelesOfASeriesAreJudgedEachByItself) {
  auto model = support::recessive_model();
  model.loci[0].alleles = {"+", "e", "a"};
  model.loci[0].appearance = {{"default", {{"plain", 1.0}}},
                              {"e/e", {{"tarnbrook", 1.0}}},
                              {"e/a", {{"tarnbrook", 1.0}}},
                              {"a/a", {{"tarnbrook", 1.0}}}};
  model.assays.clear();
  RecordsBuilder records;
  records.founder("X", genetics::Sex::female, "bought").bought_as("tarnbrook", {{"e/a", 1.0}}, 1.0);
  records.founder("Y", genetics::Sex::male, "bought").bought_as("tarnbrook", {{"e/e", 1.0}}, 1.0);
  records.founder("P", genetics::Sex::male);
  records.clutch("C", "X", {"P"}).hatchling("H", "C");
  records.clutch("D", "X", {"Y"}).hatchling("K", "D");
  const auto colony = support::colony_of(support::made(model), records.records);
  const auto of_e = subjects_by_records(colony, 1);
  const auto of_a = subjects_by_records(colony, 2);
  ASSERT_EQ(of_e.size(), 4U);  // Y has two copies of e; K two with chance 1/2, no more
  EXPECT_EQ(of_e[0].known, true);
  EXPECT_EQ(of_e[1].known, false);
  EXPECT_NEAR(of_e[2].carrier, 0.5, 1e-12);
  // K is e/e or e/a: of those with one copy of e or none, all have one.
  EXPECT_NEAR(of_e[3].carrier, 1, 1e-12);
  EXPECT_EQ(of_e[3].known, std::nullopt);
  ASSERT_EQ(of_a.size(), 5U);
  EXPECT_EQ(of_a[0].known, true);
  EXPECT_EQ(of_a[1].known, false);
  EXPECT_NEAR(of_a[4].carrier, 0.5, 1e-12);
}

// Three alleles before two: an animal's five numbers are found in their places.
TEST(MarkerSubjects, TheTableIsByAnimalLocusAndAllele) {
  auto model = support::masked_model();
  model.loci[0].alleles = {"+", "e", "a"};
  model.markers.clear();
  model.assays.clear();
  RecordsBuilder records;
  records.founder("X").founder("Y");
  const auto colony = support::colony_of(support::made(model), records.records);
  const MarkerlessTable table(
      colony, {{0, 0.1, 0}, {0, 0.2, 0}, {0, 0.3, 0}, {0, 0.4, 0}, {0, 0.5, 0}, {0, 0.6, 0}});
  EXPECT_EQ(table.of(0, 0, 1).one, 0.1);
  EXPECT_EQ(table.of(0, 0, 2).one, 0.2);
  EXPECT_EQ(table.of(0, 1, 1).one, 0.3);
  EXPECT_EQ(table.of(1, 0, 2).one, 0.5);
  EXPECT_EQ(table.of(1, 1, 1).one, 0.6);
}

TEST(MarkerSubjects, LevelDataWeighsEachAnimalByItsChances) {
  const auto found = subjects({{{0.25, 0.75, 0}}, {{1, 0, 0}}, {{0, 0, 1}}, {{0.2, 0.2, 0.4}}});
  const LevelData data = level_data(found, 3);
  EXPECT_EQ(data.levels, 3U);
  EXPECT_EQ(data.classes, 2U);
  EXPECT_EQ(data.level, (std::vector<std::size_t>{0, 1, 0}));  // the third has two copies
  EXPECT_EQ(data.weight, (std::vector<double>{0.25, 0.75, 1, 0, 0.5, 0.5}));
  EXPECT_TRUE(data.count.empty());
}

TEST(MarkerSubjects, ComparedHasTheLevelAsGradeInTheStratumGiven) {
  const auto found = subjects({{{0.25, 0.75, 0}}, {{1, 0, 0}}, {{0.5, 0.5, 0}}});
  const auto out = compared(found, std::vector<std::size_t>{7, 7, 4});
  ASSERT_EQ(out.size(), 3U);
  EXPECT_EQ(out[0].marker, 0);
  EXPECT_EQ(out[0].carrier, 0.75);
  EXPECT_EQ(out[1].stratum, 7U);
  EXPECT_EQ(out[2].marker, 2);
  EXPECT_EQ(out[2].carrier, 0.5);
  EXPECT_EQ(out[2].stratum, 4U);
}

}  // namespace
}  // namespace likelihet::audit::marker_subjects_test
