// Admission and sex in six departments: one odds ratio for all, and whether there is one.
//
// Source: P. J. Bickel, E. A. Hammel and J. W. O'Connell, Science 187 (1975) 398-404, as the data
// set UCBAdmissions of R (4.2.2). Counts, and a p of .003 for Woolf's test, were read in R's help
// of mantelhaen.test, which adds 1/2 to every cell (exactly, p = .003427); ours adds nothing where
// no cell is empty (.003072, as the R package vcd). .9047, .2323, 17.902 and 18.826 are from
// memory; further digits were recomputed in R.
#include <array>

#include "published/worked_colony.hpp"
#include <gtest/gtest.h>

#include <likelihet/audit/strata.hpp>

namespace likelihet::published::berkeley_admissions_test {
namespace {

// Men and women admitted, men and women rejected, department A to F.
constexpr std::array<audit::TwoByTwo, 6> departments = {{{512, 89, 313, 19},
                                                         {353, 17, 207, 8},
                                                         {120, 202, 205, 391},
                                                         {138, 131, 279, 244},
                                                         {53, 94, 138, 299},
                                                         {22, 24, 351, 317}}};

TEST(Berkeley, OneOddsRatio) {
  const auto found = audit::mantel_haenszel(departments);
  ASSERT_TRUE(found && found->odds_ratio);
  EXPECT_NEAR(found->odds_ratio->value, .9047, half_unit(4));
  EXPECT_NEAR(found->p_corrected, .2323, half_unit(4));
  EXPECT_NEAR(found->odds_ratio->value, 0.90469682826, 1e-10);
  EXPECT_NEAR(found->odds_ratio->interval.low, 0.77190736176, 1e-10);
  EXPECT_NEAR(found->odds_ratio->interval.high, 1.0603297644, 1e-9);
  EXPECT_NEAR(found->chi_squared, 1.5246066604, 1e-9);
  EXPECT_NEAR(found->p, 0.21692369706, 1e-10);
  EXPECT_NEAR(found->chi_squared_corrected, 1.4269462286, 1e-9);
  EXPECT_NEAR(found->p_corrected, 0.23226346282, 1e-10);
}

TEST(Berkeley, ButDepartmentsDiffer) {
  const auto woolf = audit::woolf_homogeneity(departments);
  ASSERT_TRUE(woolf);
  EXPECT_EQ(woolf->degrees, 5U);
  EXPECT_NEAR(woolf->p, .003, half_unit(3));
  EXPECT_NEAR(woolf->chi_squared, 17.902, half_unit(3));
  EXPECT_NEAR(woolf->chi_squared, 17.9017124698, 1e-9);
  EXPECT_NEAR(woolf->p, 0.0030721423087, 1e-10);
  auto with_halves = departments;
  for (audit::TwoByTwo& of : with_halves) {
    of = {of.true_positive + .5, of.false_positive + .5, of.false_negative + .5,
          of.true_negative + .5};
  }
  EXPECT_NEAR(audit::woolf_homogeneity(with_halves)->p, .003, half_unit(3));
  const auto breslow = audit::breslow_day(departments);
  ASSERT_TRUE(breslow);
  EXPECT_NEAR(breslow->plain.chi_squared, 18.826, half_unit(3));
  EXPECT_NEAR(breslow->plain.chi_squared, 18.8255137052, 1e-9);
  EXPECT_NEAR(breslow->corrected.chi_squared, 18.8255012521, 1e-9);
}

}  // namespace
}  // namespace likelihet::published::berkeley_admissions_test
