// Ranks against every pair, and lists in which nothing can be told.
#include <cmath>
#include <set>
#include <stdexcept>

#include "audit/random_cases.hpp"
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <likelihet/audit/roc.hpp>

namespace likelihet::audit::roc_test {
namespace {

double wins(const Case& so, const Case& other) {
  if (so.probability == other.probability) return 0.5;
  return so.probability > other.probability ? 1 : 0;
}

// DeLong's components pair by pair.
struct ByPairs {
  std::vector<double> positive, negative;

  explicit ByPairs(const Cases& cases) {
    Cases so, other;
    for (const Case& one : cases) (one.outcome >= 0.5 ? so : other).push_back(one);
    for (const Case& a : so) {
      double sum = 0;
      for (const Case& b : other) sum += wins(a, b);
      positive.push_back(sum / static_cast<double>(other.size()));
    }
    for (const Case& b : other) {
      double sum = 0;
      for (const Case& a : so) sum += wins(a, b);
      negative.push_back(sum / static_cast<double>(so.size()));
    }
  }
  [[nodiscard]] bool both() const { return !positive.empty() && !negative.empty(); }
};

double mean(const std::vector<double>& of) {
  double sum = 0;
  for (double value : of) sum += value;
  return sum / static_cast<double>(of.size());
}

double variance_of_mean(const std::vector<double>& of) {
  if (of.size() < 2) return 0;
  double sum = 0;
  for (double value : of) sum += (value - mean(of)) * (value - mean(of));
  const auto n = static_cast<double>(of.size());
  return sum / (n * (n - 1));
}

RC_GTEST_PROP(Roc, RanksAreAsEveryPair, ()) {
  const Cases cases = *random_cases(true);
  const ByPairs pairs(cases);
  const auto found = auc(cases);
  RC_ASSERT(found.has_value() == pairs.both());
  RC_ASSERT(roc_points(cases).empty() != pairs.both());
  if (!found) return;
  RC_ASSERT(std::abs(found->value - mean(pairs.positive)) < 1e-12);
  const double variance = variance_of_mean(pairs.positive) + variance_of_mean(pairs.negative);
  RC_ASSERT(std::abs(found->standard_error - std::sqrt(variance)) < 1e-7);
  RC_ASSERT((found->value >= 0 && found->value <= 1));
  RC_ASSERT((0 <= found->interval.low && found->interval.high <= 1));
  RC_ASSERT((found->interval.low <= found->value && found->value <= found->interval.high));
  RC_ASSERT(found->interval.low < found->interval.high);
}

RC_GTEST_PROP(Roc, PointsRiseAndHaveTheArea, ()) {
  const Cases cases = *random_cases();
  const auto points = roc_points(cases);
  RC_PRE(!points.empty());
  std::set<double> forecasts;
  for (const Case& one : cases) forecasts.insert(one.probability);
  RC_ASSERT(points.size() == forecasts.size() + 1);
  RC_ASSERT(!points.front().threshold.has_value());
  RC_ASSERT((points.back().false_positive == 1 && points.back().true_positive == 1));
  double area = 0;
  for (std::size_t i = 1; i < points.size(); ++i) {
    const double width = points[i].false_positive - points[i - 1].false_positive;
    RC_ASSERT((width >= 0 && points[i].true_positive >= points[i - 1].true_positive));
    area += width * (points[i].true_positive + points[i - 1].true_positive) / 2;
  }
  RC_ASSERT(std::abs(area - auc(cases)->value) < 1e-12);
}

RC_GTEST_PROP(Roc, WithinClustersIsEveryPairOfACluster, ()) {
  const Cases cases = *random_cases();
  double won = 0;
  double pairs = 0;
  std::set<std::size_t> clusters;
  for (const Case& a : cases) {
    for (const Case& b : cases) {
      if (a.cluster != b.cluster || a.outcome < 0.5 || b.outcome >= 0.5) continue;
      won += wins(a, b);
      pairs += 1;
      clusters.insert(a.cluster);
    }
  }
  const auto found = auc_within(cases);
  RC_ASSERT(found.has_value() == (pairs > 0));
  if (!found) return;
  RC_ASSERT(std::abs(found->value - won / pairs) < 1e-12);
  RC_ASSERT((found->pairs == pairs && found->clusters == clusters.size()));
}

RC_GTEST_PROP(Roc, DifferencesByPairs, ()) {
  const Cases first = *random_cases();
  Cases second = first;
  for (Case& one : second) one.probability = *rc::gen::inRange(0, 21) / 20.0;
  const ByPairs a(first);
  const ByPairs b(second);
  const auto found = auc_difference(first, second);
  RC_ASSERT((found.has_value() == (a.positive.size() > 1 && a.negative.size() > 1)));
  if (!found) return;
  RC_ASSERT(std::abs(found->value - (mean(a.positive) - mean(b.positive))) < 1e-12);
  std::vector<double> positive, negative;
  for (std::size_t i = 0; i < a.positive.size(); ++i) {
    positive.push_back(a.positive[i] - b.positive[i]);
  }
  for (std::size_t i = 0; i < a.negative.size(); ++i) {
    negative.push_back(a.negative[i] - b.negative[i]);
  }
  RC_ASSERT(std::abs(found->standard_error -
                     std::sqrt(variance_of_mean(positive) + variance_of_mean(negative))) < 1e-7);
  const auto other_way = auc_difference(second, first);
  RC_ASSERT(std::abs(found->value + other_way->value) < 1e-12);
  RC_ASSERT(found->z.has_value() == found->p.has_value());
  if (found->p) RC_ASSERT((*found->p >= 0 && *found->p <= 1));
}

TEST(Roc, SameListDoesNotDiffer) {
  const Cases cases{{.1, 0, 0}, {.4, 1, 0}, {.3, 0, 0}, {.2, 1, 0}};
  const auto found = auc_difference(cases, cases);
  ASSERT_TRUE(found);
  EXPECT_EQ(found->value, 0);
  EXPECT_EQ(found->z, 0);
  EXPECT_EQ(found->p, 1);
}

// One perfect, one perfectly wrong: a difference of 1 with no variance is no test.
TEST(Roc, DifferenceWithoutVariance) {
  const Cases right{{.1, 0, 0}, {.2, 0, 0}, {.8, 1, 0}, {.9, 1, 0}};
  const Cases wrong{{.9, 0, 0}, {.8, 0, 0}, {.2, 1, 0}, {.1, 1, 0}};
  const auto found = auc_difference(right, wrong);
  ASSERT_TRUE(found);
  EXPECT_EQ(found->value, 1);
  EXPECT_FALSE(found->z);
  EXPECT_FALSE(found->p);
}

TEST(Roc, AllTied) {
  Cases cases;
  add(cases, .5, 10, 4);
  const auto found = auc(cases);
  ASSERT_TRUE(found);
  EXPECT_EQ(found->value, 0.5);
  EXPECT_LT(found->interval.low, 0.3);
  EXPECT_GT(found->interval.high, 0.7);
}

// By hand: of one of each kind the score limit t solves 1 - t = z sqrt(t (1 - t)): t = 1 / (1 +
// z^2).
TEST(Roc, OneOfEachKind) {
  const auto found = auc(Cases{{.9, 1, 0}, {.1, 0, 1}});
  ASSERT_TRUE(found);
  EXPECT_EQ(found->value, 1);
  EXPECT_EQ(found->standard_error, 0);
  EXPECT_NEAR(found->interval.low, 1 / (1 + 1.959963984540054 * 1.959963984540054), 1e-9);
  EXPECT_EQ(found->interval.high, 1);
  EXPECT_FALSE(auc_difference(Cases{{.9, 1, 0}, {.1, 0, 1}}, Cases{{.9, 1, 0}, {.1, 0, 1}}));
}

TEST(Roc, NothingToTellApart) {
  for (const Cases& cases : {Cases{}, Cases{{.5, 1, 0}}, Cases{{.5, 1, 0}, {.6, 1, 0}},
                             Cases{{.5, 0, 0}, {.6, .4, 0}}}) {
    EXPECT_FALSE(auc(cases));
    EXPECT_FALSE(auc_within(cases));
    EXPECT_TRUE(roc_points(cases).empty());
  }
  EXPECT_FALSE(auc_within(Cases{{.5, 1, 0}, {.6, 0, 1}}));
}

TEST(Roc, RefusesListsThatAreNotPaired) {
  const Cases cases{{.1, 0, 0}, {.4, 1, 0}};
  EXPECT_THROW(auc_difference(cases, Cases{{.1, 0, 0}}), std::invalid_argument);
  EXPECT_THROW(auc_difference(cases, Cases{{.1, 1, 0}, {.4, 1, 0}}), std::invalid_argument);
  EXPECT_THROW(auc(Cases{{NAN, 0, 0}}), std::invalid_argument);
}

}  // namespace
}  // namespace likelihet::audit::roc_test
