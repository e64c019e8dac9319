// Intervals of proportions: what all five methods owe.
#include <array>
#include <stdexcept>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <likelihet/audit/proportion.hpp>

namespace likelihet::audit::proportion_test {
namespace {

using Method = Interval (*)(double events, double n, double level);
constexpr std::array<Method, 5> methods = {wilson, wilson_corrected, clopper_pearson, mid_p,
                                           jeffreys};

// Also of cases that count in part.
RC_GTEST_PROP(Proportion, HoldsTheShareAndStaysWithinZeroAndOne, ()) {
  const double n = *rc::gen::inRange(1, 400) / 4.0;
  const double events = n * *rc::gen::inRange(0, 9) / 8;
  for (const Method method : methods) {
    const Interval found = method(events, n, 0.95);
    RC_ASSERT((found.low >= 0 && found.high <= 1));
    RC_ASSERT((found.low <= events / n + 1e-12 && events / n <= found.high + 1e-12));
    RC_ASSERT(found.high - found.low > 0);
    RC_ASSERT(((found.low == 0) || events > 0));
    RC_ASSERT(((found.high == 1) || events < n));
  }
}

RC_GTEST_PROP(Proportion, MirrorsWhatDidNotHappen, ()) {
  const int n = *rc::gen::inRange(1, 100);
  const int events = *rc::gen::inRange(0, n + 1);
  for (const Method method : methods) {
    const Interval here = method(events, n, 0.9);
    const Interval there = method(n - events, n, 0.9);
    RC_ASSERT(std::abs(here.low - (1 - there.high)) < 1e-9);
    RC_ASSERT(std::abs(here.high - (1 - there.low)) < 1e-9);
  }
}

RC_GTEST_PROP(Proportion, WidensWithTheLevel, ()) {
  const int n = *rc::gen::inRange(1, 100);
  const int events = *rc::gen::inRange(0, n + 1);
  for (const Method method : methods) {
    const Interval narrow = method(events, n, 0.8);
    const Interval wide = method(events, n, 0.99);
    RC_ASSERT((wide.low <= narrow.low && narrow.high <= wide.high));
  }
}

// The correction and the exact method are the cautious ones.
RC_GTEST_PROP(Proportion, OrdersTheMethods, ()) {
  const int n = *rc::gen::inRange(1, 200);
  const int events = *rc::gen::inRange(0, n + 1);
  const Interval exact = clopper_pearson(events, n);
  const Interval mid = mid_p(events, n);
  RC_ASSERT((exact.low <= mid.low + 1e-12 && mid.high <= exact.high + 1e-12));
  const Interval score = wilson(events, n);
  const Interval corrected = wilson_corrected(events, n);
  RC_ASSERT((corrected.low <= score.low + 1e-12 && score.high <= corrected.high + 1e-12));
}

TEST(Proportion, NothingSeenIsEverything) {
  for (const Method method : methods) {
    EXPECT_EQ(method(0, 0, 0.95).low, 0);
    EXPECT_EQ(method(0, 0, 0.95).high, 1);
  }
}

TEST(Proportion, RefusesWhatIsNoProportion) {
  for (const Method method : methods) {
    EXPECT_THROW(method(-1, 5, 0.95), std::invalid_argument);
    EXPECT_THROW(method(6, 5, 0.95), std::invalid_argument);
    EXPECT_THROW(method(std::nan(""), 5, 0.95), std::invalid_argument);
    EXPECT_THROW(method(1, 5, 0), std::invalid_argument);
    EXPECT_THROW(method(1, 5, 1), std::invalid_argument);
    EXPECT_THROW(method(0, 0, 1.5), std::invalid_argument);
  }
}

}  // namespace
}  // namespace likelihet::audit::proportion_test
