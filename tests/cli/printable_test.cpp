// Text from records cannot harm a terminal.
#include "printable.hpp"

#include <algorithm>
#include <string>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace likelihet::cli::printable_test {
namespace {

TEST(Printable, LeavesPlainTextAlone) {
  EXPECT_EQ(printable("größe-東 O'Brien \"x\""), "größe-東 O'Brien \"x\"");
}

TEST(Printable, EscapesWhatMovesTheCursor) {
  EXPECT_EQ(printable("a\nb\tc\rd"), "a\\nb\\tc\\rd");
  EXPECT_EQ(printable("\x1b[31m"), "\\x1b[31m");
  EXPECT_EQ(printable("\x7f"), "\\x7f");
  EXPECT_EQ(printable("\xc2\x9b"), "\\x9b");
  EXPECT_EQ(printable("\xe2\x80\xae"), "\\u202e");
}

TEST(Printable, ShowsWhatDoesNotShow) {
  EXPECT_EQ(printable("H1\u200B"), "H1\\u200b");
  EXPECT_EQ(printable("\uFEFFH\u00AD1\u061C"), "\\ufeffH\\xad1\\u061c");
  EXPECT_EQ(printable("H1\uFE0F\U000E0041"), "H1\\ufe0f\\ue0041");
  EXPECT_EQ(printable("  set in "), "  set in ");
}

TEST(PrintableId, ShowsBlanksAtTheEndsToo) {
  EXPECT_EQ(printable_id("H1"), "H1");
  EXPECT_EQ(printable_id("a b"), "a b");
  EXPECT_EQ(printable_id("H1 "), "H1\\x20");
  EXPECT_EQ(printable_id("  H1\u00A0 "), "\\x20\\x20H1\\xa0\\x20");
  EXPECT_EQ(printable_id(" "), "\\x20");
  EXPECT_EQ(printable_id(""), "");
}

TEST(ForPrograms, EscapesInsideTextsAndKeepsTheDocument) {
  EXPECT_EQ(for_programs("{\"a\":\"\x7F\u009B\u202E\u00E9\"}\n"),
            "{\"a\":\"\\u007f\\u009b\\u202e\u00E9\"}\n");
}

TEST(Printable, EscapesBytesThatAreNoText) {
  EXPECT_EQ(printable("\xff"), "\\xff");
  EXPECT_EQ(printable("\xc0\xaf"), "\\xc0\\xaf");           // overlong "/"
  EXPECT_EQ(printable("\xed\xa0\x80"), "\\xed\\xa0\\x80");  // a surrogate
  EXPECT_EQ(printable("\xe6\x9d"), "\\xe6\\x9d");           // cut short
}

TEST(Printable, CutsLongTextInTheMiddle) {
  const std::string cut = printable(std::string(10'000, 'x'), 20);
  EXPECT_EQ(cut, "xxxxxxxxxx…(9980 characters left out)…xxxxxxxxxx");
}

// RFC 3629, section 4 names these ranges; its examples are in section 7.
TEST(Utf8, IsToldFromOtherBytes) {
  EXPECT_TRUE(is_utf8("\x41\xE2\x89\xA2\xCE\x91\x2E"));
  EXPECT_TRUE(is_utf8("\xEF\xBB\xBF\xF0\xA3\x8E\xB4"));
  EXPECT_FALSE(is_utf8("\xC0\x80"));
  EXPECT_FALSE(is_utf8("\xED\xA1\x8C\xED\xBE\xB4"));
  EXPECT_FALSE(is_utf8("\xF4\x90\x80\x80"));
  EXPECT_FALSE(is_utf8("\x80"));
}

RC_GTEST_PROP(Printable, IsAlwaysOneLineOfText, (const std::string& bytes)) {
  const std::string shown = printable(bytes);
  RC_ASSERT(is_utf8(shown));
  RC_ASSERT((std::none_of(shown.begin(), shown.end(), [](char c) {
    const auto byte = static_cast<unsigned char>(c);
    return byte < 0x20 || byte == 0x7F;
  })));
}

TEST(Columns, CountsCharactersNotBytes) {
  EXPECT_EQ(columns("größe"), 5U);
  EXPECT_EQ(columns("e\xcc\x81"), 1U);
  EXPECT_EQ(columns("東"), 2U);
}

TEST(Wrapped, BreaksAtSpaces) {
  EXPECT_EQ(wrapped("one two three", 8, 2), "one two\n  three");
  EXPECT_EQ(wrapped("unbreakable", 4, 2), "unbreakable");
  EXPECT_EQ(wrapped("", 4, 2), "");
}

}  // namespace
}  // namespace likelihet::cli::printable_test
