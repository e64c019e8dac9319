// Net benefit against counting.
#include <stdexcept>

#include "audit/random_cases.hpp"
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <likelihet/audit/net_benefit.hpp>

namespace likelihet::audit::net_benefit_test {
namespace {

RC_GTEST_PROP(NetBenefit, CountsTrueAndFalsePositives, ()) {
  const Cases cases = *rc::gen::nonEmpty(random_cases());
  const double threshold = *rc::gen::inRange(1, 20) / 20.0;
  double benefit = 0;
  double of_all = 0;
  for (const Case& one : cases) {
    const double worth = one.outcome == 1 ? 1 : -threshold / (1 - threshold);
    of_all += worth;
    if (one.probability >= threshold) benefit += worth;
  }
  const auto n = static_cast<double>(cases.size());
  RC_ASSERT(std::abs(net_benefit(cases, threshold) - benefit / n) < 1e-12);
  RC_ASSERT(std::abs(net_benefit_of_all(cases, threshold) - of_all / n) < 1e-12);
}

// Calibrated forecasts never do worse than acting on all or on none.
RC_GTEST_PROP(NetBenefit, HonestForecastsDoNoHarm, ()) {
  Cases cases = *rc::gen::nonEmpty(random_cases());
  for (Case& one : cases) one.outcome = one.probability;
  const double threshold = *rc::gen::inRange(1, 40) / 40.0;
  RC_ASSERT(net_benefit(cases, threshold) >= -1e-12);
  RC_ASSERT(net_benefit(cases, threshold) >= net_benefit_of_all(cases, threshold) - 1e-12);
}

TEST(NetBenefit, ForecastAtTheThresholdIsActedOn) {
  EXPECT_EQ(net_benefit(Cases{{.5, 1, 0}}, 0.5), 1);
  EXPECT_EQ(net_benefit(Cases{{.5, 0, 0}}, 0.5), -1);
  EXPECT_EQ(net_benefit(Cases{{.49, 0, 0}}, 0.5), 0);
}

TEST(NetBenefit, RefusesNoCases) {
  EXPECT_THROW(net_benefit({}, 0.5), std::invalid_argument);
  EXPECT_THROW(net_benefit_of_all({}, 0.5), std::invalid_argument);
}

}  // namespace
}  // namespace likelihet::audit::net_benefit_test
