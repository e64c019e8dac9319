// Children of pairs, listed.
#include <algorithm>
#include <cmath>

#include "support/random_locus.hpp"
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <likelihet/genetics/mendel.hpp>
#include <likelihet/genetics/transmission.hpp>

namespace likelihet::genetics::mendel_test {
namespace {

// Mendel's 1 : 2 : 1 of a monohybrid cross (1866, Versuche ueber Pflanzen-Hybriden).
TEST(Mendel, HetByHet) {
  const auto locus = support::plain_locus(2, Chromosome::autosome, {1, 1, 1});
  const Mendel mendel(locus);
  const auto children = mendel.children(1, 1);
  ASSERT_EQ(children.size(), 3U);
  EXPECT_EQ(children[0].probability, 0.25);
  EXPECT_EQ(children[1].genotype, 1U);
  EXPECT_EQ(children[1].probability, 0.5);
  EXPECT_EQ(mendel(1, 1, 2), 0.25);
  EXPECT_EQ(mendel(0, 0, 1), 0);
}

// Where both homozygotes of the recessive allele die, a pair of them leaves nobody.
TEST(Mendel, NoLivingChild) {
  const auto locus = support::plain_locus(2, Chromosome::autosome, {1, 1, 0});
  const Mendel mendel(locus);
  EXPECT_TRUE(living_children(locus, mendel, 2, 2).empty());
  const auto living = living_children(locus, mendel, 1, 1);
  ASSERT_EQ(living.size(), 3U);
  EXPECT_NEAR(living[0].probability, 1.0 / 3, 1e-16);
  EXPECT_EQ(living[2].probability, 0);
}

// 30 alleles, 465 genotypes: a whole table would take 800 MB.
TEST(Mendel, ManyAllelesTakeLittle) {
  const auto locus = support::plain_locus(30, Chromosome::autosome);
  const Mendel mendel(locus);
  for (std::size_t g = 0; g < locus.size(); ++g) {
    double sum = 0;
    for (const Child& child : mendel.children(g, locus.size() - 1 - g)) sum += child.probability;
    EXPECT_EQ(sum, 1.0);
  }
}

RC_GTEST_PROP(MendelProperty, ListsWhatTheTableHolds, ()) {
  const auto locus = support::random_locus();
  const Mendel mendel(locus);
  const Transmission plain(locus, Survival::ignored);
  const Transmission alive(locus, Survival::renormalised);
  for (std::size_t d = 0; d < locus.size(); ++d) {
    for (std::size_t s = 0; s < locus.size(); ++s) {
      const auto children = mendel.children(d, s);
      RC_ASSERT(children.size() <= 4U);
      RC_ASSERT(std::is_sorted(children.begin(), children.end(), [](const auto& a, const auto& b) {
        return a.genotype < b.genotype;
      }));
      for (std::size_t g = 0; g < locus.size(); ++g) RC_ASSERT(mendel(d, s, g) == plain(d, s, g));
      double sum = 0;
      for (const Child& child : living_children(locus, mendel, d, s)) {
        RC_ASSERT(child.probability == alive(d, s, child.genotype));
        sum += child.probability;
      }
      RC_ASSERT(sum == 0 || std::abs(sum - 1) < 1e-12);
    }
  }
}

}  // namespace
}  // namespace likelihet::genetics::mendel_test
