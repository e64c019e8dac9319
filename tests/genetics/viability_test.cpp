// Viability in transmission and in founders: relative, renormalised, lethal, and hardly above zero.
#include <cmath>
#include <vector>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>
#include <support/random_locus.hpp>

#include <likelihet/genetics/founder.hpp>
#include <likelihet/genetics/transmission.hpp>

namespace likelihet::genetics::viability_test {
namespace {

using namespace likelihet::genetics;
using likelihet::support::plain_locus;
using likelihet::support::random_frequencies;
using likelihet::support::random_locus;

std::vector<double> viability_of(const Locus& locus, double factor = 1) {
  std::vector<double> viability;
  for (std::size_t g = 0; g < locus.size(); ++g) viability.push_back(factor * locus.viability(g));
  return viability;
}

// Relative: ten times every viability leaves the living as they were.
RC_GTEST_PROP(ViabilityProperty, IsRelative, ()) {
  const Locus locus = random_locus();
  const Locus tenfold =
      plain_locus(locus.alleles().size(), locus.chromosome(), viability_of(locus, 10));
  const Transmission one(locus, Survival::renormalised);
  const Transmission other(tenfold, Survival::renormalised);
  for (std::size_t i = 0; i < one.table().size(); ++i) {
    RC_ASSERT(std::abs(one.table()[i] - other.table()[i]) < 1e-14);
  }
  const auto frequencies = random_frequencies(locus.alleles().size());
  const auto prior = founder_prior(locus, frequencies);
  const auto same = founder_prior(tenfold, frequencies);
  for (std::size_t g = 0; g < prior.size(); ++g) RC_ASSERT(std::abs(prior[g] - same[g]) < 1e-14);
}

// Renormalised is weighted over what lives of the pair's offspring: the same ratios, child by
// child.
RC_GTEST_PROP(ViabilityProperty, KeepsTheRatiosOfThoseWhoLive, ()) {
  const Locus locus = random_locus();
  const Transmission weighted(locus, Survival::weighted);
  const Transmission living(locus, Survival::renormalised);
  for (std::size_t dam = 0; dam < locus.size(); ++dam) {
    for (std::size_t sire = 0; sire < locus.size(); ++sire) {
      double alive = 0;
      for (std::size_t c = 0; c < locus.size(); ++c) alive += weighted(dam, sire, c);
      for (std::size_t c = 0; c < locus.size(); ++c) {
        RC_ASSERT(std::abs(living(dam, sire, c) * alive - weighted(dam, sire, c)) < 1e-14);
        RC_ASSERT((living(dam, sire, c) > 0) == (weighted(dam, sire, c) > 0));
      }
    }
  }
}

RC_GTEST_PROP(ViabilityProperty, OfAllAlikeChangesNothing, ()) {
  const auto alleles = *rc::gen::inRange<std::size_t>(2, 5);
  const auto chromosome = *rc::gen::element(Chromosome::autosome, Chromosome::x, Chromosome::z);
  const Locus plain = plain_locus(alleles, chromosome);
  const Locus weak = plain_locus(alleles, chromosome, std::vector<double>(plain.size(), 0.25));
  RC_ASSERT(!plain.viability_matters());
  RC_ASSERT(weak.viability_matters());
  const Transmission one(plain, Survival::ignored);
  const Transmission other(weak, Survival::renormalised);
  for (std::size_t i = 0; i < one.table().size(); ++i) {
    RC_ASSERT(std::abs(one.table()[i] - other.table()[i]) < 1e-15);
  }
}

// Haldane (1927), from memory: selection against a recessive with survival 1 - s takes q to
// q (1 - s q)/(1 - s q^2); here the founders' prior with s = 1/2, q = 0.4: 0.4 x 0.8/0.92.
TEST(Viability, TakesTheAlleleFrequencyDownAmongFounders) {
  const auto prior = founder_prior(plain_locus(2, Chromosome::autosome, {1, 1, 0.5}), {0.6, 0.4});
  EXPECT_NEAR(prior[2] + prior[1] / 2, 0.4 * 0.8 / 0.92, 1e-15);
}

// Where hets do better than both, 1 : 2v : 1 of two hets: v = 3 makes 1 : 6 : 1.
TEST(Viability, MayFavourCarriers) {
  const Transmission living(plain_locus(2, Chromosome::autosome, {1, 3, 1}),
                            Survival::renormalised);
  EXPECT_NEAR(living(1, 1, 0), 1.0 / 8, 1e-15);
  EXPECT_NEAR(living(1, 1, 1), 6.0 / 8, 1e-15);
}

// A survival of 1e-300 is no lethal: the only offspring a pair can have is certain all the same.
TEST(Viability, HoldsTheSmallest) {
  const Transmission living(plain_locus(2, Chromosome::autosome, {1, 1, 1e-300}),
                            Survival::renormalised);
  EXPECT_EQ(living(2, 2, 2), 1.0);
  EXPECT_NEAR(living(1, 1, 2) / 1e-300, 1.0 / 3, 1e-12);
}

// A lethal of one sex alone: on X, sons with the allele die; daughters are two of three offspring.
TEST(Viability, OfOneSexShiftsTheSexes) {
  const Locus x = plain_locus(2, Chromosome::x, {1, 1, 1, 1, 0});
  const Transmission living(x, Survival::renormalised);
  const std::size_t carrier = *x.find("a0/a1");
  const std::size_t clear = *x.find("a0/Y");
  EXPECT_NEAR(living(carrier, clear, *x.find("a0/Y")), 1.0 / 3, 1e-15);
  EXPECT_EQ(living(carrier, clear, *x.find("a1/Y")), 0.0);
  // A dam of two copies has no living sons: all offspring are daughters.
  const std::size_t visual = *x.find("a1/a1");
  EXPECT_EQ(living(visual, clear, carrier), 1.0);
}

}  // namespace
}  // namespace likelihet::genetics::viability_test
