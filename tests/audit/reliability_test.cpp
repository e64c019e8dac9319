// Groups of forecasts: none empty, none too small, equal forecasts together.
#include <numeric>
#include <stdexcept>

#include "audit/random_cases.hpp"
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <likelihet/audit/reliability.hpp>

namespace likelihet::audit::reliability_test {
namespace {

RC_GTEST_PROP(Reliability, GroupsHoldAllCasesInOrder, ()) {
  const Cases cases = *random_cases(true);
  const auto at_most = *rc::gen::inRange<std::size_t>(1, 12);
  const auto at_least = *rc::gen::inRange<std::size_t>(1, 6);
  const auto groups = reliability_groups(cases, at_most, at_least);
  RC_ASSERT(groups.size() <= at_most);
  RC_ASSERT(groups.empty() == cases.empty());
  double weight = 0;
  for (std::size_t g = 0; g < groups.size(); ++g) {
    RC_ASSERT(groups[g].weight >= static_cast<double>(std::min(at_least, cases.size())));
    RC_ASSERT((g == 0 || groups[g - 1].probability < groups[g].probability));
    RC_ASSERT(groups[g].interval.low <= groups[g].observed + 1e-12);
    RC_ASSERT(groups[g].observed <= groups[g].interval.high + 1e-12);
    weight += groups[g].weight;
  }
  RC_ASSERT(weight == static_cast<double>(cases.size()));
}

// One forecast a group: the three parts make up the score.
RC_GTEST_PROP(Reliability, PartsOfExactGroupsAreTheScore, ()) {
  const Cases cases = *rc::gen::nonEmpty(random_cases(true));
  const auto groups = reliability_groups(cases, cases.size(), 1);
  const auto parts = murphy_decomposition(groups);
  RC_ASSERT(std::abs(parts.reliability - parts.resolution + parts.uncertainty - brier(cases)) <
            1e-12);
}

TEST(Reliability, RefusesNothing) {
  EXPECT_THROW(murphy_decomposition({}), std::invalid_argument);
  EXPECT_THROW(reliability_groups({}, 0, 1), std::invalid_argument);
  EXPECT_THROW(reliability_groups({}, 1, 0), std::invalid_argument);
  EXPECT_THROW(reliability_groups(Cases{{2, 0, 0}}, 1, 1), std::invalid_argument);
}

}  // namespace
}  // namespace likelihet::audit::reliability_test
