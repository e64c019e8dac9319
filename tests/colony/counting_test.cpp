// Which observations count as of a day: withdrawals, and withdrawals of withdrawals.
#include <optional>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>
#include <support/small_model.hpp>

#include <likelihet/colony/counting.hpp>

namespace likelihet::colony::counting_test {
namespace {

using namespace likelihet::colony;
using namespace likelihet::support;

using Positions = std::vector<std::size_t>;

std::shared_ptr<const Model> tarnbrook() {
  static const auto model = made(recessive_model());
  return model;
}

// Seen in January, withdrawn in February, the withdrawal withdrawn in March.
Colony restored() {
  RecordsBuilder builder;
  builder.founder("F");
  builder.shows("F", "tarnbrook", "plain").on("2024-01-10");
  builder.withdraw("o1").on("2024-02-10");
  builder.withdraw("o2").on("2024-03-10");
  builder.score("F", "crown-fleck", "strong").on("2024-02-10");
  return colony_of(tarnbrook(), builder.records);
}

TEST(Counting, FollowsWithdrawalsDayByDay) {
  const Colony colony = restored();
  EXPECT_EQ(counting(colony, day("2024-01-09")), (Positions{}));
  EXPECT_EQ(counting(colony, day("2024-01-10")), (Positions{0}));
  EXPECT_EQ(counting(colony, day("2024-02-09")), (Positions{0}));
  EXPECT_EQ(counting(colony, day("2024-02-10")), (Positions{3}));
  EXPECT_EQ(counting(colony, day("2024-03-10")), (Positions{0, 3}));
  EXPECT_EQ(counting(colony, std::nullopt), (Positions{0, 3}));
}

TEST(Counting, TellsTheDaysOfChange) {
  EXPECT_EQ(days_of_change(restored()),
            (std::vector<Date>{day("2024-01-10"), day("2024-02-10"), day("2024-03-10")}));
}

TEST(Counting, AlwaysCountsWhatHasNoDay) {
  RecordsBuilder builder;
  builder.founder("F")
      .shows("F", "tarnbrook", "plain")
      .shows("F", "tarnbrook", "plain")
      .withdraw("o2");
  const Colony colony = colony_of(tarnbrook(), builder.records);
  EXPECT_EQ(counting(colony, day("0001-01-01")), (Positions{0}));
  EXPECT_EQ(counting(colony, std::nullopt), (Positions{0}));
  EXPECT_TRUE(days_of_change(colony).empty());
}

// One of two withdrawals is enough, and stays so when only the other is taken back.
TEST(Counting, NeedsOnlyOneOfTwoWithdrawals) {
  RecordsBuilder builder;
  builder.founder("F").shows("F", "tarnbrook", "plain");
  builder.withdraw("o1").withdraw("o1").withdraw("o2");
  EXPECT_EQ(counting(colony_of(tarnbrook(), builder.records), std::nullopt), (Positions{}));
}

TEST(Counting, GoesByTheDayOfRecordingNotOfSeeing) {
  RecordsBuilder builder;
  builder.founder("F").shows("F", "tarnbrook", "plain").on("2024-01-10");
  builder.observation().recorded = Timestamp::parse("2024-05-01T09:00:00Z");
  const Colony colony = colony_of(tarnbrook(), builder.records);
  EXPECT_EQ(counting(colony, day("2024-04-30")), (Positions{}));
  EXPECT_EQ(counting(colony, day("2024-05-01")), (Positions{0}));
}

// The definition, read literally.
bool counts(const Colony& colony, std::size_t position, const std::optional<Date>& as_of) {
  const Observation& observation = colony.observations()[position];
  if (as_of && observation.known && *observation.known > *as_of) return false;
  for (std::size_t i = 0; i < colony.observations().size(); ++i) {
    const auto* withdrawal = std::get_if<Withdrawal>(&colony.observations()[i].what);
    if (withdrawal != nullptr && withdrawal->of == position && counts(colony, i, as_of)) {
      return false;
    }
  }
  return true;
}

RC_GTEST_PROP(CountingProperty, AgreesWithTheDefinition, ()) {
  RecordsBuilder builder;
  builder.founder("F").shows("F", "tarnbrook", "plain");
  const int more = *rc::gen::inRange(0, 12);
  for (int i = 0; i < more; ++i) {
    if (*rc::gen::arbitrary<bool>()) {
      builder.withdraw("o" + std::to_string(*rc::gen::inRange(1, i + 2)));
    } else {
      builder.shows("F", "tarnbrook", "plain");
    }
    builder.on("2024-01-0" + std::to_string(*rc::gen::inRange(1, 10)));
  }
  const Colony colony = colony_of(tarnbrook(), builder.records);
  const auto as_of = day("2024-01-0" + std::to_string(*rc::gen::inRange(1, 10)));
  Positions expected;
  for (std::size_t i = 0; i < colony.observations().size(); ++i) {
    const bool withdrawal = std::holds_alternative<Withdrawal>(colony.observations()[i].what);
    if (!withdrawal && counts(colony, i, as_of)) expected.push_back(i);
  }
  RC_ASSERT(counting(colony, as_of) == expected);
}

// Worst case: each withdrawal withdraws the one before, fifty thousand deep.
TEST(Counting, ResolvesALongChain) {
  for (const int withdrawals : {50'000, 50'001}) {
    RecordsBuilder builder;
    builder.founder("F").shows("F", "tarnbrook", "plain");
    for (int i = 1; i <= withdrawals; ++i) builder.withdraw("o" + std::to_string(i));
    const auto counted = counting(colony_of(tarnbrook(), builder.records), std::nullopt);
    EXPECT_EQ(counted.size(), withdrawals % 2 == 0 ? 1U : 0U);
  }
}

}  // namespace
}  // namespace likelihet::colony::counting_test
