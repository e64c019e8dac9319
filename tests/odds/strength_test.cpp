// Markers that share a strength of expression, against closed forms.
#include <cmath>
#include <numeric>

#include <boost/math/constants/constants.hpp>
#include <gtest/gtest.h>

#include <likelihet/odds/strength.hpp>

namespace likelihet::odds::strength_test {
namespace {

double average(const StrengthPoints& points, const std::vector<double>& values) {
  return std::inner_product(values.begin(), values.end(), points.weight.begin(), 0.0);
}

// Moments of the standard normal: 1, 0, 1, 0, 3, 0, 15 (Abramowitz and Stegun 1964, 26.1.28).
TEST(StrengthPoints, MomentsAreThoseOfTheNormal) {
  const StrengthPoints points = strength_points();
  const double moments[] = {1, 0, 1, 0, 3, 0, 15, 0, 105};
  for (int power = 0; power < 9; ++power) {
    std::vector<double> values;
    for (double t : points.strength) values.push_back(std::pow(t, power));
    EXPECT_NEAR(average(points, values), moments[power], 1e-11 * (1 + moments[power])) << power;
  }
}

// The largest of Hermite's points for n = 5 and its weight, 2.0201828704561 and 0.0112574113277
// over the root of pi (Abramowitz and Stegun 1964, table 25.10), in the physicists' scale.
TEST(StrengthPoints, FivePointsAreTheTabulatedOnes) {
  const StrengthPoints points = strength_points(5);
  ASSERT_EQ(points.strength.size(), 5U);
  EXPECT_NEAR(points.strength[4], std::sqrt(2.0) * 2.02018287045609, 1e-13);
  EXPECT_NEAR(points.strength[3], std::sqrt(2.0) * 0.958572464613819, 1e-13);
  EXPECT_NEAR(points.strength[2], 0, 1e-13);
  EXPECT_NEAR(points.weight[4],
              0.0199532420590459 / std::sqrt(boost::math::constants::pi<double>()), 1e-14);
}

// Averaged over the strength a row is what it was, whatever the loading.
TEST(GivenStrength, AveragesToTheRow) {
  const StrengthPoints points = strength_points();
  const std::size_t n = points.strength.size();
  for (const std::vector<double>& row : {std::vector<double>{0.2, 0.3, 0.5},
                                         {0.99, 0.0, 0.01},
                                         {1e-9, 1 - 2e-9, 1e-9},
                                         {0.6, 0.4}}) {
    for (double loading : {0.0, 0.3, 1.0, 2.0}) {
      const auto given = given_strength(row, loading, points.strength);
      for (std::size_t k = 0; k < row.size(); ++k) {
        const std::vector<double> of(given.begin() + static_cast<std::ptrdiff_t>(k * n),
                                     given.begin() + static_cast<std::ptrdiff_t>((k + 1) * n));
        EXPECT_NEAR(average(points, of), row[k], 1e-7 * (loading > 1 ? 10 : 1e-3));
        if (row[k] <= 0) {
          EXPECT_EQ(of, std::vector<double>(n, 0.0));
        }
      }
    }
  }
}

// Two markers that are there in half of all animals: both in 1/4 + arcsin(rho)/(2 pi), with rho the
// correlation of what lies behind them (Sheppard 1899, Philosophical Transactions A 192:101; from
// memory). With loadings a and b, rho = ab / sqrt((1 + a^2)(1 + b^2)).
TEST(GivenStrength, TwoHalvesAreSheppardsFormula) {
  const StrengthPoints points = strength_points();
  const std::size_t n = points.strength.size();
  for (const auto& [a, b] : {std::pair(0.0, 1.0), {0.5, 0.5}, {1.0, 1.0}, {2.0, 0.7}, {3.0, 3.0}}) {
    const auto first = given_strength({0.5, 0.5}, a, points.strength);
    const auto second = given_strength({0.5, 0.5}, b, points.strength);
    double both = 0;
    for (std::size_t q = 0; q < n; ++q) both += points.weight[q] * first[n + q] * second[n + q];
    const double rho = a * b / std::sqrt((1 + a * a) * (1 + b * b));
    EXPECT_NEAR(both, 0.25 + std::asin(rho) / (2 * boost::math::constants::pi<double>()),
                a > 2 ? 2e-5 : 1e-9)
        << a << ' ' << b;
  }
}

TEST(GivenStrength, SlopesAreDifferences) {
  const StrengthPoints points = strength_points(8);
  const std::size_t n = points.strength.size();
  const std::vector<double> row{0.2, 0.3, 0.5};
  constexpr double h = 1e-6;
  const auto by_loading = slope_in_loading(row, 0.8, points.strength);
  const auto above = given_strength(row, 0.8 + h, points.strength);
  const auto below = given_strength(row, 0.8 - h, points.strength);
  for (std::size_t i = 0; i < by_loading.size(); ++i) {
    EXPECT_NEAR(by_loading[i], (above[i] - below[i]) / (2 * h), 1e-8);
  }
  // c_0 moves, c_1 stays: what level 0 gains level 1 loses.
  const auto by_cumulated = slope_in_cumulated(row, 0.8, points.strength);
  const auto more = given_strength({0.2 + h, 0.3 - h, 0.5}, 0.8, points.strength);
  const auto less = given_strength({0.2 - h, 0.3 + h, 0.5}, 0.8, points.strength);
  for (std::size_t q = 0; q < n; ++q) {
    EXPECT_NEAR(by_cumulated[q], (more[q] - less[q]) / (2 * h), 1e-8);
    EXPECT_NEAR(more[2 * n + q], less[2 * n + q], 1e-9);
  }
}

// A strong animal shows more, a weak one less.
TEST(GivenStrength, StrongAnimalsShowMore) {
  const auto given = given_strength({0.2, 0.3, 0.5}, 1.5, {-2.0, 0.0, 2.0});
  EXPECT_GT(given[0], given[1]);
  EXPECT_GT(given[1], given[2]);
  EXPECT_LT(given[6], given[7]);
  EXPECT_LT(given[7], given[8]);
}

}  // namespace
}  // namespace likelihet::odds::strength_test
