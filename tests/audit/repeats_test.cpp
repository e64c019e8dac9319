// Pairs of markers, truth held fixed.
#include <cmath>

#include "audit/hand_made.hpp"
#include <gtest/gtest.h>

#include <likelihet/audit/repeats.hpp>
#include <likelihet/inference/random_bits.hpp>

namespace likelihet::audit::repeats_test {
namespace {

using Levels = std::vector<std::size_t>;

constexpr genetics::CopyChances carrier{0, 1, 0};
constexpr genetics::CopyChances other{1, 0, 0};
constexpr genetics::CopyChances open_truth{0.5, 0.5, 0};

// The first so many are hets, the rest are not; one list of levels a marker.
std::vector<Repeat> repeats_of(const std::vector<HandAnimal>& animals,
                               const std::vector<Levels>& levels) {
  const auto colony = hand_colony(animals);
  MarkerBackground background{{}, hand_table(colony, animals)};
  std::vector<MarkerAudit> markers;
  for (std::size_t m = 0; m < levels.size(); ++m) {
    background.readings.push_back(hand_readings(m, levels[m]));
    markers.emplace_back().marker = m;
  }
  return repeats(colony, background, markers);
}

std::vector<HandAnimal> animals(std::size_t hets, std::size_t others, std::size_t open = 0) {
  std::vector<HandAnimal> out(hets, {carrier});
  out.insert(out.end(), others, {other});
  out.insert(out.end(), open, {open_truth});
  return out;
}

// In each class of six, levels 0 0 0 1 1 1: sum of squares 1.5. z^2 = (1.5 + 1.5)^2 / (2 x 1.5^2 /
// 5) = 10, and P(|Z| > z) = erfc(z / sqrt 2).
TEST(Repeats, IdenticalMarkersCorrelateOneAndTurnedOnesMinusOne) {
  const Levels levels = {0, 0, 0, 1, 1, 1, 1, 1, 1, 0, 0, 0};
  const auto same = repeats_of(animals(6, 6), {levels, levels});
  ASSERT_EQ(same.size(), 1U);
  EXPECT_EQ(same[0].animals, 12U);
  EXPECT_NEAR(same[0].correlation, 1, 1e-12);
  EXPECT_NEAR(same[0].p, std::erfc(std::sqrt(5.0)), 1e-12);
  const auto turned = repeats_of(animals(6, 6), {levels, {1, 1, 1, 0, 0, 0, 0, 0, 0, 1, 1, 1}});
  EXPECT_NEAR(turned.at(0).correlation, -1, 1e-12);
}

// Both tell hets from others perfectly: together, but no more often than the truth explains.
TEST(Repeats, MarkersThatFollowTheTruthAloneDoNotRepeatEachOther) {
  const Levels levels = {1, 1, 1, 1, 1, 1, 0, 0, 0, 0, 0, 0};
  const auto found = repeats_of(animals(6, 6), {levels, levels});
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].correlation, 0);
  EXPECT_EQ(found[0].p, 1);
}

// Hets: first 0 1 2 1 1 (mean 1), second 0 1 2 2 0 (mean 1): product 1 + 1 = 2, squares 2
// and 4. Others: first 0 0 1 1 0, second 1 0 0 1 0 (means 0.4): product 0.2, squares 1.2 and 1.2.
// Correlation 2.2 / sqrt(3.2 x 5.2). Variance of the sum if shuffled 2 x 4 / 4 + 1.2 x 1.2 / 4.
TEST(Repeats, PoolTheTwoClasses) {
  const auto found =
      repeats_of(animals(5, 5), {{0, 1, 2, 1, 1, 0, 0, 1, 1, 0}, {0, 1, 2, 2, 0, 1, 0, 0, 1, 0}});
  ASSERT_EQ(found.size(), 1U);
  EXPECT_NEAR(found[0].correlation, 2.2 / std::sqrt(3.2 * 5.2), 1e-12);
  EXPECT_NEAR(found[0].p, std::erfc(2.2 / std::sqrt(2 * 2.36)), 1e-12);
}

TEST(Repeats, AreNotToldOfFewerThanTenKnownAnimals) {
  const Levels nine = {0, 1, 2, 0, 1, 0, 1, 2, 0};
  EXPECT_TRUE(repeats_of(animals(5, 4), {nine, nine}).empty());
  Levels more = nine;
  more.resize(20, 1);
  EXPECT_TRUE(repeats_of(animals(5, 4, 11), {more, more}).empty());
  auto with_two_copies = animals(5, 4);
  with_two_copies.insert(with_two_copies.end(), 11, {{0, 0, 1}});
  EXPECT_TRUE(repeats_of(with_two_copies, {more, more}).empty());
  Levels ten = nine;
  ten.push_back(1);
  EXPECT_EQ(repeats_of(animals(5, 5), {ten, ten}).size(), 1U);
  // Ten were read for one marker, nine for both.
  EXPECT_TRUE(repeats_of(animals(5, 5), {ten, nine}).empty());
}

// By chance alone the mean over books is 0 within 5 of its standard errors, 1 / sqrt(200 x 38), and
// one p in twenty is below 0.05: of 200 books 10, with a standard deviation of 3.
TEST(Repeats, IndependentMarkersCorrelateNothingOnAverage) {
  double mean = 0;
  std::size_t low = 0;
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    inference::RandomBits random(seed);
    std::vector<Levels> levels(2);
    for (Levels& one : levels) {
      for (int a = 0; a < 40; ++a) one.push_back((random() >> 33U) % 3);
    }
    const auto found = repeats_of(animals(20, 20), levels);
    mean += found.at(0).correlation / 200;
    low += found.at(0).p < 0.05 ? 1 : 0;
  }
  EXPECT_NEAR(mean, 0, 0.057);
  EXPECT_GE(low, 1U);
  EXPECT_LE(low, 19U);
}

TEST(Repeats, AreOfEveryPairInOrder) {
  const Levels levels = {0, 1, 2, 0, 1, 0, 1, 2, 0, 1};
  const auto found = repeats_of(animals(5, 5), {levels, levels, levels});
  ASSERT_EQ(found.size(), 3U);
  for (const auto& [i, first, second] : {std::tuple(0U, 0U, 1U), {1U, 0U, 2U}, {2U, 1U, 2U}}) {
    EXPECT_EQ(found[i].first, first);
    EXPECT_EQ(found[i].second, second);
    EXPECT_EQ(found[i].locus, 0U);
  }
}

// A marker that is read by two tables is one marker.
TEST(Repeats, TakeAMarkInAllItsContexts) {
  const auto book = animals(5, 5);
  const auto colony = hand_colony(book);
  MarkerBackground background{{}, hand_table(colony, book)};
  background.readings.push_back(hand_readings(0, {0, 1, 2, 0, 1}));
  background.readings.push_back({});
  background.readings.back().table = 1;
  for (std::size_t a = 5; a < 10; ++a)
    background.readings.back().by_animal.push_back(look(a, a % 3));
  background.readings.push_back(hand_readings(1, {0, 1, 2, 0, 1, 0, 1, 2, 0, 1}));
  std::vector<MarkerAudit> markers(3);
  markers[1].table = 1;
  markers[2].marker = 1;
  const auto found = repeats(colony, background, markers);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].animals, 10U);
}

}  // namespace
}  // namespace likelihet::audit::repeats_test
