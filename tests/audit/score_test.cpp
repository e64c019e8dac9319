// Scores against the expectation written out, and their worst cases.
#include <array>
#include <cmath>
#include <stdexcept>

#include "audit/random_cases.hpp"
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <likelihet/audit/score.hpp>

namespace likelihet::audit::score_test {
namespace {

// Each case once so and once not, by its share.
RC_GTEST_PROP(Score, OutcomesInPartAreExpectations, ()) {
  const Cases cases = *rc::gen::nonEmpty(random_cases(true));
  double quadratic = 0;
  double bits = 0;
  for (const Case& one : cases) {
    const Cases so{{one.probability, 1, 0}};
    const Cases not_so{{one.probability, 0, 0}};
    quadratic += one.outcome * brier(so) + (1 - one.outcome) * brier(not_so);
    bits += one.outcome * log_score(so) + (1 - one.outcome) * log_score(not_so);
  }
  const auto n = static_cast<double>(cases.size());
  RC_ASSERT(std::abs(brier(cases) - quadratic / n) < 1e-12);
  RC_ASSERT(std::abs(log_score(cases) - bits / n) < 1e-9);
}

// Both are proper: no forecast has a better expected score than the chance itself.
RC_GTEST_PROP(Score, HonestyIsBest, ()) {
  const double chance = *rc::gen::inRange(0, 101) / 100.0;
  const double other = *rc::gen::inRange(0, 101) / 100.0;
  const Cases honest{{chance, chance, 0}};
  const Cases said{{other, chance, 0}};
  RC_ASSERT(brier(honest) <= brier(said) + 1e-15);
  RC_ASSERT(log_score(honest) <= log_score(said) + 1e-12);
}

TEST(Score, FiftyPercentForEverything) {
  const Cases cases{{.5, 1, 0}, {.5, 0, 1}, {.5, .25, 2}};
  EXPECT_EQ(brier(cases), 0.25);
  EXPECT_EQ(log_score(cases), 1);
}

// -log2(1e-15) = 15 log2(10).
TEST(Score, ConfidentAndWrongCostsNoMoreThanTheClamp) {
  const double most = 15 * std::log2(10.0);
  EXPECT_NEAR(log_score(Cases{{0, 1, 0}}), most, 1e-9);
  EXPECT_NEAR(log_score(Cases{{1, 0, 0}}), most, 1e-9);
  EXPECT_NEAR(log_score(Cases{{1e-300, 1, 0}}), most, 1e-9);
  EXPECT_EQ(log_score(Cases{{1, 1, 0}, {0, 0, 1}}), 0);
}

TEST(Score, Skill) {
  const Cases base{{.5, 1, 0}, {.5, 0, 1}};
  EXPECT_EQ(skill(Cases{{1, 1, 0}, {0, 0, 1}}, base), 1);
  EXPECT_EQ(skill(base, base), 0);
  EXPECT_EQ(skill(Cases{{0, 1, 0}, {1, 0, 1}}, base), -3);
  const Cases perfect{{1, 1, 0}, {0, 0, 1}};
  EXPECT_EQ(skill(perfect, perfect), 0);
  EXPECT_EQ(skill(base, perfect), -INFINITY);
}

TEST(Score, ObservedToExpected) {
  EXPECT_EQ(observed_expected(Cases{{.5, 1, 0}, {.25, 1, 1}, {.25, 0, 2}}), 2);
  EXPECT_FALSE(observed_expected({}));
  EXPECT_FALSE(observed_expected(Cases{{0, 1, 0}}));
}

TEST(Score, RefusesNothingAndWhatIsNoProbability) {
  EXPECT_THROW(brier({}), std::invalid_argument);
  EXPECT_THROW(log_score({}), std::invalid_argument);
  EXPECT_THROW(skill({}, {}), std::invalid_argument);
  EXPECT_THROW(skill(Cases{{.5, 1, 0}}, {}), std::invalid_argument);
  for (const Case& bad :
       {Case{-.1, 0, 0}, Case{1.1, 0, 0}, Case{NAN, 0, 0}, Case{.5, 2, 0}, Case{.5, NAN, 0}}) {
    EXPECT_THROW(brier(std::array{bad}), std::invalid_argument);
    EXPECT_THROW(log_score(std::array{bad}), std::invalid_argument);
    EXPECT_THROW(observed_expected(std::array{bad}), std::invalid_argument);
  }
}

}  // namespace
}  // namespace likelihet::audit::score_test
