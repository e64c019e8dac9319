// Which samples to send: by hand, against enumeration, and the ends of what may be asked.
#include <algorithm>
#include <cmath>
#include <set>
#include <string>
#include <vector>

#include "planning/by_enumeration.hpp"
#include "planning/planned.hpp"
#include "properties/dice.hpp"
#include "properties/enumeration.hpp"
#include "properties/random_colony.hpp"
#include "properties/random_records.hpp"
#include <gtest/gtest.h>
#include <support/solved_colony.hpp>

#include <likelihet/planning/next_test.hpp>

namespace likelihet::planning::next_test_test {
namespace {

using genetics::Sex;
using support::RecordsBuilder;

colony::Policy no_lot() {
  colony::Policy policy;
  policy.random_one_in = 0;
  return policy;
}

TestPlan planned(const colony::Colony& colony, const TestQuestion& question,
                 const colony::Policy& policy = no_lot()) {
  return std::get<TestPlan>(next_test(colony, policy, question));
}

TestQuestion tests(std::size_t number) {
  TestQuestion question;
  question.tests = number;
  return question;
}

std::vector<std::string> ids(const colony::Colony& colony, const TestPlan& plan) {
  std::vector<std::string> out;
  for (const ChosenTest& test : plan.chosen) {
    out.push_back(colony.animals()[plan.candidates[test.candidate].test.animal].id);
  }
  return out;
}

colony::ModelDescription perfect() {
  auto model = support::recessive_model();
  model.assays[0].rows = {{"+/+", {1, 0, 0, 0}}, {"+/e", {0, 1, 0, 0}}, {"e/e", {0, 0, 1, 0}}};
  model.assays[0].mix_up = 0;
  return model;
}

// D carries with 1/2; her three offspring with 1/4 each.
RecordsBuilder family() {
  RecordsBuilder records;
  records.founder("D", Sex::female).bought_as("tarnbrook", {{"+/+", 0.5}, {"+/e", 0.5}});
  records.founder("S", Sex::male).clutch("C", "D", {"S"});
  for (const char* id : {"H1", "H2", "H3"}) records.hatchling(id, "C");
  return records;
}

// The dam: 1 bit. Then each offspring: 1/2 x 1 bit (she carries) + 1/2 x 0.
TEST(NextTest, AsksTheDamFirst) {
  const auto colony = support::colony_of(perfect(), family());
  const TestPlan plan = planned(colony, tests(3));
  EXPECT_EQ(ids(colony, plan), (std::vector<std::string>{"D", "H1", "H2"}));
  EXPECT_NEAR(plan.chosen[0].gain.value, 1, 1e-15);
  EXPECT_NEAR(plan.chosen[1].gain.value, 0.5, 1e-15);
  EXPECT_NEAR(plan.chosen[2].gain.value, 0.5, 1e-15);
  EXPECT_NEAR(plan.bits.value, 2, 1e-15);
  // Given D, three tests can add no more than D's and two offspring, a half bit each (beside D none
  // has more); alone they would have 1 bit and 0.81 twice.
  EXPECT_NEAR(plan.most_bits, 2.5, 1e-15);
  EXPECT_NEAR(*plan.guarantee, 1 - std::exp(-1), 1e-15);
  EXPECT_FALSE(plan.sampled);
  EXPECT_EQ(plan.cost, 135);
  // All listings: 1 + 3 H(1/4) bits before, 1/2 bit after (H3 where the dam carries).
  const double quarter = 0.25 * 2 + 0.75 * std::log2(4.0 / 3);
  EXPECT_NEAR(plan.listing_bits, 1 + 3 * quarter - 0.5, 1e-14);
  EXPECT_NEAR(plan.chosen[0].listing_bits, 1 + 3 * (quarter - 0.5), 1e-14);
}

TEST(NextTest, StopsWhereNothingIsLeftToTell) {
  const auto colony = support::colony_of(perfect(), family());
  const TestPlan plan = planned(colony, tests(50));
  EXPECT_EQ(plan.chosen.size(), 4U) << "S is certain";
  EXPECT_NEAR(plan.bits.value, 2.5, 1e-15);
  EXPECT_NEAR(plan.most_bits, 2.5, 1e-15);
  EXPECT_EQ(plan.values[4].bits, 0);
}

TEST(NextTest, OfAnAnimalThatWasTestedTellsLess) {
  auto records = family();
  records.result("D", "shed-pcr", "clear");
  const auto colony = support::colony_of(support::recessive_model(), records);
  const TestPlan plan = planned(colony, tests(2));
  EXPECT_TRUE(plan.candidates[0].tested);
  EXPECT_GT(plan.values[0].bits, 0) << "a laboratory may have erred";
  EXPECT_LT(plan.values[0].bits, 0.05);
  // With a perfect test nobody has anything left to tell.
  const auto sure = support::colony_of(perfect(), records);
  const TestPlan none = planned(sure, tests(2));
  EXPECT_TRUE(none.chosen.empty());
  EXPECT_EQ(none.bits.value, 0);
}

TEST(NextTest, HasNothingToSendWithoutAssaysOrAnimals) {
  auto model = support::recessive_model();
  model.assays.clear();
  EXPECT_TRUE(planned(support::colony_of(model, family()), tests(3)).chosen.empty());
  const auto nobody = support::colony_of(support::recessive_model(), RecordsBuilder());
  EXPECT_TRUE(planned(nobody, tests(3)).candidates.empty());
  const auto colony = support::colony_of(support::recessive_model(), family());
  EXPECT_TRUE(planned(colony, tests(0)).chosen.empty());
}

TEST(NextTest, OfOneAnimal) {
  RecordsBuilder records;
  records.founder("A", std::nullopt, "bought");
  const auto colony = support::colony_of(perfect(), records);
  const TestPlan plan = planned(colony, tests(3));
  ASSERT_EQ(plan.chosen.size(), 1U);
  // Hardy and Weinberg at 0.02: 0.9604, 0.0392, 0.0004.
  const double bits =
      -(0.9604 * std::log2(0.9604) + 0.0392 * std::log2(0.0392) + 0.0004 * std::log2(0.0004));
  EXPECT_NEAR(plan.bits.value, bits, 1e-12);
}

TEST(NextTest, TellsAClash) {
  auto records = family();
  records.shows("S", "tarnbrook", "tarnbrook");
  const auto colony = support::colony_of(perfect(), records);
  const auto outcome = next_test(colony, no_lot(), tests(1));
  EXPECT_TRUE(std::holds_alternative<odds::Contradiction>(outcome));
}

TEST(NextTest, MayNotFit) {
  const auto colony = support::colony_of(perfect(), family());
  TestQuestion question = tests(1);
  question.book.memory_bytes = 10;
  EXPECT_TRUE(std::holds_alternative<odds::TooLarge>(next_test(colony, no_lot(), question)));
}

TEST(NextTest, AsksOnlyWhatItIsAskedFor) {
  const auto colony = support::colony_of(perfect(), family());
  TestQuestion question = tests(3);
  question.asked.animals = {*colony.find_animal("H2"), *colony.find_animal("H1")};
  EXPECT_EQ(ids(colony, planned(colony, question)), (std::vector<std::string>{"H1", "H2"}));
  question.asked.locus = 0;
  question.asked.assays = {0};
  EXPECT_EQ(planned(colony, question).candidates.size(), 2U);
}

TEST(NextTest, StaysWithinABudget) {
  auto model = perfect();
  auto cheap = model.assays[0];
  cheap.id = "rough";
  cheap.price = 10;
  cheap.rows = {{"+/+", {0.9, 0.1, 0, 0}}, {"+/e", {0.1, 0.9, 0, 0}}, {"e/e", {0, 0, 1, 0}}};
  model.assays.push_back(cheap);
  auto free_of_price = cheap;
  free_of_price.id = "priceless";
  free_of_price.price = std::nullopt;
  model.assays.push_back(free_of_price);
  const auto colony = support::colony_of(model, family());
  TestQuestion question;
  question.budget = 50;
  const TestPlan plan = planned(colony, question);
  EXPECT_LE(plan.cost, 50);
  EXPECT_EQ(plan.left_out, 5U);
  EXPECT_EQ(plan.rule, ChoiceRule::gain_for_price) << "five rough tests tell more than one";
  EXPECT_EQ(plan.chosen.size(), 4U);
  EXPECT_GE(plan.most_bits, plan.bits.value);
  EXPECT_NEAR(*plan.guarantee, (1 - std::exp(-1)) / 2, 1e-15);
  question.tests = 1;
  const TestPlan single = planned(colony, question);
  EXPECT_EQ(single.chosen.size(), 1U);
  EXPECT_EQ(single.cost, 45);
  EXPECT_FALSE(single.guarantee);
  question.budget = 0;
  EXPECT_TRUE(planned(colony, question).chosen.empty());
}

TEST(NextTest, DrawsALotAmongTheUntested) {
  auto records = family();
  records.result("H1", "shed-pcr", "no-call");
  const auto colony = support::colony_of(support::recessive_model(), records);
  std::set<std::string> drawn;
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    TestQuestion question = tests(4);
    question.seed = seed;
    colony::Policy policy;
    policy.random_one_in = 4;
    const TestPlan plan = planned(colony, question, policy);
    ASSERT_EQ(plan.chosen.size(), 4U);
    EXPECT_TRUE(plan.chosen[0].by_lot);
    for (std::size_t i = 1; i < 4; ++i) EXPECT_FALSE(plan.chosen[i].by_lot);
    drawn.insert(ids(colony, plan)[0]);
    EXPECT_EQ(ids(colony, planned(colony, question, policy)), ids(colony, plan)) << "same seed";
  }
  // Not H1, who was tested (the laboratory gave no call), and not S, who is certain.
  EXPECT_EQ(drawn, (std::set<std::string>{"D", "H2", "H3"}));
}

TEST(NextTest, DrawsNoLotForFewerTestsThanOneIn) {
  const auto colony = support::colony_of(support::recessive_model(), family());
  for (const ChosenTest& test : planned(colony, tests(4), colony::Policy{}).chosen) {
    EXPECT_FALSE(test.by_lot);
  }
}

TEST(NextTest, TellsMoneyWhereThePolicyDoes) {
  const auto colony = support::colony_of(perfect(), family());
  colony::Policy policy = no_lot();
  policy.worth = {{"tarnbrook", {{"+/e", 300}}, 100}};
  policy.prices = {{"shed-pcr", 20}};
  const TestPlan plan = planned(colony, tests(4), policy);
  EXPECT_TRUE(plan.worth_given);
  EXPECT_EQ(plan.cost, 80);
  // All known in the end: the dam 150 -> 200; each offspring 100 -> 100 + 1/4 x 200.
  EXPECT_NEAR(plan.worth, 50 + 3 * 50, 1e-11);
  double sum = 0;
  for (const ChosenTest& test : plan.chosen) sum += test.worth;
  EXPECT_NEAR(sum, plan.worth, 1e-11);
}

// Strangers' reports are independent: the plan goes through each by itself and adds up.
TEST(NextTest, GoesThroughStrangersApart) {
  RecordsBuilder records;
  for (int i = 0; i < 12; ++i) records.founder("A" + std::to_string(10 + i), {}, "bought");
  const auto colony = support::colony_of(support::recessive_model(), records);
  const TestPlan plan = planned(colony, tests(12));
  EXPECT_EQ(plan.chosen.size(), 12U);
  EXPECT_FALSE(plan.sampled) << "4^12 combinations together, 4 apart";
  EXPECT_NEAR(plan.bits.value, 12 * plan.values[0].bits, 1e-10);
}

// Draws stand for combinations: near the exact figure, by the standard error that is told.
TEST(NextTest, DrawsWhereCombinationsAreTooMany) {
  const auto colony = support::colony_of(support::recessive_model(), family());
  const TestPlan exact = planned(colony, tests(4));
  double squares = 0;
  std::size_t rounds = 0;
  for (std::uint64_t seed = 1; seed <= 40; ++seed) {
    TestQuestion question = tests(4);
    question.limits = {1, 200};
    question.seed = seed;
    const TestPlan drawn = planned(colony, question);
    EXPECT_TRUE(drawn.sampled);
    EXPECT_GT(drawn.chosen[2].gain.standard_error, 0);
    const double off = drawn.bits.value - exact.bits.value;
    EXPECT_LT(std::abs(off), 5 * drawn.bits.standard_error);
    squares += off * off / drawn.bits.standard_error / drawn.bits.standard_error;
    ++rounds;
  }
  EXPECT_LT(std::sqrt(squares / static_cast<double>(rounds)), 1.5) << "errors are as told or less";
}

TEST(NextTest, DoesNotDependOnTheOrderOfRecords) {
  properties::Dice dice(3);
  std::size_t compared = 0;
  for (std::uint64_t seed = 1; compared < 30; ++seed) {
    properties::Dice own(seed);
    const auto drawn = properties::random_colony(own);
    TestQuestion question = tests(3);
    question.limits = {6, 40};
    const auto first = next_test(*drawn.colony, colony::Policy{}, question);
    const auto* plan = std::get_if<TestPlan>(&first);
    if (plan == nullptr || plan->chosen.empty()) continue;
    ++compared;
    const auto other = support::colony_of(drawn.model, properties::shuffled(dice, drawn.records));
    const TestPlan again = planned(other, question, colony::Policy{});
    EXPECT_EQ(ids(*drawn.colony, *plan), ids(other, again)) << "seed " << seed;
    EXPECT_EQ(plan->bits.value, again.bits.value);
    EXPECT_EQ(plan->listing_bits, again.listing_bits);
    EXPECT_EQ(plan->most_bits, again.most_bits);
  }
}

// 100 random books: the information of every candidate, of the set chosen, and its listing gain, by
// enumeration of every report; and no set of that size found by trying all tells more than the
// bounds say.
TEST(NextTest, EqualsBruteForceOnRandomBooks) {
  std::size_t compared = 0;
  for (std::uint64_t seed = 1; compared < 100; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    properties::Dice dice(seed);
    const auto drawn = properties::random_colony(dice);
    if (drawn.model->assays().empty()) continue;
    if (properties::enumeration_size(*drawn.colony) > 500) continue;
    ByEnumeration slow(drawn.model, drawn.records);
    if (!slow.possible()) continue;
    TestQuestion question = tests(2);
    for (std::size_t i = 0; i < 4; ++i) {
      question.asked.animals.push_back(dice.roll(drawn.colony->animals().size()));
    }
    question.asked.assays = {dice.roll(drawn.model->assays().size())};
    const TestPlan plan = planned(*drawn.colony, question);
    if (plan.chosen.empty()) continue;
    ++compared;
    const auto test = [&](std::size_t c) { return plan.candidates[c].test; };
    for (std::size_t c = 0; c < plan.candidates.size(); ++c) {
      EXPECT_NEAR(plan.values[c].bits, slow.information({test(c)}), 1e-10);
    }
    std::vector<planning::Test> chosen;
    double sum = 0;
    for (const ChosenTest& one : plan.chosen) {
      chosen.push_back(test(one.candidate));
      sum += one.gain.value;
    }
    EXPECT_NEAR(plan.bits.value, sum, 1e-13);
    EXPECT_NEAR(plan.bits.value, slow.information(chosen), 1e-10);
    const std::size_t locus = plan.candidates.front().locus;
    EXPECT_NEAR(plan.listing_bits, slow.listing_gain(chosen, locus), 1e-9);
    double best = 0;
    for (std::size_t a = 0; a < plan.candidates.size(); ++a) {
      for (std::size_t b = a; b < plan.candidates.size(); ++b) {
        std::vector<planning::Test> pair{test(a)};
        if (b != a) pair.push_back(test(b));
        best = std::max(best, slow.information(pair));
      }
    }
    EXPECT_LE(best, plan.most_bits + 1e-8) << "what is left out tells less than a billionth";
    EXPECT_GE(plan.bits.value, *plan.guarantee * best - 1e-8);
  }
}

}  // namespace
}  // namespace likelihet::planning::next_test_test
