// Who is a visual, by what its genotypes show.
#include <gtest/gtest.h>

#include <likelihet/genetics/locus.hpp>

namespace likelihet::genetics::looks_test {
namespace {

using Shows = std::vector<double>;

constexpr std::size_t plain = 0;
constexpr std::size_t tinted = 1;
constexpr std::size_t full = 2;

// Genotypes +/+, +/e, e/e.
Locus locus_of(Shows none, Shows one, Shows two) {
  return Locus({"tarnbrook",
                Chromosome::autosome,
                {"+", "e"},
                {"plain", "tinted", "tarnbrook"},
                {std::move(none), std::move(one), std::move(two)},
                {1, 1, 1},
                ""});
}

TEST(Looks, OfARecessive) {
  const Locus locus = locus_of({1, 0, 0}, {1, 0, 0}, {0, 0, 1});
  const Looks looks = looks_of(locus, 1);
  EXPECT_FALSE(looks.seen_in_one_copy);
  EXPECT_EQ(looks.visual, (std::vector<bool>{false, false, true}));
  EXPECT_FALSE(looks_visual(locus, 0));
  EXPECT_FALSE(looks_visual(locus, 1));
  EXPECT_TRUE(looks_visual(locus, 2));
}

TEST(Looks, AHetThatShowsNowAndThenIsNoVisual) {
  const Locus locus = locus_of({1, 0, 0}, {0.7, 0.3, 0}, {0, 0, 1});
  const Looks looks = looks_of(locus, 1);
  EXPECT_FALSE(looks.seen_in_one_copy);
  EXPECT_FALSE(looks.visual[tinted]);
  EXPECT_TRUE(looks.visual[full]);
  EXPECT_FALSE(looks_visual(locus, 1));
}

TEST(Looks, ADominantIsSeenInOneCopy) {
  const Looks looks = looks_of(locus_of({1, 0, 0}, {0, 0, 1}, {0, 0, 1}), 1);
  EXPECT_TRUE(looks.seen_in_one_copy);
  EXPECT_EQ(looks.visual, (std::vector<bool>{false, false, true}));
}

TEST(Looks, BothFormsOfATraitThatOneCopyShowsAreVisual) {
  const Locus locus = locus_of({1, 0, 0}, {0, 1, 0}, {0, 0, 1});
  const Looks looks = looks_of(locus, 1);
  EXPECT_TRUE(looks.seen_in_one_copy);
  EXPECT_EQ(looks.visual, (std::vector<bool>{false, true, true}));
  EXPECT_TRUE(looks_visual(locus, 1));
}

TEST(Looks, OneCopyIsToBeSeenFromHalfOfSuchAnimalsOn) {
  EXPECT_TRUE(looks_of(locus_of({1, 0, 0}, {0.5, 0, 0.5}, {0, 0, 1}), 1).seen_in_one_copy);
  EXPECT_FALSE(looks_of(locus_of({1, 0, 0}, {0.6, 0, 0.4}, {0, 0, 1}), 1).seen_in_one_copy);
}

TEST(Looks, ThatOverlapAreToldByWhatTwoCopiesShowMost) {
  const Looks looks = looks_of(locus_of({0.99, 0, 0.01}, {0.99, 0, 0.01}, {0.1, 0, 0.9}), 1);
  EXPECT_EQ(looks.visual, (std::vector<bool>{false, false, true}));
}

TEST(Looks, ThatAreTheSameTellNone) {
  const Looks looks = looks_of(locus_of({1, 0, 0}, {1, 0, 0}, {1, 0, 0}), 1);
  EXPECT_EQ(looks.visual, (std::vector<bool>{false, false, false}));
  EXPECT_THROW((void)looks_of(locus_of({1, 0, 0}, {1, 0, 0}, {1, 0, 0}), 2), std::out_of_range);
}

// +/+, +/e, +/f, e/e, e/f, f/f.
Locus series(const std::vector<Shows>& shows) {
  return Locus({"tarnbrook",
                Chromosome::autosome,
                {"+", "e", "f"},
                {"plain", "tinted", "tarnbrook"},
                shows,
                std::vector<double>(6, 1.0),
                ""});
}

TEST(Looks, OfTwoUnlikeAllelesAreVisual) {
  const Locus locus = series({{1, 0, 0}, {1, 0, 0}, {1, 0, 0}, {0, 0, 1}, {0, 1, 0}, {0, 0, 1}});
  EXPECT_TRUE(looks_of(locus, 1).visual[tinted]);
  EXPECT_TRUE(looks_of(locus, 2).visual[tinted]);
  EXPECT_TRUE(looks_visual(locus, 4));
}

TEST(Looks, OwedToAnotherAlleleAreNot) {
  // One copy of f shows tinted, beside whatever else.
  const Locus locus = series({{1, 0, 0}, {1, 0, 0}, {0, 1, 0}, {0, 0, 1}, {0, 1, 0}, {0, 1, 0}});
  EXPECT_FALSE(looks_of(locus, 1).visual[tinted]);
  EXPECT_TRUE(looks_of(locus, 2).visual[tinted]);
  EXPECT_FALSE(looks_of(locus, 1).visual[plain]);
}

TEST(Looks, OfTheOnlyChromosomeAreThoseOfTwoCopies) {
  // +/+, +/e, e/e, +/W, e/W.
  const Locus locus({"tarnbrook",
                     Chromosome::z,
                     {"+", "e"},
                     {"plain", "tarnbrook"},
                     {{1, 0}, {1, 0}, {0, 1}, {1, 0}, {0, 1}},
                     {1, 1, 1, 1, 1},
                     ""});
  EXPECT_TRUE(looks_visual(locus, 4));
  EXPECT_FALSE(looks_visual(locus, 3));
}

}  // namespace
}  // namespace likelihet::genetics::looks_test
