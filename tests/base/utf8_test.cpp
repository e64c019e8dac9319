// Well-formed UTF-8, against the syntax of RFC 3629 section 4.
#include <gtest/gtest.h>

#include <likelihet/base/utf8.hpp>

namespace likelihet::base::utf8_test {
namespace {

// Encodes as RFC 3629 section 3 says, without asking whether the number may be encoded.
std::string encoded(unsigned number) {
  const auto trailing = [&](unsigned shift) {
    return static_cast<char>(0x80U | ((number >> shift) & 0x3FU));
  };
  if (number < 0x80) return {static_cast<char>(number)};
  if (number < 0x800) return {static_cast<char>(0xC0U | (number >> 6U)), trailing(0)};
  if (number < 0x10000) {
    return {static_cast<char>(0xE0U | (number >> 12U)), trailing(6), trailing(0)};
  }
  return {static_cast<char>(0xF0U | (number >> 18U)), trailing(12), trailing(6), trailing(0)};
}

TEST(Utf8, AcceptsEveryScalarValueAndNothingElse) {
  for (unsigned number = 0; number < 0x120000; ++number) {
    const bool scalar = (number < 0xD800 || number > 0xDFFF) && number <= 0x10FFFF;
    ASSERT_EQ(!first_ill_formed(encoded(number)), scalar) << number;
  }
}

TEST(Utf8, FindsTheFirstIllFormedByte) {
  EXPECT_EQ(first_ill_formed("ab\xC3\xA4\x80"), 4U);
  EXPECT_EQ(first_ill_formed("ab\xC3"), 2U);            // cut short
  EXPECT_EQ(first_ill_formed("\xE2\x82"), 0U);          // cut short
  EXPECT_EQ(first_ill_formed("\xC0\x80"), 0U);          // overlong
  EXPECT_EQ(first_ill_formed("\xE0\x9F\xBF"), 0U);      // overlong
  EXPECT_EQ(first_ill_formed("\xF0\x8F\xBF\xBF"), 0U);  // overlong
  EXPECT_EQ(first_ill_formed("\xF5\x80\x80\x80"), 0U);
  EXPECT_EQ(first_ill_formed(""), std::nullopt);
}

TEST(Utf8, DropsOneByteOrderMark) {
  EXPECT_EQ(without_byte_order_mark("\xEF\xBB\xBF"
                                    "a"),
            "a");
  EXPECT_EQ(without_byte_order_mark("a"), "a");
  EXPECT_EQ(without_byte_order_mark("\xEF\xBB"), "\xEF\xBB");
}

TEST(Utf8, ExcerptsAreShortAndWellFormed) {
  EXPECT_EQ(excerpt("short"), "short");
  EXPECT_EQ(excerpt("abcdef", 3), "abc…");
  EXPECT_EQ(excerpt("äöü", 3), "äöü");
  EXPECT_EQ(excerpt("a\nb\x1B[0m\x7F"), "a?b?[0m?");
  EXPECT_EQ(excerpt("a\xFFz"), "a?z");
}

}  // namespace
}  // namespace likelihet::base::utf8_test
