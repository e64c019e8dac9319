// Adjusted p-values against the step-up rule.
#include <algorithm>
#include <cmath>
#include <stdexcept>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <likelihet/audit/multiplicity.hpp>

namespace likelihet::audit::multiplicity_test {
namespace {

// Benjamini and Hochberg (1995), (1): reject all p up to the largest p(i) <= i q / m.
std::vector<bool> rejected(const std::vector<double>& p, double q) {
  std::vector<double> sorted = p;
  std::sort(sorted.begin(), sorted.end());
  double most = -1;
  for (std::size_t i = 0; i < sorted.size(); ++i) {
    const double bound = static_cast<double>(i + 1) * q / static_cast<double>(p.size());
    if (sorted[i] <= bound) most = sorted[i];
  }
  std::vector<bool> out;
  for (double one : p) out.push_back(one <= most);
  return out;
}

RC_GTEST_PROP(Multiplicity, AdjustedValuesDecideAsTheRuleDoes, ()) {
  const auto p = *rc::gen::container<std::vector<double>>(
      rc::gen::map(rc::gen::inRange(0, 101), [](int hundredths) { return hundredths / 100.0; }));
  // Off every i q / m that a hundredth could meet.
  const double q = *rc::gen::inRange(1, 100) / 100.0 + 1e-5;
  const auto adjusted = benjamini_hochberg(p);
  const auto expected = rejected(p, q);
  RC_ASSERT(adjusted.size() == p.size());
  for (std::size_t i = 0; i < p.size(); ++i) {
    RC_ASSERT((p[i] <= adjusted[i] + 1e-15 && adjusted[i] <= 1));
    RC_ASSERT((adjusted[i] <= q) == expected[i]);
  }
}

TEST(Multiplicity, ByHand) {
  const auto adjusted = benjamini_hochberg(std::vector{.03, .005, .5, .02});
  EXPECT_NEAR(adjusted[0], .04, 1e-15);  // .03 4 / 3
  EXPECT_NEAR(adjusted[1], .02, 1e-15);  // .005 4 / 1
  EXPECT_NEAR(adjusted[2], .5, 1e-15);
  EXPECT_NEAR(adjusted[3], .04, 1e-15);  // .02 4 / 2
  EXPECT_TRUE(benjamini_hochberg({}).empty());
}

TEST(Multiplicity, RefusesWhatIsNoP) {
  EXPECT_THROW(benjamini_hochberg(std::vector{1.5}), std::invalid_argument);
  EXPECT_THROW(benjamini_hochberg(std::vector{std::nan("")}), std::invalid_argument);
}

}  // namespace
}  // namespace likelihet::audit::multiplicity_test
