// Published numbers against outcomes.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <likelihet/audit/claims.hpp>

namespace likelihet::audit::claims_test {
namespace {

using testing::IsEmpty;
using testing::SizeIs;

colony::Date day(const std::string& text) {
  return *colony::Date::parse(text);
}

Claimed claimed(const std::string& code, std::size_t animal, double low, double high,
                const std::string& on) {
  return {code, {animal, 0, 1}, low, high, day(on)};
}

Truth truth(std::size_t animal, double probability, const std::optional<colony::Date>& known_on) {
  return {{animal, 0, 1}, probability, known_on, Kind::test};
}

Forecasts with(std::vector<Truth> truths) {
  Forecasts forecasts;
  forecasts.truths = std::move(truths);
  return forecasts;
}

TEST(Claims, ACountIsLeftOpenUntilTheTruthIsKnown) {
  const auto check = check_claims({claimed("A", 0, 0.66, 0.66, "2025-08-20")}, with({}));
  EXPECT_EQ(check.made, 1U);
  EXPECT_EQ(check.open, 1U);
  EXPECT_THAT(check.resolved, IsEmpty());
  EXPECT_FALSE(check.brier);
  EXPECT_THAT(check.bands, IsEmpty());
}

// What was known by the day of publication is no forecast.
TEST(Claims, ATruthKnownThatDayOrBeforeIsNotScored) {
  const auto check =
      check_claims({claimed("A", 0, 1, 1, "2025-08-20"), claimed("B", 1, 1, 1, "2025-08-20"),
                    claimed("C", 2, 1, 1, "2025-08-20")},
                   with({truth(0, 1, day("2025-08-20")), truth(1, 1, std::nullopt),
                         truth(2, 1, day("2025-08-21"))}));
  EXPECT_EQ(check.known_already, 2U);
  EXPECT_THAT(check.resolved, SizeIs(1));
}

// By hand: 0.6 and 0.6 said, one carrier for certain and one animal that is none but for 1 %:
// expected 1.2, observed 1.01; Brier ((0.4)^2 + 0.99 (0.6)^2 + 0.01 (0.4)^2) / 2.
TEST(Claims, ScoresAreThoseOfTheMiddleAndOutcomesKeepTheirProbability) {
  const auto check = check_claims(
      {claimed("A", 0, 0.5, 0.7, "2025-08-20"), claimed("B", 1, 0.6, 0.6, "2025-08-20")},
      with({truth(0, 1, day("2025-10-01")), truth(1, 0.01, day("2025-10-02"))}));
  EXPECT_NEAR(check.expected, 1.2, 1e-15);
  EXPECT_NEAR(check.observed, 1.01, 1e-15);
  EXPECT_NEAR(*check.brier, (0.16 + 0.99 * 0.36 + 0.01 * 0.16) / 2, 1e-15);
  ASSERT_THAT(check.bands, SizeIs(1));
  EXPECT_EQ(check.bands[0].low, 0.6);
  EXPECT_EQ(check.bands[0].cases, 2U);
  EXPECT_EQ(check.bands[0].hets, 1U);
}

TEST(Claims, ASecondClaimInTheSameBandCountsOnceAndAnotherBandOnItsOwn) {
  const auto check = check_claims(
      {claimed("A", 0, 0.66, 0.66, "2025-08-20"), claimed("B", 0, 0.61, 0.61, "2025-08-25"),
       claimed("C", 0, 0.44, 0.44, "2025-08-30")},
      with({truth(0, 0, day("2025-10-01"))}));
  EXPECT_THAT(check.resolved, SizeIs(3));
  ASSERT_THAT(check.bands, SizeIs(2));
  EXPECT_EQ(check.bands[0].cases, 1U);
  EXPECT_EQ(check.bands[1].cases, 1U);
}

TEST(Claims, TheOrderGivenDoesNotMatter) {
  const std::vector<Claimed> claims = {claimed("B", 1, 0.5, 0.5, "2025-08-21"),
                                       claimed("A", 0, 0.66, 0.66, "2025-08-20")};
  const auto forecasts = with({truth(0, 0, day("2025-10-01")), truth(1, 1, day("2025-10-01"))});
  const auto one = check_claims(claims, forecasts);
  const auto other = check_claims({claims[1], claims[0]}, forecasts);
  EXPECT_EQ(claims[one.resolved[0].claim].code, "A");
  EXPECT_EQ(one.expected, other.expected);
  EXPECT_EQ(one.brier, other.brier);
}

TEST(Claims, CertaintyIsInTheLastBand) {
  EXPECT_EQ(BandCounts::band_of(1), 9U);
  EXPECT_EQ(BandCounts::band_of(0), 0U);
  EXPECT_EQ(BandCounts::band_of(0.66), 6U);
}

}  // namespace
}  // namespace likelihet::audit::claims_test
