// The generator's sequence.
#include <random>

#include <gtest/gtest.h>

#include <likelihet/inference/random_bits.hpp>

namespace likelihet::test::random_bits_test {
namespace {

using inference::RandomBits;

// The 10,000th number of a default-seeded mt19937_64: ISO/IEC 14882:2020, [rand.predef].
TEST(RandomBits, ReachesTheStandardsTenThousandthNumber) {
  RandomBits random(5489);
  for (int i = 1; i < 10'000; ++i) random();
  EXPECT_EQ(random(), 9981545732273789042U);
}

TEST(RandomBits, FollowsTheStandardLibraryFromAnySeed) {
  for (std::uint64_t seed : {std::uint64_t{0}, std::uint64_t{1}, ~std::uint64_t{0}}) {
    RandomBits ours(seed);
    std::mt19937_64 theirs(seed);
    for (int i = 0; i < 1'000; ++i) ASSERT_EQ(ours(), theirs()) << seed;
  }
}

TEST(RandomBits, FollowsTheStandardLibraryFromSeveralWords) {
  std::seed_seq words{1U, 0U, 4'000'000'000U, 2U, 7U};
  RandomBits ours(words);
  std::mt19937_64 theirs(words);
  for (int i = 0; i < 1'000; ++i) ASSERT_EQ(ours(), theirs());
}

TEST(RandomBits, ServesDistributionsAlike) {
  RandomBits ours(11);
  std::mt19937_64 theirs(11);
  std::gamma_distribution<double> one(2.5);
  std::gamma_distribution<double> two(2.5);
  for (int i = 0; i < 1'000; ++i) ASSERT_EQ(one(ours), two(theirs));
}

}  // namespace
}  // namespace likelihet::test::random_bits_test
