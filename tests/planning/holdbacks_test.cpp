// Which hatchlings to keep: by hand, against all sets, and the ends of what may be asked.
#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "planning/by_enumeration.hpp"
#include "properties/dice.hpp"
#include "properties/enumeration.hpp"
#include "properties/random_colony.hpp"
#include "properties/random_records.hpp"
#include <gtest/gtest.h>
#include <support/solved_colony.hpp>

#include <likelihet/planning/holdbacks.hpp>

namespace likelihet::planning::holdbacks_test {
namespace {

using genetics::Sex;
using support::RecordsBuilder;

HoldbackQuestion question_of(const colony::Colony& colony, std::size_t keep,
                             const std::string& goal = "carries") {
  HoldbackQuestion question;
  question.goal = std::get<KeepGoal>(keep_goal_named(colony.model().loci()[0], 0, goal));
  question.keep = keep;
  return question;
}

Holdbacks found(const colony::Colony& colony, const HoldbackQuestion& question) {
  return std::get<Holdbacks>(holdbacks(colony, question));
}

std::vector<std::string> ids(const colony::Colony& colony,
                             const std::vector<std::size_t>& animals) {
  std::vector<std::string> out;
  for (const std::size_t animal : animals) out.push_back(colony.animals()[animal].id);
  return out;
}

using Ids = std::vector<std::string>;

// The dam carries with 1/2; H1 to H4 are females and males in turn, H5 of unknown sex.
RecordsBuilder family() {
  RecordsBuilder records;
  records.founder("D", Sex::female).bought_as("tarnbrook", {{"+/+", 0.5}, {"+/e", 0.5}});
  records.founder("S", Sex::male).clutch("C", "D", {"S"});
  records.hatchling("H1", "C", Sex::female).hatchling("H2", "C", Sex::male);
  records.hatchling("H3", "C", Sex::female).hatchling("H4", "C", Sex::male).hatchling("H5", "C");
  return records;
}

// P(one of k carries) = 1/2 (1 - 1/2^k), and no more than 1/2 however many are kept.
TEST(Holdbacks, OfAClutchWhoseDamMayCarry) {
  const auto colony = support::colony_of(support::recessive_model(), family());
  const Holdbacks out = found(colony, question_of(colony, 5));
  ASSERT_EQ(out.sizes.size(), 5U);
  for (std::size_t k = 1; k <= 5; ++k) {
    const Kept& kept = out.sizes[k - 1];
    EXPECT_EQ(kept.animals.size(), k);
    EXPECT_NEAR(kept.chance, 0.5 * (1 - std::pow(0.5, static_cast<double>(k))), 1e-14);
    EXPECT_NEAR(kept.product, 1 - std::pow(0.75, static_cast<double>(k)), 1e-14);
    EXPECT_NEAR(kept.expected, 0.25 * static_cast<double>(k), 1e-14);
    EXPECT_TRUE(kept.searched);
  }
  EXPECT_EQ(ids(colony, out.sizes[1].animals), (Ids{"H1", "H2"})) << "all alike: by id";
  EXPECT_FALSE(out.guarantee);
  ASSERT_EQ(out.counts.size(), 6U);
  EXPECT_NEAR(out.counts[0], 0.5 + 0.5 / 32, 1e-14);
}

// At least one carrying female and one carrying male of two each: the dam carries (1/2) and then
// (3/4)^2, not ((1 - 9/16))^2 = 0.19 as independent ones would have.
TEST(Holdbacks, OfBothSexes) {
  const auto colony = support::colony_of(support::recessive_model(), family());
  HoldbackQuestion question = question_of(colony, 4);
  question.females = 2;
  question.males = 2;
  const Holdbacks out = found(colony, question);
  ASSERT_EQ(out.sizes.size(), 1U);
  EXPECT_EQ(ids(colony, out.sizes[0].animals), (Ids{"H1", "H2", "H3", "H4"}));
  EXPECT_NEAR(out.sizes[0].chance, 0.5 * 9 / 16, 1e-14);
  EXPECT_NEAR(out.sizes[0].product, 49.0 / 256, 1e-14);
  question.females = 1;
  question.males = 1;
  const Holdbacks more = found(colony, question);
  ASSERT_EQ(more.sizes.size(), 3U);
  EXPECT_NEAR(more.sizes[0].chance, 0.5 * 0.25, 1e-14);
  EXPECT_NEAR(more.sizes[1].chance, 0.5 * 0.375, 1e-14);
}

TEST(Holdbacks, MayFindTooFewOfASex) {
  const auto colony = support::colony_of(support::recessive_model(), family());
  HoldbackQuestion question = question_of(colony, 5);
  question.females = 3;
  EXPECT_TRUE(found(colony, question).sizes.empty()) << "of unknown sex is neither";
  question.exact = 0;
  EXPECT_TRUE(found(colony, question).sizes.empty());
}

// A marker and a result tell which: the tested one first, and a clear one last.
TEST(Holdbacks, TakesTheLikeliestFirst) {
  auto records = family();
  records.result("H4", "shed-pcr", "carrier").score("H2", "crown-fleck", "strong");
  records.result("H1", "shed-pcr", "clear");
  const auto colony = support::colony_of(support::recessive_model(), records);
  const Holdbacks out = found(colony, question_of(colony, 2));
  EXPECT_EQ(ids(colony, out.sizes[0].animals), (Ids{"H4"}));
  EXPECT_EQ(ids(colony, out.sizes[1].animals), (Ids{"H2", "H4"}));
  EXPECT_EQ(colony.animals()[out.hatchlings.front().animal].id, "H4");
  EXPECT_EQ(colony.animals()[out.hatchlings.back().animal].id, "H1");
}

TEST(Holdbacks, OfGoalsThatAreCertainOrOutOfReach) {
  const auto colony = support::colony_of(support::recessive_model(), family());
  const Holdbacks none = found(colony, question_of(colony, 2, "visual"));
  EXPECT_EQ(none.sizes[1].chance, 0);
  EXPECT_EQ(none.sizes[1].expected, 0);
  auto proven = family();
  proven.records.animals[0].bought_as = {{"tarnbrook", {{"e/e", 1.0}}, std::nullopt}};
  const auto sure = support::colony_of(support::recessive_model(), proven);
  const Holdbacks all = found(sure, question_of(sure, 2));
  EXPECT_EQ(all.sizes[0].chance, 1);
  EXPECT_EQ(all.sizes[1].expected, 2);
}

TEST(Holdbacks, KeepsNoMoreThanThereAre) {
  const auto colony = support::colony_of(support::recessive_model(), family());
  EXPECT_EQ(found(colony, question_of(colony, 50)).sizes.size(), 5U);
}

TEST(Holdbacks, OfAClutchWithoutHatchlings) {
  RecordsBuilder records;
  records.founder("D", Sex::female).founder("S", Sex::male).clutch("C", "D", {"S"});
  const auto colony = support::colony_of(support::recessive_model(), records);
  const Holdbacks out = found(colony, question_of(colony, 2));
  EXPECT_TRUE(out.hatchlings.empty());
  EXPECT_TRUE(out.sizes.empty());
  EXPECT_TRUE(out.counts.empty());
}

TEST(Holdbacks, TellsAClashAndWhatDoesNotFit) {
  auto records = family();
  records.shows("S", "tarnbrook", "tarnbrook");
  const auto clash = support::colony_of(support::recessive_model(), records);
  EXPECT_TRUE(std::holds_alternative<odds::Contradiction>(holdbacks(clash, question_of(clash, 1))));
  const auto colony = support::colony_of(support::recessive_model(), family());
  HoldbackQuestion question = question_of(colony, 1);
  question.book.memory_bytes = 10;
  EXPECT_TRUE(std::holds_alternative<odds::TooLarge>(holdbacks(colony, question)));
}

// A clutch of 40 unlike ones: all pairs are looked at, then one more each time.
TEST(Holdbacks, GoesOnGreedilyWhereSetsAreTooMany) {
  RecordsBuilder records;
  records.founder("D", Sex::female).bought_as("tarnbrook", {{"+/+", 0.5}, {"+/e", 0.5}});
  records.founder("S", Sex::male).clutch("C", "D", {"S"});
  for (int i = 10; i < 50; ++i) {
    const std::string id = "H" + std::to_string(i);
    records.hatchling(id, "C", i % 2 == 0 ? Sex::female : Sex::male);
    records.score(id, "crown-fleck", "faint").sure(0.4 + 0.01 * i);
  }
  const auto colony = support::colony_of(support::recessive_model(), records);
  HoldbackQuestion question = question_of(colony, 6);
  question.exact = 1000;
  const Holdbacks out = found(colony, question);
  ASSERT_EQ(out.sizes.size(), 6U);
  EXPECT_TRUE(out.sizes[1].searched) << "780 pairs";
  EXPECT_FALSE(out.sizes[2].searched) << "9880 of three";
  EXPECT_NEAR(*out.guarantee, 1 - std::exp(-1), 1e-15);
  for (std::size_t k = 1; k < 6; ++k) EXPECT_GE(out.sizes[k].chance, out.sizes[k - 1].chance);
  question.females = 3;
  question.males = 3;
  const Holdbacks both = found(colony, question);
  ASSERT_EQ(both.sizes.size(), 1U);
  EXPECT_FALSE(both.sizes[0].searched);
  EXPECT_FALSE(both.guarantee);
  EXPECT_EQ(both.sizes[0].animals.size(), 6U);
}

// On random clutches: no set of any size does better by enumeration, greedy stays within its bound,
// and the order of records changes nothing.
TEST(Holdbacks, AreTheBestOfAllSetsOnRandomBooks) {
  std::size_t compared = 0;
  properties::Dice order(9);
  for (std::uint64_t seed = 1; compared < 100; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    properties::Dice dice(seed);
    const auto drawn = properties::random_colony(dice);
    const auto& colony = *drawn.colony;
    if (properties::enumeration_size(colony) > 500 || colony.clutches().empty()) continue;
    if (properties::enumerate(colony, std::nullopt).contradiction) continue;
    const std::size_t clutch = dice.roll(colony.clutches().size());
    const auto& offspring = colony.clutches()[clutch].hatchlings;
    if (offspring.size() < 2 || offspring.size() > 5) continue;
    ++compared;
    HoldbackQuestion question = question_of(colony, offspring.size());
    question.clutch = clutch;
    const Holdbacks exact = found(colony, question);
    question.exact = 0;
    const Holdbacks greedy = found(colony, question);
    std::vector<double> best(offspring.size() + 1, 0.0);
    for (std::size_t bits = 1; bits < (std::size_t{1} << offspring.size()); ++bits) {
      std::vector<std::size_t> set;
      for (std::size_t i = 0; i < offspring.size(); ++i) {
        if (((bits >> i) & 1U) != 0) set.push_back(offspring[i]);
      }
      const double any = 1 - ByEnumeration::none(drawn.model, drawn.records, question.goal, set);
      best[set.size()] = std::max(best[set.size()], any);
    }
    for (std::size_t k = 1; k <= offspring.size(); ++k) {
      EXPECT_NEAR(exact.sizes[k - 1].chance, best[k], 1e-12);
      EXPECT_GE(greedy.sizes[k - 1].chance, (1 - std::exp(-1)) * best[k] - 1e-12);
    }
    question.exact = 20'000;
    const auto other = support::colony_of(drawn.model, properties::shuffled(order, drawn.records));
    question.clutch = *other.find_clutch(colony.clutches()[clutch].id);
    const Holdbacks again = found(other, question);
    for (std::size_t k = 0; k < exact.sizes.size(); ++k) {
      EXPECT_EQ(ids(colony, exact.sizes[k].animals), ids(other, again.sizes[k].animals));
      EXPECT_EQ(exact.sizes[k].chance, again.sizes[k].chance);
    }
  }
}

}  // namespace
}  // namespace likelihet::planning::holdbacks_test
