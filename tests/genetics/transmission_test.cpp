// Transmission against Mendel's ratios and the published crosses on sex chromosomes.
#include <cmath>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>
#include <support/random_locus.hpp>

#include <likelihet/genetics/gamete.hpp>
#include <likelihet/genetics/transmission.hpp>

namespace likelihet::genetics::transmission_test {
namespace {

using namespace likelihet::genetics;
using likelihet::support::plain_locus;
using likelihet::support::random_locus;

using Row = std::vector<double>;

// With two alleles the genotypes are a0/a0, a0/a1, a1/a1 and, on a sex chromosome, a0/-, a1/-.
Row offspring(const Locus& locus, std::size_t dam, std::size_t sire,
              Survival survival = Survival::ignored) {
  const Transmission transmission(locus, survival);
  Row row;
  for (std::size_t child = 0; child < locus.size(); ++child) {
    row.push_back(transmission(dam, sire, child));
  }
  return row;
}

TEST(Gametes, CarryEachChromosomeWithOneHalf) {
  const Locus z = plain_locus(2, Chromosome::z);
  const auto heterozygote = gametes(z.genotypes()[1]);
  ASSERT_EQ(heterozygote.size(), 2U);
  EXPECT_EQ(heterozygote[0].allele, 0);
  EXPECT_EQ(heterozygote[0].probability, 0.5);
  EXPECT_EQ(heterozygote[1].allele, 1);
  const auto homozygote = gametes(z.genotypes()[2]);
  ASSERT_EQ(homozygote.size(), 1U);
  EXPECT_EQ(homozygote[0].probability, 1.0);
  const auto one_copy = gametes(z.genotypes()[4]);
  ASSERT_EQ(one_copy.size(), 2U);
  EXPECT_EQ(one_copy[0].allele, 1);
  EXPECT_EQ(one_copy[1].allele, std::nullopt);
}

// Mendel (1866): 1:2:1 from two hybrids, 1:1 from a backcross.
TEST(Transmission, FollowsMendelsRatios) {
  const Locus locus = plain_locus(2, Chromosome::autosome);
  EXPECT_EQ(offspring(locus, 1, 1), (Row{0.25, 0.5, 0.25}));
  EXPECT_EQ(offspring(locus, 1, 2), (Row{0, 0.5, 0.5}));
  EXPECT_EQ(offspring(locus, 0, 1), (Row{0.5, 0.5, 0}));
  EXPECT_EQ(offspring(locus, 0, 2), (Row{0, 1, 0}));
  EXPECT_EQ(offspring(locus, 2, 2), (Row{0, 0, 1}));
}

// Two heterozygotes of an allelic series that share no allele: four kinds of offspring, 1/4 each.
TEST(Transmission, MixesAnAllelicSeries) {
  const Locus locus = plain_locus(4, Chromosome::autosome);
  const Row row = offspring(locus, *locus.find("a0/a1"), *locus.find("a2/a3"));
  for (std::size_t g = 0; g < locus.size(); ++g) {
    const std::string& key = locus.key(g);
    const bool mixed = key == "a0/a2" || key == "a0/a3" || key == "a1/a2" || key == "a1/a3";
    EXPECT_EQ(row[g], mixed ? 0.25 : 0) << key;
  }
}

// Morgan (1910, Science 32:120): a recessive on X crosses over from affected dam to sons; the
// daughters of an affected dam and a clear sire all carry it.
TEST(Transmission, CrissCrossesOnX) {
  const Locus locus = plain_locus(2, Chromosome::x);
  EXPECT_EQ(offspring(locus, 2, 3), (Row{0, 0.5, 0, 0, 0.5}));
  // His first cross: clear dam, affected sire; all offspring clear, the daughters hets.
  EXPECT_EQ(offspring(locus, 0, 4), (Row{0, 0.5, 0, 0.5, 0}));
  // Those daughters with a clear brother: half of the sons affected, no daughter.
  EXPECT_EQ(offspring(locus, 1, 3), (Row{0.25, 0.25, 0, 0.25, 0.25}));
}

// Doncaster & Raynor (1906): the mirror image with ZW; the source is named from memory.
TEST(Transmission, CrissCrossesOnZ) {
  const Locus locus = plain_locus(2, Chromosome::z);
  // Clear dam (a0/W), affected sire: all daughters affected, all sons hets.
  EXPECT_EQ(offspring(locus, 3, 2), (Row{0, 0.5, 0, 0, 0.5}));
  // Affected dam (a1/W), clear sire: all sons hets, all daughters clear.
  EXPECT_EQ(offspring(locus, 4, 0), (Row{0, 0.5, 0, 0.5, 0}));
}

TEST(Transmission, GivesZerosForAParentOfTheWrongSex) {
  const Locus z = plain_locus(2, Chromosome::z);
  EXPECT_EQ(offspring(z, 1, 1), Row(5, 0.0));
  EXPECT_EQ(offspring(z, 3, 3), Row(5, 0.0));
  EXPECT_EQ(offspring(z, 1, 3), Row(5, 0.0));
}

// Cuenot (1905), Castle & Little (1910): a homozygous lethal turns 1:2:1 into 2:1 among the
// offspring that live.
TEST(Transmission, LeavesTwoToOneWhereAHomozygoteDies) {
  const Locus locus = plain_locus(2, Chromosome::autosome, {1, 1, 0});
  EXPECT_EQ(offspring(locus, 1, 1, Survival::ignored), (Row{0.25, 0.5, 0.25}));
  EXPECT_EQ(offspring(locus, 1, 1, Survival::weighted), (Row{0.25, 0.5, 0}));
  const Row living = offspring(locus, 1, 1, Survival::renormalised);
  EXPECT_DOUBLE_EQ(living[0], 1.0 / 3);
  EXPECT_DOUBLE_EQ(living[1], 2.0 / 3);
  EXPECT_EQ(living[2], 0.0);
}

// A lethal on X takes half of a carrier's sons: two daughters a son (Morgan 1912,
// Science 36:718; from memory).
TEST(Transmission, RenormalisesOverBothSexes) {
  const Locus locus = plain_locus(2, Chromosome::x, {1, 1, 0, 1, 0});
  const Row living = offspring(locus, 1, 3, Survival::renormalised);
  EXPECT_DOUBLE_EQ(living[0] + living[1], 2.0 / 3);
  EXPECT_DOUBLE_EQ(living[3], 1.0 / 3);
}

TEST(Transmission, GivesZerosWhereNoOffspringCanLive) {
  const Locus locus = plain_locus(2, Chromosome::autosome, {1, 1, 0});
  EXPECT_EQ(offspring(locus, 2, 2, Survival::renormalised), Row(3, 0.0));
}

RC_GTEST_PROP(TransmissionProperty, SumsToOneForPossibleParents, ()) {
  const Locus locus = random_locus();
  const Transmission mendelian(locus, Survival::ignored);
  const Transmission weighted(locus, Survival::weighted);
  const Transmission living(locus, Survival::renormalised);
  for (std::size_t dam = 0; dam < locus.size(); ++dam) {
    for (std::size_t sire = 0; sire < locus.size(); ++sire) {
      double sum = 0, alive = 0, renormalised = 0;
      for (std::size_t child = 0; child < locus.size(); ++child) {
        RC_ASSERT(mendelian(dam, sire, child) >= 0);
        RC_ASSERT(weighted(dam, sire, child) ==
                  mendelian(dam, sire, child) * locus.viability(child));
        sum += mendelian(dam, sire, child);
        alive += weighted(dam, sire, child);
        renormalised += living(dam, sire, child);
      }
      const bool parents = locus.possible(dam, Sex::female) && locus.possible(sire, Sex::male);
      RC_ASSERT(std::abs(sum - (parents ? 1.0 : 0.0)) < 1e-12);
      RC_ASSERT(std::abs(renormalised - (alive > 0 ? 1.0 : 0.0)) < 1e-12);
    }
  }
}

RC_GTEST_PROP(TransmissionProperty, GivesEachSexHalfBeforeViability, ()) {
  const Locus locus = random_locus();
  RC_PRE(locus.sex_linked());
  const Transmission mendelian(locus, Survival::ignored);
  for (std::size_t dam = 0; dam < locus.size(); ++dam) {
    for (std::size_t sire = 0; sire < locus.size(); ++sire) {
      if (!locus.possible(dam, Sex::female) || !locus.possible(sire, Sex::male)) continue;
      double daughters = 0;
      for (std::size_t child = 0; child < locus.size(); ++child) {
        if (locus.possible(child, Sex::female)) daughters += mendelian(dam, sire, child);
      }
      RC_ASSERT(std::abs(daughters - 0.5) < 1e-12);
    }
  }
}

// On an autosome it does not matter which parent is the dam.
RC_GTEST_PROP(TransmissionProperty, IsSymmetricOnAnAutosome, ()) {
  const Locus locus = random_locus();
  RC_PRE(!locus.sex_linked());
  const Transmission living(locus, Survival::renormalised);
  for (std::size_t a = 0; a < locus.size(); ++a) {
    for (std::size_t b = 0; b < locus.size(); ++b) {
      for (std::size_t child = 0; child < locus.size(); ++child) {
        RC_ASSERT(std::abs(living(a, b, child) - living(b, a, child)) < 1e-12);
      }
    }
  }
}

// Worst case in use: ten alleles on a sex chromosome, 65 genotypes.
TEST(Transmission, HoldsALongAllelicSeries) {
  const Locus locus = plain_locus(10, Chromosome::z);
  ASSERT_EQ(locus.size(), 65U);
  const Transmission mendelian(locus, Survival::ignored);
  double sum = 0;
  for (const double p : mendelian.table()) sum += p;
  // One for each of the 10 dams and 55 sires.
  EXPECT_NEAR(sum, 10.0 * 55.0, 1e-9);
}

}  // namespace
}  // namespace likelihet::genetics::transmission_test
