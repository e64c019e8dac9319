// Prior counts and the tables at which they have their mode.
#include <cmath>

#include "learning/learning_colony.hpp"

#include <likelihet/learning/parameters.hpp>

namespace likelihet::learning::counts_test {
namespace {

using support::recessive_model;

std::shared_ptr<const colony::Model> model() {
  return support::made(recessive_model());
}

TEST(Counts, PriorIsWorthTimesBelief) {
  const Counts prior = prior_counts(*model());
  // Row +/e: worth 8 of 0.3, 0.3, 0.4.
  EXPECT_NEAR(prior.rows[0][0][1][0], 2.4, 1e-15);
  EXPECT_NEAR(prior.rows[0][0][1][2], 3.2, 1e-15);
  EXPECT_NEAR(prior.origins[0][0][0], 49, 1e-12);
  EXPECT_NEAR(prior.origins[0][0][1], 1, 1e-12);
  EXPECT_NEAR(prior.scorers[0].right, 19, 1e-12);
  EXPECT_NEAR(prior.scorers[0].wrong, 1, 1e-12);
}

// Without anything seen the mode is what was believed.
TEST(Counts, ModeOfNothingSeenIsBelief) {
  const auto m = model();
  const odds::Tables believed = odds::believed(*m);
  const auto mode = flat(mode_of(prior_counts(*m), Counts(*m), believed));
  const auto belief = flat(believed);
  for (std::size_t i = 0; i < mode.size(); ++i) EXPECT_NEAR(mode[i], belief[i], 1e-15);
}

// Row +/e: (2.4 + 2, 2.4, 3.2) / 10, by hand.
TEST(Counts, SeenAnimalsMoveARow) {
  const auto m = model();
  Counts seen(*m);
  seen.rows[0][0][1][0] = 2;
  const auto mode = mode_of(prior_counts(*m), seen, odds::believed(*m));
  EXPECT_NEAR(mode.rows[0][0][1][0], 0.44, 1e-15);
  EXPECT_NEAR(mode.rows[0][0][1][1], 0.24, 1e-15);
  EXPECT_NEAR(mode.rows[0][0][1][2], 0.32, 1e-15);
  EXPECT_EQ(mode.rows[0][0][0], odds::believed(*m).rows[0][0][0]);
}

// What is believed impossible stays so, whatever was counted there by error.
TEST(Counts, ZerosOfBeliefStay) {
  auto description = recessive_model();
  description.markers[0].rows[1].expect = {0.5, 0.5, 0.0};
  description.scorers[0].sure = 1.0;
  const auto m = support::made(description);
  Counts seen(*m);
  seen.rows[0][0][1] = {0, 0, 50};
  seen.scorers[0] = {0, 5};
  const auto mode = mode_of(prior_counts(*m), seen, odds::believed(*m));
  EXPECT_EQ(mode.rows[0][0][1], (std::vector<double>{0.5, 0.5, 0.0}));
  EXPECT_EQ(mode.scorers[0], 1.0);
  for (const Parameter& p : parameters(*m)) {
    if (p.kind == Parameter::Kind::scorer) {
      EXPECT_FALSE(p.open);
    }
    if (p.kind == Parameter::Kind::row && p.row == 1) {
      EXPECT_EQ(p.open, p.entry < 2);
    }
  }
}

// The density's mode is where mode_of() says: no small step along a row is uphill.
TEST(Counts, ModeIsTheHighestPoint) {
  const auto m = model();
  const Counts prior = prior_counts(*m);
  const odds::Tables believed = odds::believed(*m);
  for (double step : {1e-4, -1e-4}) {
    odds::Tables beside = believed;
    beside.rows[0][0][1][0] += step;
    beside.rows[0][0][1][2] -= step;
    EXPECT_LT(log_prior(prior, *m, beside), log_prior(prior, *m, believed));
  }
}

TEST(Parameters, AListAndBackAreTheSameTables) {
  const auto m = model();
  odds::Tables tables = odds::believed(*m);
  tables.rows[0][0][2] = {0.1, 0.2, 0.7};
  tables.scorers[0] = 0.625;
  const auto numbers = flat(tables);
  EXPECT_EQ(numbers.size(), parameters(*m).size());
  EXPECT_EQ(numbers.size(), 3 * 3 + 2 + 1U);
  EXPECT_EQ(flat(unflattened(numbers, odds::believed(*m))), numbers);
}

}  // namespace
}  // namespace likelihet::learning::counts_test
