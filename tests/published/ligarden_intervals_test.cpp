// Intervals of 13 events of 16, by five methods.
//
// Source: M. W. Fagerland, S. Lydersen and P. Laake, Statistical Analysis of Contingency Tables
// (CRC Press 2017), chapter 2, after a study of 16 patients. Inputs and the printed limits were
// read in the tests of the software that goes with the book; further digits were recomputed in R.
#include <array>

#include "published/worked_colony.hpp"
#include <gtest/gtest.h>

#include <likelihet/audit/proportion.hpp>

namespace likelihet::published::ligarden_intervals_test {
namespace {

using Method = audit::Interval (*)(double events, double n, double level);

struct Printed {
  Method method;
  double low, high;              // as printed
  double exact_low, exact_high;  // recomputed
};

constexpr std::array printed = {
    Printed{audit::wilson, .5699, .9341, 0.56991119038, 0.93408400929},
    Printed{audit::wilson_corrected, .5369, .9503, 0.53692343969, 0.95026874389},
    Printed{audit::clopper_pearson, .5435, .9595, 0.54354345377, 0.95952626609},
    Printed{audit::mid_p, .5699, .9500, 0.56993690601, 0.94997801182},
    Printed{audit::jeffreys, .5792, .9442, 0.57921482776, 0.94418701611}};

TEST(Ligarden, FiveIntervals) {
  for (const Printed& row : printed) {
    const audit::Interval found = row.method(13, 16, 0.95);
    EXPECT_NEAR(found.low, row.low, half_unit(4));
    EXPECT_NEAR(found.high, row.high, half_unit(4));
    EXPECT_NEAR(found.low, row.exact_low, 1e-10);
    EXPECT_NEAR(found.high, row.exact_high, 1e-10);
  }
}

// Read in the same tests: 0 of 1 exactly, 0 of 9 by mid-P.
TEST(Ligarden, NoEvent) {
  const audit::Interval one = audit::clopper_pearson(0, 1);
  EXPECT_EQ(one.low, 0);
  EXPECT_NEAR(one.high, .9750, half_unit(4));
  const audit::Interval nine = audit::mid_p(0, 9);
  EXPECT_EQ(nine.low, 0);
  EXPECT_NEAR(nine.high, .2831, half_unit(4));
}

}  // namespace
}  // namespace likelihet::published::ligarden_intervals_test
