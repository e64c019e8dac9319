// Sexes and sex chromosomes: who has two copies, how keys are written, where sons and daughters
// get theirs.
#include <vector>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>
#include <support/random_locus.hpp>

#include <likelihet/genetics/founder.hpp>
#include <likelihet/genetics/gamete.hpp>
#include <likelihet/genetics/transmission.hpp>

namespace likelihet::genetics::sex_test {
namespace {

using namespace likelihet::genetics;
using likelihet::support::plain_locus;
using likelihet::support::random_frequencies;
using likelihet::support::random_locus;

// XX/XY: females have two X; ZZ/ZW: males have two Z.
TEST(Sexes, HaveTwoCopiesByTheChromosome) {
  EXPECT_EQ(two_copy_sex(Chromosome::x), Sex::female);
  EXPECT_EQ(two_copy_sex(Chromosome::z), Sex::male);
  EXPECT_EQ(other_sex(Sex::female), Sex::male);
  EXPECT_EQ(other_sex(Sex::male), Sex::female);
  EXPECT_EQ(partner_letter(Chromosome::x), 'Y');
  EXPECT_EQ(partner_letter(Chromosome::z), 'W');
}

RC_GTEST_PROP(SexProperty, IsToldByTheNumberOfCopies, ()) {
  const Locus locus = random_locus();
  for (const Genotype& genotype : locus.genotypes()) {
    if (!locus.sex_linked()) {
      RC_ASSERT((!genotype.sex && genotype.second));
      continue;
    }
    const Sex two = two_copy_sex(locus.chromosome());
    RC_ASSERT(genotype.sex == (genotype.second ? two : other_sex(two)));
  }
}

// The partner chromosome comes from the one-copy parent, and its offspring by it are of that
// parent's sex; their one copy is the other parent's.
RC_GTEST_PROP(SexProperty, OneCopyOffspringHaveTheTwoCopyParentsAllele, ()) {
  const auto chromosome = *rc::gen::element(Chromosome::x, Chromosome::z);
  const Locus locus = plain_locus(*rc::gen::inRange<std::size_t>(2, 5), chromosome);
  const Transmission mendelian(locus, Survival::ignored);
  const bool dam_has_two = two_copy_sex(chromosome) == Sex::female;
  for (std::size_t dam = 0; dam < locus.size(); ++dam) {
    for (std::size_t sire = 0; sire < locus.size(); ++sire) {
      if (!locus.possible(dam, Sex::female) || !locus.possible(sire, Sex::male)) continue;
      const Genotype& two = locus.genotypes()[dam_has_two ? dam : sire];
      const Genotype& one = locus.genotypes()[dam_has_two ? sire : dam];
      for (std::size_t child = 0; child < locus.size(); ++child) {
        if (mendelian(dam, sire, child) <= 0) continue;
        const Genotype& offspring = locus.genotypes()[child];
        if (offspring.second) {
          RC_ASSERT(offspring.copies(one.first) >= 1);
        } else {
          RC_ASSERT(two.copies(offspring.first) >= 1);
          RC_ASSERT(offspring.sex == one.sex);
        }
      }
    }
  }
}

// On X and Z one generation of random mating moves the one-copy sex to the other's frequencies and
// the other halfway (Jennings 1916, Genetics 1:53; from memory): here 0 among one sex, 1 among the
// other.
TEST(Sexes, ExchangeFrequenciesOnASexChromosome) {
  const Locus z = plain_locus(2, Chromosome::z);
  const Transmission mendelian(z, Survival::ignored);
  const std::size_t all_e_male = *z.find("a1/a1");
  const std::size_t no_e_female = *z.find("a0/W");
  EXPECT_EQ(mendelian(no_e_female, all_e_male, *z.find("a1/W")), 0.5) << "daughters as their sire";
  EXPECT_EQ(mendelian(no_e_female, all_e_male, *z.find("a0/a1")), 0.5) << "sons halfway";
}

RC_GTEST_PROP(GameteProperty, SumToOneAndFollowTheCopies, ()) {
  const Locus locus = random_locus();
  for (const Genotype& genotype : locus.genotypes()) {
    double sum = 0;
    std::vector<double> by_allele(locus.alleles().size(), 0.0);
    double without = 0;
    for (const Gamete& gamete : gametes(genotype)) {
      sum += gamete.probability;
      (gamete.allele ? by_allele[*gamete.allele] : without) += gamete.probability;
    }
    RC_ASSERT(sum == 1.0);
    for (std::uint16_t a = 0; a < by_allele.size(); ++a) {
      RC_ASSERT(by_allele[a] == genotype.copies(a) / 2.0);
    }
    RC_ASSERT(without == (genotype.second ? 0.0 : 0.5));
  }
}

}  // namespace
}  // namespace likelihet::genetics::sex_test
