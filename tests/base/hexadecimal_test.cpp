// Digits of base sixteen.
#include <array>

#include <gtest/gtest.h>

#include <likelihet/base/hexadecimal.hpp>

namespace likelihet::base::hexadecimal_test {
namespace {

// RFC 4648 section 10, test vectors of base 16: "foobar" is 666F6F626172.
TEST(Hexadecimal, BytesAreTwoDigitsEach) {
  constexpr std::array<unsigned char, 6> foobar{'f', 'o', 'o', 'b', 'a', 'r'};
  EXPECT_EQ(hexadecimal(foobar), "666f6f626172");
  EXPECT_EQ(hexadecimal(std::span<const unsigned char>{}), "");
  constexpr std::array<unsigned char, 2> ends{0x00, 0xFF};
  EXPECT_EQ(hexadecimal(ends), "00ff");
}

TEST(Hexadecimal, NumbersHaveTheDigitsAskedForOrMore) {
  EXPECT_EQ(hexadecimal(0x200B, 4), "200B");
  EXPECT_EQ(hexadecimal(0x1F, 4), "001F");
  EXPECT_EQ(hexadecimal(0, 2), "00");
  EXPECT_EQ(hexadecimal(0x10FFFF, 4), "10FFFF");
  EXPECT_EQ(hexadecimal(UINT64_MAX, 1), "FFFFFFFFFFFFFFFF");
}

}  // namespace
}  // namespace likelihet::base::hexadecimal_test
