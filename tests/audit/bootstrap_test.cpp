// Whole clusters drawn with replacement.
#include <cmath>
#include <set>
#include <stdexcept>

#include "audit/random_cases.hpp"
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <likelihet/audit/bootstrap.hpp>
#include <likelihet/audit/roc.hpp>

namespace likelihet::audit::bootstrap_test {
namespace {

std::optional<double> mean_outcome(std::span<const Case> cases) {
  double sum = 0;
  for (const Case& one : cases) sum += one.outcome;
  return cases.empty() ? std::nullopt : std::optional(sum / static_cast<double>(cases.size()));
}

std::size_t clusters_of(std::span<const Case> cases) {
  std::set<std::size_t> clusters;
  for (const Case& one : cases) clusters.insert(one.cluster);
  return clusters.size();
}

// A cluster drawn twice is two clusters, each whole.
RC_GTEST_PROP(Bootstrap, KeepsClustersWholeAndApart, ()) {
  const Cases cases = *random_cases();
  const std::size_t clusters = clusters_of(cases);
  bool asked = false;
  const auto found = bootstrap_by_cluster(cases, 5, 11, [&](std::span<const Case> drawn) {
    asked = true;
    RC_ASSERT(clusters_of(drawn) == clusters);
    return mean_outcome(drawn);
  });
  RC_ASSERT(found.has_value() == (clusters >= 2));
  RC_ASSERT(asked == found.has_value());
  if (found) RC_ASSERT((0 <= found->low && found->low <= found->high && found->high <= 1));
}

RC_GTEST_PROP(Bootstrap, IsTheSameAgainAndUnderOtherNumbers, ()) {
  const Cases cases = *random_cases();
  Cases renumbered = cases;
  for (Case& one : renumbered) one.cluster = 100 + 7 * one.cluster;
  const auto first = bootstrap_by_cluster(cases, 20, 3, mean_outcome);
  for (const Cases& list : {cases, renumbered}) {
    const auto again = bootstrap_by_cluster(list, 20, 3, mean_outcome);
    RC_ASSERT(first.has_value() == again.has_value());
    if (first) RC_ASSERT((first->low == again->low && first->high == again->high));
  }
}

RC_GTEST_PROP(Bootstrap, PairsStayTogether, ()) {
  const Cases cases = *random_cases();
  const auto found = bootstrap_by_cluster(
      cases, cases, 10, 5,
      [](std::span<const Case> a, std::span<const Case> b) -> std::optional<double> {
        for (std::size_t i = 0; i < a.size(); ++i) {
          RC_ASSERT((a[i].probability == b[i].probability && a[i].cluster == b[i].cluster));
        }
        return brier(a) - brier(b);
      });
  if (found) RC_ASSERT((found->low == 0 && found->high == 0));
}

// 400 clusters of one, half of them so: about the normal interval, .5 -/+ 1.96 .025.
TEST(Bootstrap, NearTheNormalIntervalOfAMean) {
  Cases cases;
  add(cases, .5, 400, 200);
  const auto found = bootstrap_by_cluster(cases, 4000, 1, mean_outcome);
  ASSERT_TRUE(found);
  EXPECT_NEAR(found->low, .451, .006);
  EXPECT_NEAR(found->high, .549, .006);
  // The same cases in pairs that are alike: wider by the root of 2.
  for (Case& one : cases) one.cluster /= 2;
  const auto paired = bootstrap_by_cluster(cases, 4000, 1, mean_outcome);
  ASSERT_TRUE(paired);
  EXPECT_NEAR(paired->low, .5 - .049 * std::sqrt(2.0), .009);
}

TEST(Bootstrap, FewClustersAndFewValues) {
  EXPECT_FALSE(bootstrap_by_cluster({}, 10, 1, mean_outcome));
  const Cases one{{.5, 1, 4}, {.5, 0, 4}};
  EXPECT_FALSE(bootstrap_by_cluster(one, 10, 1, mean_outcome));
  Cases two = one;
  two.push_back({.5, 0, 5});
  EXPECT_TRUE(bootstrap_by_cluster(two, 10, 1, mean_outcome));
  const auto none = [](std::span<const Case>) { return std::optional<double>(); };
  EXPECT_FALSE(bootstrap_by_cluster(two, 10, 1, none));
  const auto infinite = [](std::span<const Case>) { return std::optional(HUGE_VAL); };
  EXPECT_FALSE(bootstrap_by_cluster(two, 10, 1, infinite));
  int calls = 0;
  const auto half = [&](std::span<const Case>) {
    return ++calls % 2 == 0 ? std::optional(1.0) : std::nullopt;
  };
  EXPECT_TRUE(bootstrap_by_cluster(two, 10, 1, half));
  calls = 0;
  const auto third = [&](std::span<const Case>) {
    return ++calls % 3 == 0 ? std::optional(1.0) : std::nullopt;
  };
  EXPECT_FALSE(bootstrap_by_cluster(two, 9, 1, third));
}

TEST(Bootstrap, Refuses) {
  const Cases cases{{.5, 1, 1}, {.5, 0, 2}};
  const Cases other{{.5, 1, 1}, {.5, 0, 3}};
  const auto none = [](std::span<const Case>, std::span<const Case>) {
    return std::optional<double>();
  };
  EXPECT_THROW(bootstrap_by_cluster(cases, 0, 1, mean_outcome), std::invalid_argument);
  EXPECT_THROW(bootstrap_by_cluster(cases, 5, 1, mean_outcome, 1), std::invalid_argument);
  EXPECT_THROW(bootstrap_by_cluster(cases, other, 5, 1, none), std::invalid_argument);
  EXPECT_THROW(bootstrap_by_cluster(cases, {}, 5, 1, none), std::invalid_argument);
}

}  // namespace
}  // namespace likelihet::audit::bootstrap_test
