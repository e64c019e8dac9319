// Rows of levels where classes are known in part.
#include <cmath>
#include <random>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <likelihet/audit/homogeneity.hpp>
#include <likelihet/audit/level_mixture.hpp>
#include <likelihet/audit/stratified_test.hpp>
#include <likelihet/audit/two_by_two.hpp>

namespace likelihet::audit::level_mixture_test {
namespace {

// So many animals of a level and a chance to be a carrier.
void add(LevelData& data, std::size_t animals, std::size_t level, double carrier) {
  for (std::size_t i = 0; i < animals; ++i) {
    data.level.push_back(level);
    data.weight.push_back(1 - carrier);
    data.weight.push_back(carrier);
  }
}

// With every truth known the fit is the table itself, and its intervals are those of Simel, Samsa
// and Matchar (1991) and Woolf (1955), worked out by their own formulas in two_by_two.cpp. Counts
// of Scott, Greenberg and Poole (2008), Table 1.
TEST(LevelMixture, IsTheTableWhereEveryTruthIsKnown) {
  LevelData data;
  add(data, 670, 1, 1);
  add(data, 202, 1, 0);
  add(data, 74, 0, 1);
  add(data, 640, 0, 0);
  const TwoByTwo table{670, 202, 74, 640};
  const CutFit fit = fit_cut(data);
  EXPECT_NEAR(fit.high_in_carriers, 670.0 / 744, 1e-9);
  EXPECT_NEAR(fit.high_in_others, 202.0 / 842, 1e-9);
  const auto same = [](const Estimate& a, const Estimate& b) {
    EXPECT_NEAR(a.value, b.value, 1e-7 * b.value);
    EXPECT_NEAR(a.interval.low, b.interval.low, 1e-7 * b.value);
    EXPECT_NEAR(a.interval.high, b.interval.high, 1e-7 * b.value);
  };
  same(fit.positive_ratio(), positive_ratio(table));
  same(fit.negative_ratio(), negative_ratio(table));
  same(fit.odds_ratio(), odds_ratio(table));
}

// Begg and Greenes (1983) where the share of hets is known beforehand: half of the animals are
// hets, positives are verified, negatives are not. By hand: P(high | carrier) solves
// q = hets among positives / half of all.
TEST(LevelMixture, CorrectsForTestingThePositivesAlone) {
  LevelData data;
  add(data, 60, 1, 1);
  add(data, 20, 1, 0);
  add(data, 120, 0, 0.5);
  const LevelFit fit = fit_levels(data);
  // Of 200 animals 100 are expected to be hets; the likelihood's maximum is found by hand:
  // 60 ln q1 + 20 ln q0 + 120 ln((1 - q1 + 1 - q0) / 2) is largest at q1 = 3 q0, q1 + q0 = 0.8.
  EXPECT_NEAR(fit.rows[1][1], 0.6, 1e-5);
  EXPECT_NEAR(fit.rows[0][1], 0.2, 1e-5);
}

TEST(LevelMixture, AnEmptyCellGivesNeitherNothingNorInfinity) {
  LevelData data;
  add(data, 12, 1, 1);
  add(data, 9, 0, 0);
  const CutFit fit = fit_cut(data);
  for (const Estimate& ratio : {fit.positive_ratio(), fit.negative_ratio(), fit.odds_ratio()}) {
    EXPECT_GT(ratio.value, 0);
    EXPECT_TRUE(std::isfinite(ratio.interval.high));
  }
}

TEST(LevelMixture, WithoutAnimalsOrWithoutTruthNothingIsTold) {
  const CutFit none = fit_cut(LevelData{});
  EXPECT_NEAR(none.odds_ratio().value, 1, 1e-9);
  EXPECT_GT(none.odds_ratio().interval.high, 100);
  LevelData unknown;
  add(unknown, 30, 1, 0.5);
  add(unknown, 30, 0, 0.5);
  const CutFit fit = fit_cut(unknown);
  EXPECT_LE(fit.odds_ratio().interval.low, 1);
  EXPECT_GE(fit.odds_ratio().interval.high, 1);
}

RC_GTEST_PROP(LevelMixture, CollapsingChangesNothing, ()) {
  LevelData data;
  data.levels = 3;
  const auto n = *rc::gen::inRange<std::size_t>(1, 60);
  for (std::size_t i = 0; i < n; ++i) {
    add(data, 1, *rc::gen::inRange<std::size_t>(0, 3),
        static_cast<double>(*rc::gen::inRange(0, 5)) / 4);
  }
  const LevelFit fit = fit_levels(data);
  RC_ASSERT(std::abs(log_likelihood(data, fit.rows) - log_likelihood(collapsed(data), fit.rows)) <
            1e-9);
  for (const auto& row : fit.rows) {
    double sum = 0;
    for (double p : row) sum += p;
    RC_ASSERT(std::abs(sum - 1) < 1e-9);
  }
}

RC_GTEST_PROP(LevelMixture, MoreRowsFitNoWorse, ()) {
  LevelData data;
  const auto n = *rc::gen::inRange<std::size_t>(2, 60);
  for (std::size_t i = 0; i < n; ++i) {
    add(data, 1, *rc::gen::inRange<std::size_t>(0, 2),
        static_cast<double>(*rc::gen::inRange(0, 5)) / 4);
  }
  const double apart = fit_levels(data).log_likelihood;
  const double alike = fit_levels(joined(data, std::vector<std::size_t>{0, 0})).log_likelihood;
  RC_ASSERT(apart >= alike - 1e-6);
}

// Zeros and ones in strata are the test of Mantel and Haenszel without correction. Reference: the
// Berkeley admissions of 1973 (Bickel, Hammel and O'Connell 1975) give chi-square 1.5246 by R's
// mantelhaen.test(correct = FALSE).
TEST(StratifiedTest, OfZerosAndOnesIsMantelAndHaenszels) {
  const double table[6][4] = {{512, 89, 313, 19},   {353, 17, 207, 8},  {120, 202, 205, 391},
                              {138, 131, 279, 244}, {53, 94, 138, 299}, {22, 24, 351, 317}};
  std::vector<Compared> animals;
  for (std::size_t s = 0; s < 6; ++s) {
    for (std::size_t cell = 0; cell < 4; ++cell) {
      const Compared one{cell % 2 == 0 ? 0.0 : 1.0, cell < 2 ? 0.0 : 1.0, s};
      for (int i = 0; i < static_cast<int>(table[s][cell]); ++i) animals.push_back(one);
    }
  }
  const auto found = stratified_test(animals);
  EXPECT_NEAR(found.z * found.z, 1.5246066604, 1e-8);
  EXPECT_NEAR(found.p, 0.21692369706, 1e-8);
}

TEST(StratifiedTest, WithoutAStratumThatTellsIsNoTest) {
  EXPECT_EQ(stratified_test({}).p, 1);
  const std::vector<Compared> alike = {{1, 0.5, 0}, {0, 0.5, 0}, {1, 1, 1}};
  EXPECT_EQ(stratified_test(alike).informative_strata, 0U);
}

TEST(Homogeneity, OfGroupsThatAreAlikeFindsNothingAndOfUnlikeOnesMuch) {
  LevelData strong;
  add(strong, 18, 1, 1);
  add(strong, 2, 0, 1);
  add(strong, 3, 1, 0);
  add(strong, 17, 0, 0);
  LevelData none;
  add(none, 8, 1, 1);
  add(none, 12, 0, 1);
  add(none, 8, 1, 0);
  add(none, 12, 0, 0);
  EXPECT_NEAR(homogeneity_p(std::vector<LevelData>{strong, strong}), 1, 1e-3);
  EXPECT_LT(homogeneity_p(std::vector<LevelData>{strong, none}), 0.01);
  EXPECT_EQ(homogeneity_p(std::vector<LevelData>{strong}), 1);
}

}  // namespace
}  // namespace likelihet::audit::level_mixture_test
