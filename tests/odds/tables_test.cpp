// Beliefs as tables: at their expectation, and drawn from their Dirichlet distributions.
#include <algorithm>
#include <cmath>
#include <vector>

#include <gtest/gtest.h>
#include <support/small_model.hpp>

#include <likelihet/inference/random_bits.hpp>
#include <likelihet/odds/tables.hpp>

namespace likelihet::odds::tables_test {
namespace {

std::shared_ptr<const colony::Model> model_of(colony::ModelDescription description) {
  return support::made(std::move(description));
}

// The marker's own rows, one context that is ignored and one with rows of its own.
colony::ModelDescription with_contexts() {
  auto model = support::masked_model();
  model.markers[0].contexts.push_back(
      {std::nullopt, std::nullopt, "dune", false, {{{}, {0.5, 0.25, 0.25}, 16.0}}});
  return model;
}

TEST(Believed, IsEachRowAsTheModelWritesIt) {
  const auto model = model_of(with_contexts());
  const Tables tables = believed(*model);
  ASSERT_EQ(tables.rows.size(), 1U);
  ASSERT_EQ(tables.rows[0].size(), 3U);
  EXPECT_EQ(tables.rows[0][0][1], (std::vector<double>{0.3, 0.3, 0.4}));
  EXPECT_TRUE(tables.rows[0][1].empty());
  EXPECT_EQ(tables.rows[0][2], (std::vector<std::vector<double>>{{0.5, 0.25, 0.25}}));
  ASSERT_EQ(tables.origins.size(), 1U);
  EXPECT_NEAR(tables.origins[0][0][0], 0.98, 1e-15);
  EXPECT_NEAR(tables.origins[0][0][1], 0.02, 1e-15);
  EXPECT_EQ(tables.origins[0][1], (std::vector<double>{1, 0}));  // brackmoor: none given
}

TEST(Believed, OfAModelWithoutBeliefsIsEmpty) {
  colony::ModelDescription bare;
  bare.name = "bare";
  bare.loci = {support::recessive_locus()};
  const Tables tables = believed(*model_of(bare));
  EXPECT_TRUE(tables.rows.empty());
  EXPECT_TRUE(tables.origins.empty());
}

TEST(Drawn, HasTheShapeOfTheBelief) {
  const auto model = model_of(with_contexts());
  const Tables centre = believed(*model);
  inference::RandomBits random(1);
  for (int i = 0; i < 100; ++i) {
    const Tables draw = drawn(*model, random);
    ASSERT_EQ(draw.rows[0].size(), centre.rows[0].size());
    EXPECT_TRUE(draw.rows[0][1].empty());
    for (std::size_t c : {std::size_t{0}, std::size_t{2}}) {
      ASSERT_EQ(draw.rows[0][c].size(), centre.rows[0][c].size());
      for (const auto& row : draw.rows[0][c]) {
        double sum = 0;
        for (const double p : row) {
          EXPECT_GT(p, 0);
          sum += p;
        }
        EXPECT_NEAR(sum, 1, 1e-12);
      }
    }
    EXPECT_NEAR(draw.origins[0][0][0] + draw.origins[0][0][1], 1, 1e-12);
    EXPECT_EQ(draw.origins[0][1], (std::vector<double>{1, 0}));
  }
}

TEST(Drawn, IsTheSameForTheSameSeed) {
  const auto model = model_of(with_contexts());
  inference::RandomBits one(7);
  inference::RandomBits two(7);
  inference::RandomBits other(8);
  const Tables first = drawn(*model, one);
  EXPECT_EQ(first.rows, drawn(*model, two).rows);
  EXPECT_NE(first.rows, drawn(*model, other).rows);
  EXPECT_NE(first.rows, drawn(*model, one).rows) << "a second draw is another";
}

// Dirichlet(worth x expect): mean expect, variance p (1 - p) / (worth + 1), covariance -p q/(worth
// + 1) (Johnson, Kotz and Balakrishnan 2000, Continuous Multivariate Distributions, ch. 49; from
// memory). Within five standard errors of 40,000 draws.
TEST(Drawn, HasTheMomentsOfADirichlet) {
  const auto model = model_of(support::recessive_model());
  inference::RandomBits random(11);
  constexpr int draws = 40'000;
  const std::vector<double> expect = {0.2, 0.3, 0.5};  // worth 4
  std::vector<double> sum(3, 0.0);
  std::vector<double> squares(3, 0.0);
  double product = 0;
  for (int i = 0; i < draws; ++i) {
    const auto row = drawn(*model, random).rows[0][0][0];
    for (std::size_t k = 0; k < 3; ++k) {
      sum[k] += row[k];
      squares[k] += row[k] * row[k];
    }
    product += row[0] * row[2];
  }
  for (std::size_t k = 0; k < 3; ++k) {
    const double variance = expect[k] * (1 - expect[k]) / 5;
    const double mean = sum[k] / draws;
    EXPECT_NEAR(mean, expect[k], 5 * std::sqrt(variance / draws)) << k;
    EXPECT_NEAR(squares[k] / draws - mean * mean, variance, 0.05 * variance) << k;
  }
  EXPECT_NEAR(product / draws - sum[0] * sum[2] / draws / draws, -0.2 * 0.5 / 5, 0.001);
}

// The origin's worth is in alleles: the frequency is Beta(worth q, worth (1 - q)).
TEST(Drawn, SpreadsAnOriginsFrequencyByItsWorth) {
  auto description = support::recessive_model();
  description.origins = {{"loose", {{"tarnbrook", {{"e", 0.25}}}}, 3.0},
                         {"firm", {{"tarnbrook", {{"e", 0.25}}}}, 299.0}};
  const auto model = model_of(description);
  inference::RandomBits random(3);
  constexpr int draws = 20'000;
  double squares[2] = {0, 0};
  for (int i = 0; i < draws; ++i) {
    const auto origins = drawn(*model, random).origins;
    for (std::size_t o = 0; o < 2; ++o) {
      squares[o] += (origins[o][0][1] - 0.25) * (origins[o][0][1] - 0.25);
    }
  }
  EXPECT_NEAR(squares[0] / draws, 0.1875 / 4, 0.05 * 0.1875 / 4);
  EXPECT_NEAR(squares[1] / draws, 0.1875 / 300, 0.05 * 0.1875 / 300);
}

TEST(Drawn, KeepsWhatIsBelievedImpossible) {
  auto description = support::recessive_model();
  description.markers[0].rows = {{{{"tarnbrook", "e/e"}}, {0.0, 0.5, 0.5}, 2.0},
                                 {{{"tarnbrook", "+/e"}}, {0.0, 0.0, 1.0}, 2.0},
                                 {{}, {0.8, 0.2, 0.0}, 2.0}};
  const auto model = model_of(description);
  inference::RandomBits random(5);
  for (int i = 0; i < 200; ++i) {
    const auto rows = drawn(*model, random).rows[0][0];
    EXPECT_EQ(rows[0][0], 0.0);
    EXPECT_NEAR(rows[0][1] + rows[0][2], 1, 1e-12);
    EXPECT_EQ(rows[1], (std::vector<double>{0, 0, 1})) << "one level alone is certain";
    EXPECT_EQ(rows[2][2], 0.0);
  }
}

// A belief worth next to nothing is drawn at the ends, with no entry below 1e-25 and no NaN.
TEST(Drawn, HoldsAWorthOfNextToNothing) {
  auto description = support::recessive_model();
  for (auto& row : description.markers[0].rows) row.worth = 1e-6;
  const auto model = model_of(description);
  inference::RandomBits random(9);
  int corners = 0;
  for (int i = 0; i < 500; ++i) {
    const Tables draw = drawn(*model, random);
    for (const auto& row : draw.rows[0][0]) {
      double sum = 0;
      for (const double p : row) {
        EXPECT_TRUE(std::isfinite(p));
        EXPECT_GE(p, least_drawn);
        sum += p;
      }
      EXPECT_NEAR(sum, 1, 1e-9);
      EXPECT_GT(*std::max_element(row.begin(), row.end()), 0.999) << "a corner, not the middle";
      corners += row[0] > 0.5 ? 1 : 0;
    }
  }
  // Each corner by its expectation: 0.2, 0.3 and 0.8 of 500 rows each are 650.
  EXPECT_NEAR(corners, 650, 80);
}

}  // namespace
}  // namespace likelihet::odds::tables_test
