// A scenario's beliefs layer by layer: log evidence, sexes, memory, one animal against all.
#include <cmath>
#include <limits>
#include <string>

#include <gtest/gtest.h>
#include <support/solved_colony.hpp>

#include <likelihet/odds/layers.hpp>

namespace likelihet::odds::layers_test {
namespace {

using genetics::Chromosome;
using genetics::Sex;
using support::RecordsBuilder;

constexpr std::size_t enough = std::size_t{1} << 26U;

colony::ModelDescription no_mix_ups() {
  auto model = support::recessive_model();
  model.assays[0].mix_up = 0;
  return model;
}

// D carries with 1/2 and H is hers: plain, read "clear" and reported "carrier".
RecordsBuilder one_of_each() {
  RecordsBuilder records;
  records.founder("D").bought_as("tarnbrook", {{"+/+", 0.5}, {"e/e", 0.5}});
  records.founder("S").bought_as("tarnbrook", {{"+/e", 1.0}});
  records.clutch("C", "D", {"S"}).hatchling("H", "C").shows("H", "tarnbrook", "plain");
  records.score("H", "crown-fleck", "strong").result("H", "shed-pcr", "carrier");
  return records;
}

double log_of(const colony::Colony& colony, Layer layer) {
  const auto value =
      log_evidence(scenario(colony, std::nullopt), believed(colony.model()), layer, enough);
  return std::get<double>(value);
}

// H is +/+ 1/4, +/e 1/4 + 1/4, e/e 1/4. Plain: 3/4. The marker: (1/4 0.05 + 1/2 0.4) of that; the
// report: 1/4 x 0.05 x 0.003 + 1/2 x 0.4 x 0.985.
TEST(LogEvidence, AddsALayerAtATime) {
  const auto colony = support::colony_of(no_mix_ups(), one_of_each());
  EXPECT_NEAR(log_of(colony, Layer::sexes), 0, 1e-15);
  EXPECT_NEAR(log_of(colony, Layer::pedigree), std::log(0.75), 1e-14);
  EXPECT_NEAR(log_of(colony, Layer::scored), std::log(0.0125 + 0.2), 1e-14);
  EXPECT_NEAR(log_of(colony, Layer::posterior), std::log(0.0125 * 0.003 + 0.2 * 0.985), 1e-14);
}

// Parts that no descent joins multiply.
TEST(LogEvidence, OfStrangersAddsUp) {
  RecordsBuilder both = one_of_each();
  both.founder("X", std::nullopt, "bought").result("X", "shed-pcr", "carrier");
  RecordsBuilder stranger;
  stranger.founder("X", std::nullopt, "bought").result("X", "shed-pcr", "carrier");
  EXPECT_NEAR(log_of(support::colony_of(no_mix_ups(), both), Layer::posterior),
              log_of(support::colony_of(no_mix_ups(), one_of_each()), Layer::posterior) +
                  log_of(support::colony_of(no_mix_ups(), stranger), Layer::posterior),
              1e-13);
}

TEST(LogEvidence, OfAContradictionIsMinusInfinity) {
  RecordsBuilder records = one_of_each();
  records.shows("H", "tarnbrook", "tarnbrook");
  const auto colony = support::colony_of(no_mix_ups(), records);
  EXPECT_EQ(log_of(colony, Layer::posterior), -std::numeric_limits<double>::infinity());
}

// Sexes are given: ln P(sexes) is n ln(1/2) on Z, and nothing of it is left in the evidence.
TEST(LogOfSexes, IsOneHalfForEachSexThatIsKnown) {
  RecordsBuilder records;
  records.founder("D").founder("S").clutch("C", "D", {"S"});
  records.hatchling("H", "C", Sex::male).hatchling("I", "C");
  const auto colony = support::colony_of(support::sex_linked_model(Chromosome::z), records);
  const Scenario all = scenario(colony, std::nullopt);
  const Tables tables = believed(colony.model());
  const auto made = prepare(all, tables, enough);
  const auto& ready = *std::get<std::unique_ptr<Prepared>>(made);
  const auto log = log_of_sexes(all, ready, tables, enough);
  EXPECT_NEAR(std::get<double>(log), -3 * std::log(2.0), 1e-14) << "D, S and H";
  EXPECT_NEAR(log_of(colony, Layer::posterior), 0, 1e-14);
}

// With a lethal on Z a daughter of a carrier is 1/3 instead of 1/2.
TEST(LogOfSexes, CountsWhoLives) {
  auto model = support::sex_linked_model(Chromosome::z);
  model.loci[0].viability = {{"e/W", 0.0}};
  RecordsBuilder records;
  records.founder("D", Sex::female).founder("S", Sex::male).bought_as("tarnbrook", {{"+/e", 1.0}});
  records.clutch("C", "D", {"S"}).hatchling("H", "C", Sex::female);
  const auto colony = support::colony_of(model, records);
  const Scenario all = scenario(colony, std::nullopt);
  const Tables tables = believed(colony.model());
  const auto made = prepare(all, tables, enough);
  const auto log = log_of_sexes(all, *std::get<std::unique_ptr<Prepared>>(made), tables, enough);
  EXPECT_NEAR(std::get<double>(log), std::log(0.25 / 3), 1e-14);
}

// One animal's odds are those of the whole colony's computation.
TEST(OddsOf, EqualTheWholeColonys) {
  const support::SolvedColony solved(no_mix_ups(), one_of_each());
  for (std::size_t a = 0; a < 3; ++a) {
    const auto odds = odds_of(scenario(solved.colony(), std::nullopt), a, enough);
    const auto& one = std::get<AnimalOdds>(odds).loci[0];
    const auto& all = solved.odds().animals[a].loci[0];
    EXPECT_EQ(one.pedigree, all.pedigree);
    EXPECT_EQ(one.scored, all.scored);
    EXPECT_EQ(one.posterior, all.posterior);
    EXPECT_EQ(one.het[0].mean, all.het[0].mean);
    EXPECT_EQ(one.het[0].low, one.het[0].mean);
  }
}

TEST(OddsOf, AContradictionAreEmpty) {
  RecordsBuilder records = one_of_each();
  records.shows("H", "tarnbrook", "tarnbrook");
  const auto colony = support::colony_of(no_mix_ups(), records);
  EXPECT_TRUE(
      std::get<AnimalOdds>(odds_of(scenario(colony, std::nullopt), 2, enough)).loci.empty());
}

// Found before it starts, and told in a keeper's words: what, who, and what to do.
TEST(Prepare, RefusesWhatWouldNotFit) {
  const auto colony = support::colony_of(no_mix_ups(), one_of_each());
  const auto made = prepare(scenario(colony, std::nullopt), believed(colony.model()), 16);
  const auto* large = std::get_if<TooLarge>(&made);
  ASSERT_NE(large, nullptr);
  EXPECT_GT(large->bytes, 16);
  EXPECT_FALSE(large->clique.empty());
  EXPECT_NE(large->what.find("--memory"), std::string::npos) << large->what;
  const auto outcome = compute(colony, [] {
    Options options;
    options.memory_bytes = 16;
    return options;
  }());
  EXPECT_TRUE(std::holds_alternative<TooLarge>(outcome));
}

// The least memory that suffices is found by halving; half of it does not.
TEST(Prepare, FitsWhereItSaysItFits) {
  RecordsBuilder records;
  for (const char* id : {"A", "B", "C", "D"}) records.founder(id, std::nullopt, "bought");
  records.clutch("1", "A", {"B"}).hatchling("E", "1").hatchling("F", "1");
  records.clutch("2", "C", {"D"}).hatchling("G", "2").hatchling("H", "2");
  records.clutch("3", "E", {"G"}).hatchling("I", "3").clutch("4", "F", {"H"}).hatchling("J", "4");
  records.clutch("5", "I", {"J"}).hatchling("K", "5").score("K", "crown-fleck", "strong");
  const auto colony = support::colony_of(no_mix_ups(), records);
  const Tables tables = believed(colony.model());
  std::size_t fits = enough;
  const auto tried = [&](std::size_t bytes) {
    return std::holds_alternative<std::unique_ptr<Prepared>>(
        prepare(scenario(colony, std::nullopt), tables, bytes));
  };
  while (fits > 1 && tried(fits / 2)) fits /= 2;
  EXPECT_TRUE(tried(fits));
  EXPECT_FALSE(tried(fits / 2));
  EXPECT_LT(fits, std::size_t{1} << 20U) << "eleven animals take little";
}

// A colony without animals, and a model without a record: nothing to weigh.
TEST(Compute, OfNothingIsNothing) {
  const auto colony = support::colony_of(no_mix_ups(), RecordsBuilder());
  const auto outcome = compute(colony, {});
  const auto& odds = std::get<ColonyOdds>(outcome);
  EXPECT_TRUE(odds.animals.empty());
  EXPECT_EQ(odds.log_evidence, 0.0);
  EXPECT_TRUE(odds.surprises.empty());
}

}  // namespace
}  // namespace likelihet::odds::layers_test
