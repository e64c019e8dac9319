// Verification bias: what the correction must give back.
#include <cmath>
#include <stdexcept>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <likelihet/audit/verification.hpp>

namespace likelihet::audit::verification_test {
namespace {

RC_GTEST_PROP(Verification, ChangesNothingWhereAllAreVerified, ()) {
  const auto cell = [] { return static_cast<double>(*rc::gen::inRange(1, 40)); };
  const TwoByTwo known{cell(), cell(), cell(), cell()};
  const Corrected found = begg_greenes({known, 0, 0});
  RC_ASSERT(std::abs(found.sensitivity.value - sensitivity(known).value) < 1e-12);
  RC_ASSERT(std::abs(found.specificity.value - specificity(known).value) < 1e-12);
  // The variance is the binomial one: p (1 - p) / n.
  const double p = found.sensitivity.value;
  const double n = known.true_positive + known.false_negative;
  RC_ASSERT(std::abs(found.sensitivity_error - std::sqrt(p * (1 - p) / n)) < 1e-12);
}

RC_GTEST_PROP(Verification, StaysWithinZeroAndOne, ()) {
  const auto cell = [] { return static_cast<double>(*rc::gen::inRange(0, 15)); };
  const Corrected found = begg_greenes({{cell(), cell(), cell(), cell()}, cell(), cell()});
  for (const Estimate& one : {found.sensitivity, found.specificity}) {
    RC_ASSERT((one.interval.low > 0 && one.interval.low < one.value));
    RC_ASSERT((one.value < one.interval.high && one.interval.high < 1));
  }
  RC_ASSERT((found.sensitivity_error > 0 && found.specificity_error > 0));
}

// The same share of each sign verified: no bias, whatever the share.
TEST(Verification, EvenVerificationDoesNotBias) {
  const TwoByTwo known{18, 2, 6, 24};
  const Corrected found = begg_greenes({known, 60, 90});
  EXPECT_NEAR(found.sensitivity.value, sensitivity(known).value, 1e-12);
  EXPECT_NEAR(found.specificity.value, specificity(known).value, 1e-12);
}

// Only those with the sign were proven: the verified say 18 / 19 of hets have it.
TEST(Verification, NegativesThatWereNeverProvenCount) {
  const TwoByTwo known{18, 2, 1, 4};
  // 20 positives of whom 18 are so, 100 negatives of whom a fifth: 18 / (18 + 20).
  const Corrected found = begg_greenes({known, 0, 95});
  EXPECT_NEAR(found.sensitivity.value, 18.0 / 38, 1e-12);
  EXPECT_NEAR(found.specificity.value, 80.0 / 82, 1e-12);
}

TEST(Verification, RefusesWhatIsNoCount) {
  EXPECT_THROW(begg_greenes({{1, 1, 1, 1}, -1, 0}), std::invalid_argument);
  EXPECT_THROW(begg_greenes({{1, 1, -1, 1}, 0, 0}), std::invalid_argument);
}

}  // namespace
}  // namespace likelihet::audit::verification_test
