// Thirty patients, each put in one of five classes by six psychiatrists.
//
// Source: J. L. Fleiss, "Measuring nominal scale agreement among many raters", Psychological
// Bulletin 76 (1971) 378-382. The data were read in the R package irr; the printed .430 is from
// memory; further digits, and kappa by class, were recomputed in R.
#include <array>

#include "published/worked_colony.hpp"
#include <gtest/gtest.h>

#include <likelihet/audit/agreement.hpp>

namespace likelihet::published::fleiss_psychiatrists_test {
namespace {

// Depression, personality disorder, schizophrenia, neurosis, other.
constexpr std::array<double, 150> counts = {
    0, 0, 0, 6, 0, 0, 3, 0, 0, 3, 0, 1, 4, 0, 1, 0, 0, 0, 0, 6, 0, 3, 0, 3, 0, 2, 0, 4, 0, 0,
    0, 0, 4, 0, 2, 2, 0, 3, 1, 0, 2, 0, 0, 4, 0, 0, 0, 0, 0, 6, 1, 0, 0, 5, 0, 1, 1, 0, 4, 0,
    0, 3, 3, 0, 0, 1, 0, 0, 5, 0, 0, 2, 0, 3, 1, 0, 0, 5, 0, 1, 3, 0, 0, 1, 2, 5, 1, 0, 0, 0,
    0, 2, 0, 4, 0, 1, 0, 2, 0, 3, 0, 0, 0, 0, 6, 0, 1, 0, 5, 0, 0, 2, 0, 1, 3, 2, 0, 0, 4, 0,
    1, 0, 0, 4, 1, 0, 5, 0, 1, 0, 4, 0, 0, 0, 2, 0, 2, 0, 4, 0, 1, 0, 5, 0, 0, 0, 0, 0, 0, 6};

TEST(Fleiss, Overall) {
  const auto kappa = audit::fleiss_kappa(counts, 5);
  ASSERT_TRUE(kappa.value);
  EXPECT_NEAR(*kappa.value, .430, half_unit(3));
  EXPECT_NEAR(*kappa.value, 0.43024452006, 1e-10);
  EXPECT_NEAR(kappa.observed, 0.55555555556, 1e-10);
  EXPECT_NEAR(kappa.expected, 0.2199382716, 1e-10);
}

TEST(Fleiss, ByClass) {
  const std::array recomputed = {0.24475524476, 0.24475524476, 0.52, 0.47112727273, 0.56611780682};
  const auto kappas = audit::fleiss_kappa_by_category(counts, 5);
  ASSERT_EQ(kappas.size(), 5U);
  for (std::size_t k = 0; k < 5; ++k) {
    EXPECT_NEAR(kappas[k].value.value_or(0), recomputed[k], 1e-10) << k;
  }
}

}  // namespace
}  // namespace likelihet::published::fleiss_psychiatrists_test
