// Odds averaged over what a scenario teaches of its tables.
#include <cmath>

#include "audit/simulated_season.hpp"
#include <gtest/gtest.h>

#include <likelihet/audit/cluster_sample.hpp>
#include <likelihet/audit/learned_draws.hpp>
#include <likelihet/audit/learned_mode.hpp>
#include <likelihet/audit/markerless.hpp>
#include <likelihet/inference/random_bits.hpp>

namespace likelihet::audit::learned_draws_test {
namespace {

using support::RecordsBuilder;

// Animals of known truth teach one marker of two levels; X is a hatchling of even odds that shows
// it. Twelve hets of whom nine show it, ten others of whom two do. Belief counts six animals,
// evenly.
RecordsBuilder taught() {
  RecordsBuilder records;
  for (int i = 0; i < 12; ++i) {
    const std::string id = "K" + std::to_string(i);
    records.founder(id, std::nullopt, "bought").bought_as("tarnbrook", {{"+/e", 1.0}}, 1.0);
    records.score(id, "crown-fleck", i < 9 ? "level-1" : "level-0");
  }
  for (int i = 0; i < 10; ++i) {
    const std::string id = "N" + std::to_string(i);
    records.founder(id).score(id, "crown-fleck", i < 2 ? "level-1" : "level-0");
  }
  records.founder("F", genetics::Sex::female, "bought").bought_as("tarnbrook", {{"+/e", 1.0}}, 1.0);
  records.founder("M", genetics::Sex::male).clutch("C", "F", {"M"}).hatchling("X", "C");
  return records;
}

std::shared_ptr<const colony::Model> model() {
  return support::made(season_model(
      {{"crown-fleck", 2, [](const Hatchling&) { return std::vector<double>{}; }, false}}));
}

// Draws and colonies point to the model they are of.
class LearnedDrawsOf : public testing::Test {
 protected:
  [[nodiscard]] LearnedDraws draws(const DrawSettings& settings = {}) const {
    return LearnedDraws(*model_, settings);
  }
  [[nodiscard]] colony::Colony colony(const RecordsBuilder& records) const {
    return support::colony_of(model_, records.records);
  }
  std::shared_ptr<const colony::Model> model_ = model();
};

double odds_of(LearnedDraws& learned, const colony::Colony& taught, const colony::Colony& asked,
               const std::string& animal) {
  const auto of_taught = odds::scenario(taught, std::nullopt);
  const auto of_asked = odds::scenario(asked, std::nullopt);
  const auto found = learned.odds(of_taught, of_asked, {{*asked.find_animal(animal), 0, 1}});
  return std::get<std::vector<double>>(found).at(0);
}

// The rows are Beta(3 + 9, 3 + 3) and Beta(3 + 2, 3 + 8): X, of even odds and not read, is at 1/2.
// With a reading of its own that belongs to what teaches, its posterior is
// E[q1] / (E[q1] + E[q0]), since it is one animal more of either row: 12/18 / (12/18 + 5/16).
TEST_F(LearnedDrawsOf, AverageIsThatOfTheBetaRows) {
  auto records = taught();
  LearnedDraws learned = draws();
  const auto before = colony(records);
  EXPECT_NEAR(odds_of(learned, before, before, "X"), 0.5, 1e-9);
  records.score("X", "crown-fleck", "level-1");
  const auto book = colony(records);
  DrawSettings many;
  many.draws = 4000;
  LearnedDraws longer = draws(many);
  const double expected = (12.0 / 18) / (12.0 / 18 + 5.0 / 16);
  EXPECT_NEAR(odds_of(longer, book, book, "X"), expected, 0.01);
}

// One reading more moves the weights, not the draws; a book that says otherwise needs a new chain.
TEST_F(LearnedDrawsOf, FollowSmallChangesAndDrawAnewAfterLargeOnes) {
  auto records = taught();
  LearnedDraws learned = draws();
  const auto first = colony(records);
  odds_of(learned, first, first, "X");
  EXPECT_EQ(learned.chains(), 1U);
  records.score("X", "crown-fleck", "level-1");
  const auto second = colony(records);
  const double followed = odds_of(learned, second, second, "X");
  EXPECT_EQ(learned.chains(), 1U);
  LearnedDraws anew = draws();
  EXPECT_NEAR(followed, odds_of(anew, second, second, "X"), 0.03);
  for (int i = 0; i < 60; ++i) {
    const std::string id = "Q" + std::to_string(i);
    records.founder(id, std::nullopt, "bought").bought_as("tarnbrook", {{"+/e", 1.0}}, 1.0);
    records.score(id, "crown-fleck", "level-0");
  }
  const auto third = colony(records);
  odds_of(learned, third, third, "X");
  EXPECT_EQ(learned.chains(), 2U);
}

// Learned without the reading, asked with it: the rows do not learn from X, but X is read by them.
TEST_F(LearnedDrawsOf, TeachOneScenarioAndAnswerAnother) {
  auto records = taught();
  const auto without = colony(records);
  records.score("X", "crown-fleck", "level-1");
  const auto with = colony(records);
  DrawSettings many;
  many.draws = 4000;
  LearnedDraws learned = draws(many);
  // E[q1 / (q1 + q0)] over Beta(12, 6) and Beta(5, 11), by Simpson's rule on a grid.
  double sum = 0;
  double whole = 0;
  constexpr int steps = 400;
  for (int i = 1; i < steps; ++i) {
    for (int j = 1; j < steps; ++j) {
      const double q1 = static_cast<double>(i) / steps;
      const double q0 = static_cast<double>(j) / steps;
      const double weight =
          std::pow(q1, 11) * std::pow(1 - q1, 5) * std::pow(q0, 4) * std::pow(1 - q0, 10);
      whole += weight;
      sum += weight * q1 / (q1 + q0);
    }
  }
  EXPECT_NEAR(odds_of(learned, without, with, "X"), sum / whole, 0.01);
}

TEST_F(LearnedDrawsOf, TheSameSeedGivesTheSameOdds) {
  auto records = taught();
  records.score("X", "crown-fleck", "level-1");
  const auto book = colony(records);
  LearnedDraws one = draws();
  LearnedDraws two = draws();
  EXPECT_EQ(odds_of(one, book, book, "X"), odds_of(two, book, book, "X"));
  DrawSettings other;
  other.seed = 7;
  LearnedDraws three = draws(other);
  EXPECT_NE(odds_of(one, book, book, "X"), odds_of(three, book, book, "X"));
}

TEST_F(LearnedDrawsOf, OfRecordsThatClashAreNone) {
  auto records = taught();
  records.shows("X", "tarnbrook", "tarnbrook");
  const auto book = colony(records);
  const auto scenario = odds::scenario(book, std::nullopt);
  LearnedDraws learned = draws();
  const auto found = learned.odds(scenario, scenario, {{0, 0, 1}});
  EXPECT_TRUE(std::get<std::vector<double>>(found).empty());
}

TEST_F(LearnedDrawsOf, TooLittleMemoryIsTold) {
  auto records = taught();
  records.founder("A", genetics::Sex::female, "bought").founder("B", genetics::Sex::male, "bought");
  records.clutch("K", "A", {"B"}).hatchling("H", "K").shows("H", "tarnbrook", "plain");
  const auto book = colony(records);
  const auto scenario = odds::scenario(book, std::nullopt);
  DrawSettings settings;
  settings.memory_bytes = 16;
  LearnedDraws learned = draws(settings);
  EXPECT_TRUE(std::holds_alternative<odds::TooLarge>(learned.odds(scenario, scenario, {})));
}

// In the coordinates of the mode a row stands at (worth x expect + seen) over their sum: 12/18,
// 5/16.
TEST_F(LearnedDrawsOf, ModeIsWhereBeliefAndCountsMeet) {
  const auto book = colony(taught());
  const auto found =
      learned_mode(odds::scenario(book, std::nullopt), first_start(*model_), 1U << 28U);
  const auto& mode = std::get<std::optional<odds::Tables>>(found);
  ASSERT_TRUE(mode);
  EXPECT_NEAR(mode->rows[0][0][0][1], 12.0 / 18, 1e-4);
  EXPECT_NEAR(mode->rows[0][0][1][1], 5.0 / 16, 1e-4);
}

TEST_F(LearnedDrawsOf, ModeOfRecordsThatClashIsNone) {
  auto records = taught();
  records.shows("X", "tarnbrook", "tarnbrook");
  const auto book = colony(records);
  const auto found =
      learned_mode(odds::scenario(book, std::nullopt), first_start(*model_), 1U << 28U);
  EXPECT_FALSE(std::get<std::optional<odds::Tables>>(found));
}

TEST(ClusterSample, DrawsWholeClusters) {
  const std::vector<std::size_t> cluster = {7, 7, 3, 7, 9, 9};
  const ClusterSampler sampler(cluster);
  EXPECT_EQ(sampler.clusters(), 3U);
  inference::RandomBits random(1);
  double members = 0;
  constexpr int draws = 3000;
  for (int k = 0; k < draws; ++k) {
    const auto drawn = sampler.draw(random);
    members += static_cast<double>(drawn.size()) / draws;
    std::vector<std::size_t> times(cluster.size(), 0);
    for (const ClusterMember& one : drawn) ++times[one.position];
    EXPECT_EQ(times[0], times[1]);
    EXPECT_EQ(times[0], times[3]);
    EXPECT_EQ(times[4], times[5]);
  }
  EXPECT_NEAR(members, 6, 0.1);  // three clusters of two members on average
}

TEST(ClusterSample, OfNothingIsNothing) {
  const ClusterSampler sampler(std::vector<std::size_t>{});
  inference::RandomBits random(1);
  EXPECT_TRUE(sampler.draw(random).empty());
}

}  // namespace
}  // namespace likelihet::audit::learned_draws_test
