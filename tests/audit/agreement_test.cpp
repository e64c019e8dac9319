// Indices of agreement: their errors against numerical derivatives, and tables that say nothing.
#include <array>
#include <cmath>
#include <functional>
#include <stdexcept>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <likelihet/audit/agreement.hpp>

namespace likelihet::audit::agreement_test {
namespace {

using Table = std::vector<double>;

Table any_table(std::size_t categories, int least = 0) {
  Table out;
  for (std::size_t cell = 0; cell < categories * categories; ++cell) {
    out.push_back(*rc::gen::inRange(least, 9));
  }
  return out;
}

// The delta method: of a statistic of multinomial counts, n times the variance is the sum of p d^2
// less the square of the sum of p d, d the derivatives by the proportions.
double error_by_differences(const Table& table, const std::function<double(const Table&)>& of) {
  double n = 0;
  for (double count : table) n += count;
  double squares = 0;
  double mean = 0;
  for (std::size_t cell = 0; cell < table.size(); ++cell) {
    Table up = table;
    Table down = table;
    const double step = 1e-5 * n;
    up[cell] += step;
    down[cell] -= step;
    // By the count: the statistic does not change where all grow alike, so that the derivative by
    // the proportion is n times this.
    const double derivative = n * (of(up) - of(down)) / (2 * step);
    squares += table[cell] / n * derivative * derivative;
    mean += table[cell] / n * derivative;
  }
  return std::sqrt((squares - mean * mean) / n);
}

RC_GTEST_PROP(Agreement, ErrorsAreThoseOfTheDeltaMethod, ()) {
  const Table table = any_table(3, 1);
  for (const Table& weights : {unweighted(3), linear_weights(3), quadratic_weights(3)}) {
    const auto cohen = [&](const Table& of) { return *cohen_kappa(of, 3, weights).value; };
    const auto ac = [&](const Table& of) { return *gwet(of, 3, weights).value; };
    RC_ASSERT(std::abs(cohen_kappa(table, 3, weights).standard_error -
                       error_by_differences(table, cohen)) < 1e-6);
    RC_ASSERT(std::abs(gwet(table, 3, weights).standard_error - error_by_differences(table, ac)) <
              1e-6);
  }
}

// Who is first does not matter, and two categories have one way to disagree.
RC_GTEST_PROP(Agreement, Symmetries, ()) {
  const Table table = any_table(2, 1);
  const Table turned{table[0], table[2], table[1], table[3]};
  for (const auto& index : {cohen_kappa, gwet}) {
    const double value = *index(table, 2, {}).value;
    RC_ASSERT(std::abs(value - *index(turned, 2, {}).value) < 1e-12);
    RC_ASSERT(std::abs(value - *index(table, 2, quadratic_weights(2)).value) < 1e-12);
    RC_ASSERT(value <= 1 + 1e-12);
  }
}

// Of any table: a value within its interval, or a reason.
RC_GTEST_PROP(Agreement, EitherAValueOrAReason, ()) {
  const Table table = any_table(3);
  for (const auto& index : {cohen_kappa, gwet}) {
    const Kappa found = index(table, 3, linear_weights(3));
    RC_ASSERT(found.value.has_value() == found.undefined.empty());
    RC_ASSERT(std::isfinite(found.standard_error));
    RC_ASSERT(found.interval.low < found.interval.high);
    if (found.value && *found.value >= -1) {
      RC_ASSERT(found.interval.low <= *found.value + 1e-12);
      RC_ASSERT(*found.value <= found.interval.high + 1e-12);
    }
  }
}

// AC1 by hand: margins .85 and .15 on average, chance 2 * .85 * .15 = .255, (.9 - .255) / .745.
TEST(Agreement, GwetByHand) {
  const Kappa found = gwet(std::array{80.0, 5.0, 5.0, 10.0}, 2);
  EXPECT_NEAR(found.expected, 0.255, 1e-12);
  EXPECT_NEAR(found.value.value_or(0), 0.645 / 0.745, 1e-12);
}

TEST(Agreement, Weights) {
  EXPECT_EQ(unweighted(2), (Table{1, 0, 0, 1}));
  EXPECT_EQ(linear_weights(3), (Table{1, .5, 0, .5, 1, .5, 0, .5, 1}));
  EXPECT_EQ(quadratic_weights(3), (Table{1, .75, 0, .75, 1, .75, 0, .75, 1}));
  EXPECT_EQ(linear_weights(1), Table{1});
  EXPECT_EQ(from_disagreement(Table{0, 2, 4, 0}), (Table{1, .5, 0, 1}));
  EXPECT_THROW(from_disagreement(Table{0, 0, 0, 0}), std::invalid_argument);
}

TEST(Agreement, NothingScored) {
  const Table none(4);
  EXPECT_EQ(cohen_kappa(none, 2).undefined, "nothing was scored by both");
  EXPECT_EQ(gwet(none, 2).undefined, "nothing was scored by both");
  EXPECT_EQ(fleiss_kappa({}, 2).undefined, "nothing was scored by two");
  EXPECT_EQ(fleiss_kappa(Table{1, 0, 0, 1}, 2).undefined, "nothing was scored by two");
  EXPECT_EQ(gwet(Table{5}, 1).undefined, "there is one category");
}

// Weights by which nothing is a disagreement.
TEST(Agreement, WeightsThatForgiveAll) {
  const Table table{3, 3, 3, 3};
  const Table forgiving{1, 1, 1, 1};
  for (const auto& index : {cohen_kappa, gwet}) {
    EXPECT_EQ(index(table, 2, forgiving).undefined, "chance agrees always");
    EXPECT_FALSE(index(table, 2, forgiving).only_category);
  }
}

// All agree in two categories: kappa 1, and an interval that still has width.
TEST(Agreement, PerfectAgreementIsNotCertain) {
  for (const auto& index : {cohen_kappa, gwet}) {
    const Kappa found = index(Table{6, 0, 0, 4}, 2, {});
    EXPECT_NEAR(found.value.value_or(0), 1, 1e-12);
    EXPECT_EQ(found.standard_error, 0);
    EXPECT_EQ(found.interval.high, 1);
    EXPECT_LT(found.interval.low, 0.6);
  }
}

TEST(Agreement, RefusesTablesOfNoShape) {
  EXPECT_THROW(cohen_kappa(Table{1, 2, 3}, 2), std::invalid_argument);
  EXPECT_THROW(cohen_kappa({}, 0), std::invalid_argument);
  EXPECT_THROW(gwet(Table{1, 2, 3, 4}, 2, Table{1, 0}), std::invalid_argument);
  EXPECT_THROW(gwet(Table{1, -2, 3, 4}, 2), std::invalid_argument);
  EXPECT_THROW(cohen_kappa(Table{1, 2, 3, 4}, 2, Table{1, 0, 2, 1}), std::invalid_argument);
  EXPECT_THROW(fleiss_kappa(Table{1, 2, 3}, 2), std::invalid_argument);
  EXPECT_THROW(fleiss_kappa(Table{1, -2}, 2), std::invalid_argument);
}

Table any_counts() {
  Table out;
  const int animals = *rc::gen::inRange(2, 12);
  for (int cell = 0; cell < 3 * animals; ++cell) out.push_back(*rc::gen::inRange(0, 4));
  return out;
}

// What one animal does to kappa, from counting it a little more: the error is that of the mean of
// these over animals.
RC_GTEST_PROP(Agreement, ErrorOfManyIsThatOfWhatEachAnimalDoes, ()) {
  Table counts;
  for (int row = 0; row < 8; ++row) {
    Table scored{0, 0, 0};
    for (int scorer = 0; scorer < 4; ++scorer) {
      scored[*rc::gen::resize(100, rc::gen::inRange<std::size_t>(0, 3))] += 1;
    }
    counts.insert(counts.end(), scored.begin(), scored.end());
  }
  const Kappa found = fleiss_kappa(counts, 3);
  RC_PRE((found.value.has_value() && found.standard_error > 1e-3));
  constexpr int copies = 2000;
  Table many;
  for (int i = 0; i < copies; ++i) many.insert(many.end(), counts.begin(), counts.end());
  double squares = 0;
  for (std::size_t first = 0; first < counts.size(); first += 3) {
    Table more = many;
    for (std::size_t k = 0; k < 3; ++k) more.push_back(counts[first + k]);
    const double moved = (*fleiss_kappa(more, 3).value - *found.value) * (8.0 * copies + 1);
    squares += moved * moved;
  }
  const double error = std::sqrt(squares / (8 * 7));
  RC_ASSERT(std::abs(found.standard_error / error - 1) < 5e-3);
}

RC_GTEST_PROP(Agreement, OfManyEitherAValueOrAReason, ()) {
  const Table counts = any_counts();
  const auto by_category = fleiss_kappa_by_category(counts, 3);
  RC_ASSERT(by_category.size() == 3U);
  for (const Kappa& found : by_category) {
    RC_ASSERT(found.value.has_value() == found.undefined.empty());
    RC_ASSERT(found.interval.low < found.interval.high);
  }
}

// Two scorers of each: Fleiss' kappa is chance from common margins (Scott's pi), by hand 8 of 10
// agree, margins .5, (.8 - .5) / .5.
TEST(Agreement, ManyWithTwoScorers) {
  Table counts;
  for (int i = 0; i < 4; ++i) counts.insert(counts.end(), {2, 0});
  for (int i = 0; i < 4; ++i) counts.insert(counts.end(), {0, 2});
  counts.insert(counts.end(), {1, 1, 1, 1});
  EXPECT_NEAR(fleiss_kappa(counts, 2).value.value_or(0), 0.6, 1e-12);
  // One that only one scorer saw says nothing.
  counts.insert(counts.end(), {1, 0});
  EXPECT_NEAR(fleiss_kappa(counts, 2).value.value_or(0), 0.6, 1e-12);
}

TEST(Agreement, OneAnimalHasNoError) {
  const Kappa found = fleiss_kappa(Table{2, 1}, 2);
  EXPECT_TRUE(found.value);
  EXPECT_TRUE(std::isinf(found.standard_error));
  EXPECT_EQ(found.interval.low, -1);
  EXPECT_EQ(found.interval.high, 1);
}

}  // namespace
}  // namespace likelihet::audit::agreement_test
