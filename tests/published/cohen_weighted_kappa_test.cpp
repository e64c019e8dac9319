// Two psychologists put 200 persons in three classes; some disagreements are graver than others.
//
// Source: J. Cohen, "Weighted kappa: nominal scale agreement with provision for scaled disagreement
// or partial credit", Psychological Bulletin 70 (1968) 213-220. Proportions, weights and the
// printed .492, .348 and .353 were read in the help of the R package psych; further digits were
// recomputed.
#include <array>

#include "published/worked_colony.hpp"
#include <gtest/gtest.h>

#include <likelihet/audit/agreement.hpp>

namespace likelihet::published::cohen_weighted_kappa_test {
namespace {

constexpr std::array table = {88.0, 14.0, 18.0, 10.0, 40.0, 10.0, 2.0, 6.0, 12.0};
constexpr std::array disagreement = {0.0, 1.0, 3.0, 1.0, 0.0, 6.0, 3.0, 6.0, 0.0};
constexpr std::array one_way = {0.0, 1.0, 4.0, 1.0, 0.0, 6.0, 2.0, 2.0, 0.0};

TEST(Cohen, Unweighted) {
  const auto kappa = audit::cohen_kappa(table, 3);
  ASSERT_TRUE(kappa.value);
  EXPECT_NEAR(*kappa.value, .492, half_unit(3));
  EXPECT_NEAR(*kappa.value, 0.49152542372881347, 1e-12);
  EXPECT_NEAR(kappa.observed, 0.7, 1e-12);
  EXPECT_NEAR(kappa.expected, 0.41, 1e-12);
}

TEST(Cohen, Weighted) {
  const auto kappa = audit::cohen_kappa(table, 3, audit::from_disagreement(disagreement));
  ASSERT_TRUE(kappa.value);
  EXPECT_NEAR(*kappa.value, .348, half_unit(3));
  EXPECT_NEAR(*kappa.value, 0.34782608695652173, 1e-12);
}

// Weights that tell rows from columns: transposed they give .4206.
TEST(Cohen, WeightsThatAreNotSymmetric) {
  const auto weights = audit::from_disagreement(one_way);
  const auto kappa = audit::cohen_kappa(table, 3, weights);
  ASSERT_TRUE(kappa.value);
  EXPECT_NEAR(*kappa.value, .353, half_unit(3));
  EXPECT_NEAR(*kappa.value, 0.35338345864661647, 1e-12);
  std::vector<double> transposed(9);
  for (std::size_t cell = 0; cell < 9; ++cell) {
    transposed[cell] = weights[cell % 3 * 3 + cell / 3];
  }
  EXPECT_NEAR(audit::cohen_kappa(table, 3, transposed).value.value_or(0), 0.42056074766355145,
              1e-12);
}

}  // namespace
}  // namespace likelihet::published::cohen_weighted_kappa_test
