// How many non-visual offspring it takes. Reference: the powers of 1/2 and 3/4 by hand, and the
// demo's own table (invented data) of offspring needed to fall below 5 %.
#include <cmath>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <likelihet/publishing/non_visual_offspring.hpp>

namespace likelihet::publishing::non_visual_offspring_test {
namespace {

TEST(NonVisualOffspring, AgreesWithTheDemosTable) {
  // 0.5: 1/(1 + 2^5) = 1/33 < 0.05 <= 1/17.
  EXPECT_EQ(non_visual_offspring_needed(0.5, by_a_visual, 0.05), 5U);
  EXPECT_EQ(non_visual_offspring_needed(0.5, by_a_het, 0.05), 11U);
  EXPECT_EQ(non_visual_offspring_needed(2.0 / 3, by_a_visual, 0.05), 6U);
  EXPECT_EQ(non_visual_offspring_needed(2.0 / 3, by_a_het, 0.05), 13U);
  EXPECT_EQ(non_visual_offspring_needed(0.95, by_a_visual, 0.05), 9U);
  EXPECT_EQ(non_visual_offspring_needed(0.95, by_a_het, 0.05), 21U);
}

TEST(NonVisualOffspring, NoneWhereItIsBelowAlready) {
  EXPECT_EQ(non_visual_offspring_needed(0.04, by_a_visual, 0.05), 0U);
}

TEST(NonVisualOffspring, AlmostCertainEndsAllTheSame) {
  // 2^-n < 0.05/0.95 x 1e-15, so n = ceil(log2(19e15)) = 55.
  EXPECT_EQ(non_visual_offspring_needed(1 - 1e-15, by_a_visual, 0.05),
            static_cast<std::size_t>(std::ceil(std::log2(19 * (1 - 1e-15) / (1 - (1 - 1e-15))))));
}

RC_GTEST_PROP(NonVisualOffspring, IsTheFewestByBayes, ()) {
  const double p = *rc::gen::inRange(1, 1000) / 1000.0;
  const double factor = *rc::gen::element(by_a_visual, by_a_het);
  const std::size_t offspring = non_visual_offspring_needed(p, factor, 0.05);
  const auto after = [&](std::size_t n) {
    const double weight = p * std::pow(factor, static_cast<double>(n));
    return weight / (weight + 1 - p);
  };
  RC_ASSERT(after(offspring) < 0.05 + 1e-12);
  RC_ASSERT(offspring == 0 || after(offspring - 1) >= 0.05 - 1e-12);
}

}  // namespace
}  // namespace likelihet::publishing::non_visual_offspring_test
