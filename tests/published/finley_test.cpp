// Forecasts of tornadoes that were right in 96.6 %, where "never" is right in 98.2 %.
//
// Source: J. P. Finley, "Tornado predictions", American Meteorological Journal 1 (1884) 85-88;
// A. H. Murphy, "The Finley affair", Weather and Forecasting 11 (1996) 3-20. The table and the
// printed values were read on the pages of the WWRP working group on forecast verification; further
// digits were recomputed from the table.
#include <array>

#include "published/worked_colony.hpp"
#include <gtest/gtest.h>

#include <likelihet/audit/agreement.hpp>
#include <likelihet/audit/score.hpp>
#include <likelihet/audit/two_by_two.hpp>

namespace likelihet::published::finley_test {
namespace {

constexpr audit::TwoByTwo table{28, 72, 23, 2680};

std::vector<audit::Case> cases(bool never) {
  std::vector<audit::Case> out;
  const auto add = [&](double count, double forecast, double outcome) {
    for (int i = 0; i < static_cast<int>(count); ++i) {
      out.push_back({never ? 0 : forecast, outcome, 0});
    }
  };
  add(table.true_positive, 1, 1);
  add(table.false_positive, 1, 0);
  add(table.false_negative, 0, 1);
  add(table.true_negative, 0, 0);
  return out;
}

// Of a yes or no the Brier score is the share that was wrong.
TEST(Finley, NeverIsMoreOftenRight) {
  const double accuracy = 1 - audit::brier(cases(false));
  const double never = 1 - audit::brier(cases(true));
  EXPECT_NEAR(accuracy, .966, half_unit(3));
  EXPECT_NEAR(never, .982, half_unit(3));
  EXPECT_NEAR(accuracy, 0.9661077417053158, 1e-12);
  EXPECT_NEAR(never, 0.981805208704959, 1e-12);
  EXPECT_NEAR(audit::skill(cases(false), cases(true)), 1 - 95.0 / 51, 1e-12);
}

TEST(Finley, OtherScoresShowTheSkill) {
  EXPECT_NEAR(audit::sensitivity(table).value, 0.5490196078431373, 1e-12);
  const double peirce = audit::sensitivity(table).value + audit::specificity(table).value - 1;
  EXPECT_NEAR(peirce, .52, half_unit(2));
  EXPECT_NEAR(peirce, 0.5228568171454628, 1e-12);
  EXPECT_NEAR(audit::odds_ratio(table).value, 45.31400966183575, 1e-10);
  // Heidke's score is kappa.
  const auto kappa = audit::cohen_kappa(std::array{28.0, 72.0, 23.0, 2680.0}, 2);
  ASSERT_TRUE(kappa.value);
  EXPECT_NEAR(*kappa.value, 0.35532486145845693, 1e-12);
}

}  // namespace
}  // namespace likelihet::published::finley_test
