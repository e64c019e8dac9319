// Numbers that read back as the same number.
#include <cstdlib>
#include <cstring>
#include <limits>

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <likelihet/base/shortest.hpp>

namespace likelihet::base::shortest_test {
namespace {

// The classic pair of IEEE 754: 0.1 + 0.2 needs all 17 digits, 0.3 one.
TEST(Shortest, HasNoMoreDigitsThanItNeeds) {
  EXPECT_EQ(shortest(0.3), "0.3");
  EXPECT_EQ(shortest(0.1 + 0.2), "0.30000000000000004");
  EXPECT_EQ(shortest(5e-324), "5e-324");
  EXPECT_EQ(shortest(std::numeric_limits<double>::infinity()), "inf");
  EXPECT_EQ(shortest(-0.0), "-0");
}

TEST(Shortest, ReadsBackAsTheSameDouble) {
  EXPECT_TRUE(rc::check("any bits of a finite double", [](std::uint64_t bits) {
    double number = 0;
    std::memcpy(&number, &bits, sizeof number);
    RC_PRE(number - number == 0);
    const std::string text = shortest(number);
    RC_ASSERT(text.size() <= 24U);
    RC_ASSERT(std::strtod(text.c_str(), nullptr) == number);
  }));
}

}  // namespace
}  // namespace likelihet::base::shortest_test
