// A record of past forecasts, and what it lacks. Forecasts are made by hand; no odds are computed.
#include <gmock/gmock.h>
#include <publishing/listed.hpp>

#include <likelihet/publishing/standing.hpp>

namespace likelihet::publishing::standing_test {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

// Ten clutches of four, and forty hatchlings' forecasts at locus 0.
colony::Colony herd() {
  support::RecordsBuilder records;
  for (int c = 0; c < 10; ++c) {
    const std::string clutch = "C" + std::to_string(c);
    records.clutch(clutch, std::nullopt, {});
    for (int h = 0; h < 4; ++h) records.hatchling(clutch + "-" + std::to_string(h), clutch);
  }
  return support::colony_of(support::made(support::masked_model()), records.records);
}

// By pedigree always 1/2; with markers 3/4 of hets and 1/4 of others. Half are hets.
audit::Forecasts good_forecasts(std::size_t count) {
  audit::Forecasts out;
  for (std::size_t t = 0; t < count; ++t) {
    const bool so = t % 2 == 0;
    const audit::Kind kind = t < 6 ? audit::Kind::test : audit::Kind::breeding;
    out.truths.push_back({{t, 0, 1}, so ? 1.0 : 0.0, support::day("2026-08-01"), kind});
    for (audit::Scheme scheme : {audit::Scheme::as_it_stood, audit::Scheme::clutch_left_out}) {
      // One in ten is wrong, so that the slope is finite.
      const bool wrong = t % 10 == 9;
      out.forecasts.push_back({t, audit::Basis::pedigree, scheme, 0.5});
      out.forecasts.push_back({t, audit::Basis::scored, scheme, so != wrong ? 0.75 : 0.25});
    }
  }
  out.scored.assign(40, true);
  return out;
}

TEST(RecordOf, CountsForecastsAsTheyStoodOnce) {
  const Record record = record_of(herd(), good_forecasts(20), 0);
  EXPECT_EQ(record.forecasts, 20U);
  // Ten right hets, two wrong others: 12 x 0.75 + 8 x 0.25 = 11.
  EXPECT_DOUBLE_EQ(record.expected, 11);
  EXPECT_DOUBLE_EQ(record.observed, 10);
  EXPECT_THAT(record.kinds,
              ElementsAre(std::pair(audit::Kind::test, 6U), std::pair(audit::Kind::breeding, 14U)));
}

TEST(RecordOf, SkillIsOneLessTheRatioOfBrierScores) {
  const Record record = record_of(herd(), good_forecasts(20), 0);
  // 18 right: 1/16; 2 wrong: 9/16. Mean (18 + 18)/(16 x 20) = 0.1125 against 0.25: 0.55.
  ASSERT_TRUE(record.skill);
  EXPECT_NEAR(*record.skill, 0.55, 1e-12);
  ASSERT_TRUE(record.skill_interval);
  EXPECT_LT(record.skill_interval->low, 0.55);
  EXPECT_GT(record.skill_interval->high, 0.55);
}

TEST(RecordOf, LeavesOutAnimalsThatNobodyReadAndOtherLoci) {
  auto forecasts = good_forecasts(20);
  forecasts.scored[0] = false;
  forecasts.truths[1].event.locus = 1;
  EXPECT_EQ(record_of(herd(), forecasts, 0).forecasts, 18U);
  EXPECT_EQ(record_of(herd(), forecasts, 1).forecasts, 1U);
}

TEST(RecordOf, IsEmptyWithoutForecasts) {
  audit::Forecasts none;
  none.scored.assign(40, true);
  const Record record = record_of(herd(), none, 0);
  EXPECT_EQ(record.forecasts, 0U);
  EXPECT_FALSE(record.skill);
  EXPECT_THAT(lacking(record, {}), ElementsAre("0 of 20 outcomes"));
  EXPECT_THAT(record_in_words(herd(), 0, record), HasSubstr("no record yet"));
}

Record earned() {
  Record record;
  record.forecasts = 20;
  record.skill = 0.1;
  record.skill_interval = audit::Interval{0.02, 0.21};
  record.slope = 0.8;
  return record;
}

TEST(Lacking, NothingWhereThePolicyIsMet) {
  EXPECT_THAT(lacking(earned(), {}), IsEmpty());
}

TEST(Lacking, TooFewOutcomes) {
  Record record = earned();
  record.forecasts = 12;
  EXPECT_THAT(lacking(record, {}), ElementsAre("12 of 20 outcomes"));
}

TEST(Lacking, SkillWhoseIntervalIsNotAboveTheLimit) {
  Record record = earned();
  record.skill_interval = audit::Interval{-0.02, 0.21};
  EXPECT_THAT(lacking(record, {}), ElementsAre("skill 0.10, interval -0.02 to 0.21, not above 0"));
  // At the limit is not above it.
  record.skill_interval = audit::Interval{0, 0.21};
  EXPECT_THAT(lacking(record, {}), ElementsAre("skill 0.10, interval 0.00 to 0.21, not above 0"));
  record.skill_interval.reset();
  EXPECT_THAT(lacking(record, {}),
              ElementsAre("skill 0.10, without an interval: too few clutches"));
  record.skill.reset();
  EXPECT_THAT(lacking(record, {}), ElementsAre("skill against pedigree cannot be told"));
}

TEST(Lacking, SlopeBelowTheLimitOrUnknown) {
  Record record = earned();
  record.slope = 0.79;
  EXPECT_THAT(lacking(record, {}), ElementsAre("slope 0.79, below 0.8"));
  record.slope.reset();
  EXPECT_THAT(lacking(record, {}), ElementsAre("slope of calibration cannot be told"));
}

TEST(Lacking, AllThatIsMissingIsNamed) {
  Record record;
  record.forecasts = 3;
  record.skill = -0.5;
  record.slope = -1;
  EXPECT_EQ(lacking(record, {}).size(), 3U);
}

TEST(RecordInWords, LabelsTheKindsOfOutcome) {
  EXPECT_THAT(
      record_in_words(herd(), 0, record_of(herd(), good_forecasts(20), 0)),
      HasSubstr("Of 20 past forecasts for tarnbrook with markers, 11.0 hets were expected and "
                "10.0 found (known: 6 by test, 14 by breeding)."));
}

}  // namespace
}  // namespace likelihet::publishing::standing_test
