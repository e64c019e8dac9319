// The number types of a pass: lanes beside each other, exponents without end, scales taken out.
#include <array>
#include <cmath>
#include <limits>
#include <random>
#include <vector>

#include <gtest/gtest.h>

#include <likelihet/inference/numbers.hpp>

namespace likelihet::test::numbers_test {
namespace {

using namespace inference;

constexpr double ln2 = 0.693147180559945309417232121458;

double log_of_one(const Extended& value) {
  return log_of(value, Scale<Extended>{});
}

TEST(LanesOfNumbers, AreEachByItself) {
  Lanes<4> a(2.0);
  Lanes<4> b;
  for (std::size_t k = 0; k < 4; ++k) b.lane[k] = static_cast<double>(k);
  const Lanes<4> product = a * b;
  a += b;
  for (std::size_t k = 0; k < 4; ++k) {
    EXPECT_EQ(product.lane[k], 2.0 * static_cast<double>(k));
    EXPECT_EQ(a.lane[k], 2.0 + static_cast<double>(k));
  }
  EXPECT_EQ(Lanes<4>().lane, (std::array<double, 4>{0, 0, 0, 0}));
}

// 0/0 = 0 in a junction tree (Jensen, Lauritzen and Olesen 1990), lane by lane.
TEST(Divide, IsZeroByZero) {
  EXPECT_EQ(divide(3.0, 2.0), 1.5);
  EXPECT_EQ(divide(3.0, 0.0), 0.0);
  EXPECT_EQ(divide(0.0, 0.0), 0.0);
  Lanes<2> a(6.0);
  Lanes<2> b(0.0);
  b.lane[1] = 4.0;
  EXPECT_EQ(divide(a, b).lane, (std::array<double, 2>{0.0, 1.5}));
  EXPECT_EQ(divide(Extended(1.0), Extended()).mantissa, 0.0);
  EXPECT_EQ(divide(Extended(), Extended(2.0)).mantissa, 0.0);
}

TEST(ExtendedNumber, EqualsADoubleWithinItsReach) {
  std::mt19937_64 random(1);
  std::uniform_real_distribution<double> exponent(-300, 300);
  for (int i = 0; i < 2000; ++i) {
    const double a = std::pow(10.0, exponent(random) / 3);
    const double b = std::pow(10.0, exponent(random) / 3);
    EXPECT_NEAR(log_of_one(Extended(a) * Extended(b)), std::log(a * b), 1e-11);
    Extended sum(a);
    sum += Extended(b);
    EXPECT_NEAR(log_of_one(sum), std::log(a + b), 1e-11);
    EXPECT_NEAR(log_of_one(divide(Extended(a), Extended(b))), std::log(a / b), 1e-11);
  }
}

// The mantissa is in [1/2, 1) (frexp, ISO C 7.12.6.4), whatever came before.
TEST(ExtendedNumber, IsNormalised) {
  for (const double value : {1.0, 0.75, 1e-320, 5e-324, 1e308, 3.0}) {
    const Extended wide(value);
    EXPECT_GE(wide.mantissa, 0.5);
    EXPECT_LT(wide.mantissa, 1.0);
    EXPECT_EQ(std::ldexp(wide.mantissa, static_cast<int>(wide.exponent)), value);
  }
  EXPECT_EQ(Extended(0.0).exponent, 0);
}

// (1e-300)^10000 and back: ln = -3,000,000 ln 10.
TEST(ExtendedNumber, ReachesBeyondEveryDouble) {
  Extended product(1.0);
  for (int i = 0; i < 10'000; ++i) product *= Extended(1e-300);
  EXPECT_NEAR(log_of_one(product) / (-3e6 * std::log(10.0)), 1, 1e-12);
  for (int i = 0; i < 10'000; ++i) product = divide(product, Extended(1e-300));
  EXPECT_NEAR(log_of_one(product), 0, 1e-9);
}

TEST(ExtendedNumber, AddsWhatIsFarApart) {
  Extended small(1.0);
  for (int i = 0; i < 20; ++i) small *= Extended(1e-300);
  Extended sum(1.0);
  sum += small;
  EXPECT_EQ(std::ldexp(sum.mantissa, static_cast<int>(sum.exponent)), 1.0);
  Extended other = small;
  other += Extended(1.0);
  EXPECT_EQ(other.mantissa, sum.mantissa);
  EXPECT_EQ(other.exponent, sum.exponent);
  // 2^-2100 is lost beside 1, 2^-52 is not.
  Extended last(1.0);
  last += Extended(0x1p-52);
  EXPECT_EQ(std::ldexp(last.mantissa, static_cast<int>(last.exponent)), 1.0 + 0x1p-52);
}

TEST(ExtendedNumber, IsADoubleAgainWhereOneReachesIt) {
  using inference::as_double;
  EXPECT_EQ(as_double(Extended(0x1.8p-1000)), 0x1.8p-1000);
  EXPECT_EQ(as_double(Extended(0.0)), 0);
  Extended small(0x1p-1000);
  small *= Extended(0x1p-70);
  EXPECT_EQ(as_double(small), 0x1p-1070);  // among the denormal ones
  for (int i = 0; i < 100; ++i) small *= Extended(0x1p-1000);
  EXPECT_EQ(as_double(small), 0);
}

TEST(ExtendedNumber, HasANothing) {
  Extended nothing;
  nothing += Extended();
  EXPECT_EQ(nothing.mantissa, 0.0);
  nothing *= Extended(5.0);
  EXPECT_EQ(nothing.mantissa, 0.0);
  EXPECT_EQ(nothing.exponent, 0);
  nothing += Extended(5.0);
  EXPECT_NEAR(log_of_one(nothing), std::log(5.0), 1e-15);
  EXPECT_EQ(log_of_one(Extended()), -std::numeric_limits<double>::infinity());
}

TEST(ScaleOfDoubles, LeavesOrdinaryNumbersAlone) {
  Scale<double> scale;
  std::vector<double> table{0.5, 1e-15, 0.0};
  const auto before = table;
  scale.normalise(table.data(), table.size());
  EXPECT_EQ(table, before);
  EXPECT_EQ(scale.exponent, 0);
  EXPECT_FALSE(scale.in_doubt());
}

// Powers of two round nothing: every entry comes back bit for bit, and those of the second table
// go with the first.
TEST(ScaleOfDoubles, TakesOutAPowerOfTwoExactly) {
  std::mt19937_64 random(2);
  std::uniform_real_distribution<double> unit(0.1, 1.0);
  for (const int power : {-150, -90, -70, 80, 200}) {
    Scale<double> scale;
    std::vector<double> table{std::ldexp(unit(random), power),
                              std::ldexp(unit(random), power - 20)};
    std::vector<double> more{std::ldexp(unit(random), power + 3)};
    const auto table_before = table;
    const auto more_before = more;
    scale.normalise(table.data(), 2, more.data(), 1);
    EXPECT_FALSE(scale.in_doubt());
    EXPECT_GE(table[0], 0.5);
    EXPECT_LT(table[0], 2.0);
    for (std::size_t i = 0; i < 2; ++i) {
      EXPECT_EQ(std::ldexp(table[i], static_cast<int>(scale.exponent)), table_before[i]);
    }
    EXPECT_EQ(std::ldexp(more[0], static_cast<int>(scale.exponent)), more_before[0]);
    EXPECT_NEAR(log_of(table[0], scale), std::log(table_before[0]), 1e-12);
  }
}

TEST(ScaleOfDoubles, DoubtsWhatMayHaveBeenLost) {
  Scale<double> near;
  double small = std::ldexp(1.0, least_exponent + 1);
  near.normalise(&small, 1);
  EXPECT_FALSE(near.in_doubt());
  Scale<double> beyond;
  double smaller = std::ldexp(1.0, least_exponent - 1);
  beyond.normalise(&smaller, 1);
  EXPECT_TRUE(beyond.in_doubt());
  EXPECT_EQ(smaller, 1.0);
  Scale<double> none;
  double zero = 0;
  none.normalise(&zero, 1);
  EXPECT_TRUE(none.in_doubt());
  EXPECT_EQ(zero, 0.0);
  // Even a number at the end of the doubles is brought back to sight.
  Scale<double> least;
  double denormal = 5e-324;
  least.normalise(&denormal, 1);
  EXPECT_TRUE(least.in_doubt());
  EXPECT_GT(denormal, 0.0);
  EXPECT_NEAR(std::log(denormal) + static_cast<double>(least.exponent) * ln2, std::log(5e-324),
              1e-9);
}

TEST(ScaleOfDoubles, AddsAndPutsBack) {
  Scale<double> one;
  double a = 0x1p-100;
  one.normalise(&a, 1);
  Scale<double> two;
  double b = 0x1p-200;
  two.normalise(&b, 1);
  one.add(two);
  EXPECT_EQ(one.exponent, -300);
  std::vector<double> table{a, 0.25};
  one.put_back(table.data(), 2);
  EXPECT_EQ(table[0], 0x1p-300);
  EXPECT_EQ(table[1], 0x1p-302);
  EXPECT_FALSE(one.doubt().in_doubt());
  EXPECT_EQ(one.doubt().exponent, 0);
  Scale<double> deep{-700, false};
  deep.put_back(table.data(), 2);
  EXPECT_TRUE(deep.in_doubt());
  EXPECT_TRUE(deep.doubt().in_doubt());
}

// What eight lanes do is what eight doubles would do, each with its own scale.
TEST(ScaleOfLanes, EqualsEightScales) {
  std::mt19937_64 random(3);
  std::uniform_int_distribution<int> power(-650, 100);
  for (int turn = 0; turn < 200; ++turn) {
    std::vector<Lanes<8>> table(3);
    std::vector<Lanes<8>> more(2);
    for (std::size_t k = 0; k < 8; ++k) {
      const int p = turn % 2 == 0 ? power(random) : 0;
      for (auto* list : {&table, &more}) {
        for (std::size_t i = 0; i < list->size(); ++i) {
          (*list)[i].lane[k] = std::ldexp(1.0 + static_cast<double>(i), p - static_cast<int>(i));
        }
      }
    }
    if (turn % 5 == 0) {
      for (auto& entry : table) entry.lane[3] = 0;
    }
    const auto table_before = table;
    const auto more_before = more;
    Scale<Lanes<8>> scale;
    scale.normalise(table.data(), table.size(), more.data(), more.size());
    bool any = false;
    for (std::size_t k = 0; k < 8; ++k) {
      Scale<double> one;
      double alone[3];
      double beside[2];
      for (std::size_t i = 0; i < 3; ++i) alone[i] = table_before[i].lane[k];
      for (std::size_t i = 0; i < 2; ++i) beside[i] = more_before[i].lane[k];
      one.normalise(alone, 3, beside, 2);
      EXPECT_EQ(scale.exponent[k], one.exponent);
      EXPECT_EQ(scale.lost[k], one.lost);
      for (std::size_t i = 0; i < 3; ++i) EXPECT_EQ(table[i].lane[k], alone[i]);
      for (std::size_t i = 0; i < 2; ++i) EXPECT_EQ(more[i].lane[k], beside[i]);
      any = any || one.lost;
    }
    EXPECT_EQ(scale.in_doubt(), any);
    EXPECT_EQ(scale.doubt().in_doubt(), any);
  }
}

TEST(ScaleOfLanes, PutsEachLaneBack) {
  std::vector<Lanes<8>> table(1, Lanes<8>(1.0));
  Scale<Lanes<8>> scale;
  scale.exponent[2] = -10;
  Scale<Lanes<8>> other;
  other.exponent[2] = -1;
  other.exponent[5] = 4;
  scale.add(other);
  scale.put_back(table.data(), 1);
  EXPECT_EQ(table[0].lane[2], 0x1p-11);
  EXPECT_EQ(table[0].lane[5], 16.0);
  EXPECT_EQ(table[0].lane[0], 1.0);
}

}  // namespace
}  // namespace likelihet::test::numbers_test
