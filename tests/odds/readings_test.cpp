// Readings of markers in a colony: soft, repeated, by several scorers, weighted, in contexts.
#include <algorithm>
#include <cmath>
#include <memory>
#include <string>

#include <gtest/gtest.h>
#include <support/solved_colony.hpp>

#include <likelihet/odds/layers.hpp>

namespace likelihet::odds::readings_test {
namespace {

using support::RecordsBuilder;
using support::SolvedColony;

// A founder of even odds; crown-fleck's "clear" has 0.4 for a het, 0.05 for others.
RecordsBuilder half_a_carrier() {
  RecordsBuilder records;
  records.founder("F").bought_as("tarnbrook", {{"+/+", 0.5}, {"+/e", 0.5}});
  return records;
}

double odds_of(const RecordsBuilder& records,
               const colony::ModelDescription& model = support::recessive_model()) {
  const double p = SolvedColony(model, records).posterior("F", "+/e");
  return p / (1 - p);
}

TEST(Readings, OfOneCertainLevelAreItsRatio) {
  RecordsBuilder records = half_a_carrier();
  records.score("F", "crown-fleck", "strong");
  EXPECT_NEAR(odds_of(records), 0.4 / 0.05, 1e-12);
}

// 90 % sure: (0.9 x 0.4 + 0.05 x 0.3 + 0.05 x 0.3) / (0.9 x 0.05 + 0.05 x 0.15 + 0.05 x 0.8).
TEST(Readings, AreSoftenedByDoubt) {
  RecordsBuilder records = half_a_carrier();
  records.score("F", "crown-fleck", "strong").sure(0.9);
  EXPECT_NEAR(odds_of(records), 0.39 / 0.0925, 1e-12);
}

// The scorer's own 95 % unless the reading gives another, and certain where there is neither.
TEST(Readings, TakeTheirSurenessFromTheScorerUnlessGiven) {
  RecordsBuilder by_ana = half_a_carrier();
  by_ana.score("F", "crown-fleck", "strong", "ana");
  EXPECT_NEAR(odds_of(by_ana), (0.95 * 0.4 + 0.025 * 0.6) / (0.95 * 0.05 + 0.025 * 0.95), 1e-12);
  by_ana.sure(0.9);
  EXPECT_NEAR(odds_of(by_ana), 0.39 / 0.0925, 1e-12);
  RecordsBuilder by_no_one = half_a_carrier();
  by_no_one.score("F", "crown-fleck", "strong");
  EXPECT_NEAR(odds_of(by_no_one), 8, 1e-12);
}

// All look at one true level: r multiplies within the sum. Twice "strong" at 0.9: r = 0.0025,
// 0.0025, 0.81. That is less than two independent markers would say.
TEST(Readings, OfOneMarkerLookAtOneLevel) {
  RecordsBuilder records = half_a_carrier();
  records.score("F", "crown-fleck", "strong").sure(0.9);
  records.score("F", "crown-fleck", "strong").sure(0.9);
  const double twice = (0.81 * 0.4 + 0.0025 * 0.6) / (0.81 * 0.05 + 0.0025 * 0.95);
  EXPECT_NEAR(odds_of(records), twice, 1e-12);
  EXPECT_LT(twice, (0.39 / 0.0925) * (0.39 / 0.0925));
}

// However often it is read, a marker says no more than its level: the ratio 8.
TEST(Readings, RepeatedReachTheLevelAndNoFurther) {
  RecordsBuilder records = half_a_carrier();
  double before = 1;
  for (int i = 0; i < 30; ++i) {
    records.score("F", "crown-fleck", "strong").sure(0.9);
    const double now = odds_of(records);
    EXPECT_GE(now, before - 1e-12);
    EXPECT_LE(now, 8 + 1e-12);
    before = now;
  }
  EXPECT_NEAR(before, 8, 1e-9);
}

// Half of 400 people say "faint", half "strong": r(absent) is nothing beside r of the other two,
// which are alike: (0.9 x 0.05)^200, far below what a double holds.
TEST(Readings, OfHundredsWhoDifferEvenlyAreNoContradiction) {
  RecordsBuilder records = half_a_carrier();
  for (int i = 0; i < 200; ++i) {
    records.score("F", "crown-fleck", "strong").sure(0.9);
    records.score("F", "crown-fleck", "faint").sure(0.9);
  }
  EXPECT_NEAR(odds_of(records), 0.7 / 0.2, 1e-12);
  const SolvedColony solved(support::recessive_model(), records);
  const double log_r = 200 * (std::log(0.9) + std::log(0.05));
  EXPECT_NEAR(solved.odds().log_evidence, log_r + std::log(0.5 * 0.7 + 0.5 * 0.2), 1e-9);
  records.score("F", "crown-fleck", "strong").sure(0.9);  // 18 : 1 for "strong"
  EXPECT_NEAR(odds_of(records), (18 * 0.4 + 0.3) / (18 * 0.05 + 0.15), 1e-12);
}

// The factor taken out is of the tables at hand: other reliabilities of a scorer, other evidence.
// At half the weight the square root of it.
TEST(Readings, OfHundredsCountAtOtherReliabilities) {
  auto model = support::recessive_model();
  for (const double weight : {1.0, 0.5}) {
    model.markers[0].weight = weight;
    RecordsBuilder records = half_a_carrier();
    for (int i = 0; i < 150; ++i) {
      records.score("F", "crown-fleck", "strong", "ana");
      records.score("F", "crown-fleck", "faint", "ana");
    }
    const auto colony = support::colony_of(model, records);
    const Scenario recorded = scenario(colony, std::nullopt);
    const auto made = prepare(recorded, believed(colony.model()), std::size_t{1} << 28U);
    const auto& prepared = *std::get<std::unique_ptr<Prepared>>(made);
    for (const double sure : {0.6, 0.95, 0.9999, 1 - 1e-9}) {
      Tables tables = believed(colony.model());
      tables.scorers[0] = sure;
      const auto values = prepared.net.values(Layer::posterior, tables);
      const double log_r = 150 * (std::log(sure) + std::log((1 - sure) / 2));
      const double absent = std::exp(150 * std::log((1 - sure) / 2 / sure));
      const double rows =
          0.5 * std::pow(0.7 + 0.3 * absent, weight) + 0.5 * std::pow(0.2 + 0.8 * absent, weight);
      EXPECT_NEAR(inference::log_evidence(*prepared.plan, values), weight * log_r + std::log(rows),
                  1e-8)
          << weight << ' ' << sure;
    }
  }
}

TEST(Readings, OfTwoScorersWhoDiffer) {
  auto model = support::recessive_model();
  model.scorers.push_back({"ben", 0.6});
  RecordsBuilder records = half_a_carrier();
  records.score("F", "crown-fleck", "strong", "ana").score("F", "crown-fleck", "absent", "ben");
  // r: absent 0.025 x 0.6, faint 0.025 x 0.2, clear 0.95 x 0.2.
  const double r[3] = {0.015, 0.005, 0.19};
  const double carrier = 0.3 * r[0] + 0.3 * r[1] + 0.4 * r[2];
  const double other = 0.8 * r[0] + 0.15 * r[1] + 0.05 * r[2];
  EXPECT_NEAR(odds_of(records, model), carrier / other, 1e-12);
}

TEST(Readings, CertainAndDifferentContradict) {
  RecordsBuilder records = half_a_carrier();
  records.score("F", "crown-fleck", "strong").score("F", "crown-fleck", "absent");
  const auto colony = support::colony_of(support::recessive_model(), records);
  const auto clash = support::clash_of(colony);
  EXPECT_EQ(support::ids_of(colony, clash.observations), (std::vector<std::string>{"o1", "o2"}));
}

TEST(Readings, ThatCouldNotBeMadeSayNothing) {
  RecordsBuilder records = half_a_carrier();
  records.score("F", "crown-fleck", std::nullopt);
  const SolvedColony solved(support::recessive_model(), records);
  EXPECT_NEAR(solved.posterior("F", "+/e"), 0.5, 1e-15);
  EXPECT_NEAR(solved.odds().log_evidence, 0, 1e-15);
}

TEST(Readings, AreRaisedToTheWeightOfTheMarker) {
  RecordsBuilder records = half_a_carrier();
  records.score("F", "crown-fleck", "strong").sure(0.9);
  auto model = support::recessive_model();
  for (const double weight : {1.0, 0.5, 0.25, 0.0}) {
    model.markers[0].weight = weight;
    EXPECT_NEAR(odds_of(records, model), std::pow(0.39 / 0.0925, weight), 1e-12) << weight;
  }
}

// Two markers are two pieces of evidence.
TEST(Readings, OfTwoMarkersMultiply) {
  auto model = support::recessive_model();
  model.markers.push_back(model.markers[0]);
  model.markers[1].id = "side-thread";
  model.markers[1].weight = 0.5;
  RecordsBuilder records = half_a_carrier();
  records.score("F", "crown-fleck", "strong").score("F", "side-thread", "absent");
  EXPECT_NEAR(odds_of(records, model), 8 * std::sqrt(0.3 / 0.8), 1e-12);
}

// Where the animal shows "thornwick" the marker can't be read: once that is recorded it says
// nothing.
TEST(Readings, AreSetAsideInAContext) {
  RecordsBuilder records = half_a_carrier();
  records.bought_as("brackmoor", {{"s/s", 1.0}}).score("F", "crown-fleck", "strong");
  EXPECT_NEAR(odds_of(records, support::masked_model()), 8, 1e-12) << "not recorded";
  records.shows("F", "brackmoor", "thornwick");
  EXPECT_NEAR(odds_of(records, support::masked_model()), 1, 1e-12);
}

// A line with rows of its own: 0.6 against 0.3. A hatchling without a line has its clutch's.
TEST(Readings, FollowTheRowsOfALine) {
  auto model = support::recessive_model();
  model.markers[0].contexts = {
      {std::nullopt,
       std::nullopt,
       "dune",
       false,
       {{{{"tarnbrook", "+/e"}}, {0.2, 0.2, 0.6}, 5.0}, {{}, {0.4, 0.3, 0.3}, 5.0}}}};
  RecordsBuilder records = half_a_carrier();
  records.score("F", "crown-fleck", "strong");
  EXPECT_NEAR(odds_of(records, model), 8, 1e-12);
  records.animal().line = "dune";
  EXPECT_NEAR(odds_of(records, model), 2, 1e-12);

  RecordsBuilder clutch;
  clutch.founder("D").bought_as("tarnbrook", {{"+/e", 1.0}}).founder("S");
  clutch.clutch("C", "D", {"S"}).hatchling("F", "C").score("F", "crown-fleck", "strong");
  clutch.clutch_record().line = "dune";
  EXPECT_NEAR(odds_of(clutch, model), 2, 1e-12);
}

// A marker that reads two loci ties them: clear with 0.9 where both carry, with 0.1 elsewhere.
TEST(Readings, OfAMarkOfTwoLociTieThem) {
  auto model = support::masked_model();
  model.markers[0].contexts.clear();
  model.markers[0].levels = {"absent", "strong"};
  model.markers[0].rows = {{{{"tarnbrook", "+/e"}, {"brackmoor", "+/s"}}, {0.1, 0.9}, 5.0},
                           {{}, {0.9, 0.1}, 5.0}};
  RecordsBuilder records = half_a_carrier();
  records.bought_as("brackmoor", {{"+/+", 0.5}, {"+/s", 0.5}}).score("F", "crown-fleck", "strong");
  const SolvedColony solved(model, records);
  // Joint 0.9 : 0.1 : 0.1 : 0.1 of 1.2.
  EXPECT_NEAR(solved.posterior("F", "+/e"), 1.0 / 1.2, 1e-14);
  EXPECT_NEAR(solved.posterior("F", "+/s", "brackmoor"), 1.0 / 1.2, 1e-14);
  records.shows("F", "brackmoor", "plain").result("F", "shed-pcr", "no-call");
  EXPECT_NEAR(SolvedColony(model, records).posterior("F", "+/s", "brackmoor"), 1.0 / 1.2, 1e-13);
  EXPECT_NEAR(SolvedColony(model, records).scored("F", "+/e"), 1.0 / 1.2, 1e-14);
}

// Readings count from the second layer on.
TEST(Readings, AreNoPartOfThePedigree) {
  RecordsBuilder records = half_a_carrier();
  records.score("F", "crown-fleck", "strong").result("F", "shed-pcr", "clear");
  const SolvedColony solved(support::recessive_model(), records);
  EXPECT_NEAR(solved.pedigree("F", "+/e"), 0.5, 1e-15);
  EXPECT_NEAR(solved.scored("F", "+/e"), 8.0 / 9, 1e-14);
  EXPECT_LT(solved.posterior("F", "+/e"), 0.1);
}

// A sibling's readings tell through the parents: a carrier sib speaks for a het dam.
TEST(Readings, TellOfRelatives) {
  RecordsBuilder records;
  records.founder("D").bought_as("tarnbrook", {{"+/+", 0.5}, {"+/e", 0.5}}).founder("S");
  records.clutch("C", "D", {"S"}).hatchling("H", "C").hatchling("F", "C");
  records.score("H", "crown-fleck", "strong");
  // P(H's marker | D carries) = (0.4 + 0.05)/2 = 0.225, else 0.05; D 9 : 2, F half of that.
  const SolvedColony solved(support::recessive_model(), records);
  EXPECT_NEAR(solved.posterior("D", "+/e"), 9.0 / 11, 1e-14);
  EXPECT_NEAR(solved.posterior("F", "+/e"), 4.5 / 11, 1e-14);
}

// The order in which they were written down never matters: the same doubles come out.
TEST(Readings, DoNotDependOnTheOrderOfRecords) {
  RecordsBuilder records = half_a_carrier();
  records.founder("S").clutch("C", "F", {"S"}).hatchling("H", "C").hatchling("I", "C");
  records.score("H", "crown-fleck", "strong", "ana").score("F", "crown-fleck", "absent").sure(0.7);
  records.score("H", "crown-fleck", "faint")
      .sure(0.6)
      .score("I", "crown-fleck", "strong")
      .sure(0.8);
  const SolvedColony there(support::recessive_model(), records);
  std::reverse(records.records.observations.begin(), records.records.observations.end());
  std::reverse(records.records.animals.begin(), records.records.animals.end());
  const SolvedColony back(support::recessive_model(), records);
  for (const char* animal : {"F", "H", "I"}) {
    EXPECT_EQ(there.at(animal).posterior, back.at(animal).posterior) << animal;
  }
  EXPECT_EQ(there.odds().log_evidence, back.odds().log_evidence);
}

}  // namespace
}  // namespace likelihet::odds::readings_test
