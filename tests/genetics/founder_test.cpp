// Founders' priors against Hardy-Weinberg proportions.
#include <cmath>
#include <vector>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>
#include <support/random_locus.hpp>

#include <likelihet/genetics/founder.hpp>
#include <likelihet/genetics/transmission.hpp>

namespace likelihet::genetics::founder_test {
namespace {

using namespace likelihet::genetics;
using likelihet::support::plain_locus;
using likelihet::support::random_frequencies;
using likelihet::support::random_locus;

// Hardy (1908, Science 28:49): p^2 : 2pq : q^2; here q = 0.2.
TEST(Founder, IsInHardyWeinbergProportions) {
  const auto prior = founder_prior(plain_locus(2, Chromosome::autosome), {0.8, 0.2});
  ASSERT_EQ(prior.size(), 3U);
  EXPECT_NEAR(prior[0], 0.64, 1e-15);
  EXPECT_NEAR(prior[1], 0.32, 1e-15);
  EXPECT_NEAR(prior[2], 0.04, 1e-15);
}

// With three alleles a heterozygote has 2 p_i p_j (Weinberg 1909; from memory).
TEST(Founder, ExtendsToAnAllelicSeries) {
  const Locus locus = plain_locus(3, Chromosome::autosome);
  const auto prior = founder_prior(locus, {0.5, 0.3, 0.2});
  EXPECT_NEAR(prior[*locus.find("a0/a1")], 0.30, 1e-15);
  EXPECT_NEAR(prior[*locus.find("a0/a2")], 0.20, 1e-15);
  EXPECT_NEAR(prior[*locus.find("a1/a2")], 0.12, 1e-15);
  EXPECT_NEAR(prior[*locus.find("a2/a2")], 0.04, 1e-15);
}

// On a sex chromosome the one-copy sex shows the allele frequencies themselves; a sex has 1/2.
TEST(Founder, GivesEachSexHalfOnASexChromosome) {
  const auto prior = founder_prior(plain_locus(2, Chromosome::z), {0.9, 0.1});
  EXPECT_NEAR(prior[0], 0.5 * 0.81, 1e-15);
  EXPECT_NEAR(prior[1], 0.5 * 0.18, 1e-15);
  EXPECT_NEAR(prior[2], 0.5 * 0.01, 1e-15);
  EXPECT_NEAR(prior[3], 0.5 * 0.9, 1e-15);
  EXPECT_NEAR(prior[4], 0.5 * 0.1, 1e-15);
}

// Viability is renormalised within each sex: a lethal that leaves out a quarter of the males
// leaves the sexes even.
TEST(Founder, RenormalisesViabilityWithinEachSex) {
  const auto prior = founder_prior(plain_locus(2, Chromosome::z, {1, 1, 0, 1, 1}), {0.5, 0.5});
  EXPECT_NEAR(prior[0], 0.5 / 3, 1e-15);
  EXPECT_NEAR(prior[1], 0.5 * 2 / 3, 1e-15);
  EXPECT_EQ(prior[2], 0.0);
  EXPECT_NEAR(prior[3] + prior[4], 0.5, 1e-15);
}

TEST(Founder, IsAllOfTheFirstAlleleWhereNoOtherIsKnown) {
  EXPECT_EQ(founder_prior(plain_locus(2, Chromosome::autosome), {1, 0}),
            (std::vector<double>{1, 0, 0}));
}

TEST(Founder, GivesZerosToASexThatCannotLive) {
  const auto prior = founder_prior(plain_locus(2, Chromosome::z, {1, 1, 1, 1, 0}), {0, 1});
  EXPECT_EQ(prior[3], 0.0);
  EXPECT_EQ(prior[4], 0.0);
  EXPECT_NEAR(prior[2], 0.5, 1e-15);
}

RC_GTEST_PROP(FounderProperty, SumsToOneWithinTheSexesThatCanLive, ()) {
  const Locus locus = random_locus();
  const auto frequencies = random_frequencies(locus.alleles().size());
  const auto prior = founder_prior(locus, frequencies);
  const std::vector<Sex> sexes = {Sex::female, Sex::male};
  for (const Sex sex : sexes) {
    double sum = 0, alive = 0;
    for (std::size_t g = 0; g < locus.size(); ++g) {
      RC_ASSERT(prior[g] >= 0);
      if (!locus.possible(g, sex)) continue;
      sum += prior[g];
      const Genotype& genotype = locus.genotypes()[g];
      alive += frequencies[genotype.first] * (genotype.second ? frequencies[*genotype.second] : 1) *
               locus.viability(g);
    }
    const double share = locus.sex_linked() ? 0.5 : 1.0;
    RC_ASSERT(std::abs(sum - (alive > 0 ? share : 0)) < 1e-12);
  }
}

// Hardy (1908): random mating keeps the proportions. Without viability, offspring of two founders
// have a founder's prior (on an autosome after one generation; Z and X too, with even frequencies).
RC_GTEST_PROP(FounderProperty, IsKeptByRandomMating, ()) {
  const auto alleles = *rc::gen::inRange<std::size_t>(2, 5);
  const auto chromosome = *rc::gen::element(Chromosome::autosome, Chromosome::x, Chromosome::z);
  const Locus locus = plain_locus(alleles, chromosome);
  const auto prior = founder_prior(locus, random_frequencies(alleles));
  const Transmission mendelian(locus, Survival::ignored);
  // P(genotype | sex) is twice the joint on a sex chromosome.
  const double given_sex = locus.sex_linked() ? 4.0 : 1.0;
  for (std::size_t child = 0; child < locus.size(); ++child) {
    double probability = 0;
    for (std::size_t dam = 0; dam < locus.size(); ++dam) {
      for (std::size_t sire = 0; sire < locus.size(); ++sire) {
        probability += given_sex * prior[dam] * prior[sire] * mendelian(dam, sire, child);
      }
    }
    RC_ASSERT(std::abs(probability - prior[child]) < 1e-12);
  }
}

}  // namespace
}  // namespace likelihet::genetics::founder_test
