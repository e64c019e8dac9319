// Nearest words: the distance's definition, ties, limits, and the sentence.
#include <algorithm>
#include <cctype>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <likelihet/colony/nearest.hpp>
#include <likelihet/colony/place.hpp>
#include <likelihet/colony/wording.hpp>

namespace likelihet::colony::nearest_test {
namespace {

using namespace likelihet::colony;
using testing::Optional;
using testing::StrEq;

using Words = std::vector<std::string>;

// Damerau (1964): one insertion, deletion, substitution or swap of neighbours covers most mistakes.
TEST(Nearest, MendsOneSlipOfEachKind) {
  const Words known = {"crown-fleck", "side-thread"};
  EXPECT_THAT(nearest("crown-flec", known), Optional(StrEq("crown-fleck")));
  EXPECT_THAT(nearest("crown--fleck", known), Optional(StrEq("crown-fleck")));
  EXPECT_THAT(nearest("crown_fleck", known), Optional(StrEq("crown-fleck")));
  EXPECT_THAT(nearest("corwn-fleck", known), Optional(StrEq("crown-fleck")));
  EXPECT_THAT(nearest("CROWN-FLECK", known), Optional(StrEq("crown-fleck")));
}

// A swap is one change, not two: of words of three letters only one change is near enough.
TEST(Nearest, CountsASwapAsOne) {
  EXPECT_THAT(nearest("aba", {"baa"}), Optional(StrEq("baa")));
}

TEST(Nearest, IsNothingBeyondAThirdOfTheLongerWord) {
  EXPECT_EQ(nearest("abcdef", {"abczzz"}), std::nullopt);
  EXPECT_THAT(nearest("abcdef", {"abcdzz"}), Optional(StrEq("abcdzz")));
  // A third of seven, rounded up, is three.
  EXPECT_THAT(nearest("abcdefg", {"abcdzzz"}), Optional(StrEq("abcdzzz")));
  EXPECT_EQ(nearest("F01", {}), std::nullopt);
}

TEST(Nearest, TakesTheAlphabeticallyFirstOfEquals) {
  EXPECT_THAT(nearest("M0", {"M03", "M01", "M02"}), Optional(StrEq("M01")));
}

TEST(Nearest, DoesNotCompareWordsOver200Bytes) {
  const std::string longest(200, 'x');
  EXPECT_THAT(nearest(longest, {longest}), Optional(longest));
  EXPECT_EQ(nearest(longest + "x", {longest}), std::nullopt);
  EXPECT_EQ(nearest(longest, {longest + "x"}), std::nullopt);
}

TEST(Nearest, WordsTheSuggestion) {
  EXPECT_EQ(suggestion("F1", {"F01", "M02"}), "did you mean 'F01'?");
  EXPECT_EQ(suggestion("zebra", {"F01", "M02"}), "known are 'F01', 'M02'");
  EXPECT_EQ(suggestion("zebra", {}), "none is known");
  Words many;
  for (int i = 0; i < 20; ++i) many.push_back("F" + std::to_string(100 + i));
  EXPECT_THAT(suggestion("zebra-finch", many),
              testing::AllOf(testing::StartsWith("known are 'F100', 'F101'"),
                             testing::EndsWith(", … (12 more)")));
}

// The textbook table, whole and by definition, to hold the early exits against.
std::size_t alignment(const std::string& a, const std::string& b) {
  std::vector<std::vector<std::size_t>> d(a.size() + 1, std::vector<std::size_t>(b.size() + 1));
  for (std::size_t i = 0; i <= a.size(); ++i) {
    for (std::size_t j = 0; j <= b.size(); ++j) {
      if (i == 0 || j == 0) {
        d[i][j] = i + j;
        continue;
      }
      d[i][j] = std::min(
          {d[i - 1][j] + 1, d[i][j - 1] + 1, d[i - 1][j - 1] + (a[i - 1] == b[j - 1] ? 0U : 1U)});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
        d[i][j] = std::min(d[i][j], d[i - 2][j - 2] + 1);
      }
    }
  }
  return d[a.size()][b.size()];
}

rc::Gen<std::string> short_word() {
  return rc::gen::container<std::string>(rc::gen::element('a', 'b', 'c'));
}

RC_GTEST_PROP(NearestProperty, IsTheBestByTheDefinition, ()) {
  const auto word = *short_word();
  const auto known = *rc::gen::container<Words>(short_word());
  std::optional<std::string> expected;
  std::size_t best = 0;
  for (const std::string& candidate : known) {
    const std::size_t distance = alignment(word, candidate);
    if (distance > (std::max(word.size(), candidate.size()) + 2) / 3) continue;
    if (!expected || distance < best || (distance == best && candidate < *expected)) {
      expected = candidate;
      best = distance;
    }
  }
  RC_ASSERT(nearest(word, known) == expected);
}

TEST(Wording, QuotesControlCharactersAndCutsLongText) {
  EXPECT_EQ(in_quotes("it's"), "'it's'");
  EXPECT_EQ(in_quotes("a\nb\x7F"), "'a\\x0Ab\\x7F'");
  EXPECT_EQ(in_quotes(std::string(201, 'x')), "'" + std::string(200, 'x') + "…'");
  // A character of two bytes across the limit is left out whole.
  EXPECT_EQ(in_quotes(std::string(199, 'x') + "ééé"), "'" + std::string(199, 'x') + "…'");
}

TEST(Wording, PrintsTheShortestNumberThatReadsBack) {
  EXPECT_EQ(number(0.1), "0.1");
  EXPECT_EQ(number(1.0 / 3), "0.3333333333333333");
  EXPECT_EQ(number(-1e-300), "-1e-300");
}

// RFC 6901 section 5: the pointers to the members "a/b" and "m~n" of its example.
TEST(Place, EscapesPointersAsTheStandardDoes) {
  EXPECT_EQ((Pointer() / "a/b").text(), "/a~1b");
  EXPECT_EQ((Pointer() / "m~n").text(), "/m~0n");
  EXPECT_EQ((Pointer() / "").text(), "/");
  EXPECT_EQ((Pointer() / "foo" / 0).text(), "/foo/0");
  EXPECT_EQ((Pointer() / "~1").text(), "/~01");
}

TEST(Place, NamesFieldsByTheSourceOfTheRecord) {
  EXPECT_EQ(field_of("/animals/3", {"origin"}), "/animals/3/origin");
  EXPECT_EQ(field_of("/animals/3", {"bought_as", "0", "odds", "+/e"}),
            "/animals/3/bought_as/0/odds/+~1e");
  EXPECT_EQ(field_of("rack.csv row 7", {"origin"}), "rack.csv row 7 column origin");
  EXPECT_EQ(field_of("/home/rack.csv row 7", {"sires", "1", "id"}),
            "/home/rack.csv row 7 column sires");
  EXPECT_EQ(field_of("book: animal F01", {"origin"}), "book: animal F01, origin");
  EXPECT_EQ(field_of("book: clutch row 3", {"sires", "1", "id"}), "book: clutch row 3, sires 1 id");
  EXPECT_EQ(field_of("", {"origin"}), "origin");
}

}  // namespace
}  // namespace likelihet::colony::nearest_test
