// State order, keys, look-ups and refusals of a locus.
#include <limits>
#include <set>
#include <stdexcept>
#include <string>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>
#include <support/random_locus.hpp>

#include <likelihet/genetics/locus.hpp>

namespace likelihet::genetics::locus_test {
namespace {

using namespace likelihet::genetics;
using likelihet::support::plain_locus;
using likelihet::support::random_locus;

Locus::Parts recessive_parts(Chromosome chromosome = Chromosome::autosome) {
  Locus::Parts parts;
  parts.id = "tarnbrook";
  parts.chromosome = chromosome;
  parts.alleles = {"+", "e"};
  parts.appearances = {"plain", "tarnbrook"};
  parts.appearance = {{1, 0}, {1, 0}, {0.25, 0.75}};
  parts.viability = {1, 1, 1};
  if (chromosome != Chromosome::autosome) {
    parts.appearance.insert(parts.appearance.end(), {{1, 0}, {0, 1}});
    parts.viability.insert(parts.viability.end(), {1, 1});
  }
  return parts;
}

std::vector<std::string> keys(const Locus& locus) {
  std::vector<std::string> result;
  for (std::size_t g = 0; g < locus.size(); ++g) result.push_back(locus.key(g));
  return result;
}

using Keys = std::vector<std::string>;

TEST(Locus, OrdersTwoAllelesAsTheDocumentsWriteThem) {
  EXPECT_EQ(keys(Locus(recessive_parts())), (Keys{"+/+", "+/e", "e/e"}));
  EXPECT_EQ(keys(Locus(recessive_parts(Chromosome::z))), (Keys{"+/+", "+/e", "e/e", "+/W", "e/W"}));
  EXPECT_EQ(keys(Locus(recessive_parts(Chromosome::x))), (Keys{"+/+", "+/e", "e/e", "+/Y", "e/Y"}));
}

TEST(Locus, OrdersAnAllelicSeriesLexicographically) {
  EXPECT_EQ(keys(plain_locus(3, Chromosome::autosome)),
            (Keys{"a0/a0", "a0/a1", "a0/a2", "a1/a1", "a1/a2", "a2/a2"}));
}

TEST(Locus, GivesTheSexOfAGenotypeOnASexChromosomeOnly) {
  const Locus z(recessive_parts(Chromosome::z));
  EXPECT_EQ(z.genotypes()[1].sex, Sex::male);
  EXPECT_EQ(z.genotypes()[4].sex, Sex::female);
  EXPECT_TRUE(z.possible(1, Sex::male));
  EXPECT_FALSE(z.possible(1, Sex::female));
  const Locus x(recessive_parts(Chromosome::x));
  EXPECT_EQ(x.genotypes()[1].sex, Sex::female);
  EXPECT_EQ(x.genotypes()[4].sex, Sex::male);
  const Locus autosome(recessive_parts());
  EXPECT_FALSE(autosome.genotypes()[1].sex);
  EXPECT_TRUE(autosome.possible(1, Sex::female) && autosome.possible(1, Sex::male));
}

TEST(Locus, CountsCopies) {
  const Locus z(recessive_parts(Chromosome::z));
  EXPECT_EQ(z.genotypes()[0].copies(1), 0U);
  EXPECT_EQ(z.genotypes()[1].copies(1), 1U);
  EXPECT_EQ(z.genotypes()[2].copies(1), 2U);
  EXPECT_EQ(z.genotypes()[4].copies(1), 1U);
}

TEST(Locus, FindsByNameAndRefusesTheWrongOrder) {
  const Locus locus(recessive_parts());
  EXPECT_EQ(locus.find("+/e"), 1U);
  EXPECT_EQ(locus.find("e/+"), std::nullopt);
  EXPECT_EQ(locus.find_allele("e"), 1U);
  EXPECT_EQ(locus.find_allele("E"), std::nullopt);
  EXPECT_EQ(locus.find_appearance("tarnbrook"), 1U);
  EXPECT_EQ(locus.find_appearance(""), std::nullopt);
  EXPECT_EQ(locus.shows(2, 1), 0.75);
}

TEST(Locus, KnowsWhetherViabilityMatters) {
  Locus::Parts parts = recessive_parts();
  EXPECT_FALSE(Locus(parts).viability_matters());
  parts.viability[2] = 0.5;
  EXPECT_TRUE(Locus(parts).viability_matters());
}

TEST(Locus, RefusesWhatIsNoLocus) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  Locus::Parts parts = recessive_parts();
  parts.alleles = {"+"};
  EXPECT_THROW(Locus{parts}, std::invalid_argument);
  parts = recessive_parts();
  parts.appearance.pop_back();
  EXPECT_THROW(Locus{parts}, std::invalid_argument);
  parts = recessive_parts();
  parts.appearance[0] = {1};
  EXPECT_THROW(Locus{parts}, std::invalid_argument);
  for (const std::vector<double>& row : {std::vector<double>{0.5, 0.4}, {1.5, -0.5}, {nan, 1.0}}) {
    parts = recessive_parts();
    parts.appearance[0] = row;
    EXPECT_THROW(Locus{parts}, std::invalid_argument) << row[0];
  }
  for (const double viability : {-0.1, nan, std::numeric_limits<double>::infinity()}) {
    parts = recessive_parts();
    parts.viability[1] = viability;
    EXPECT_THROW(Locus{parts}, std::invalid_argument) << viability;
  }
}

RC_GTEST_PROP(LocusProperty, HasAKeyOfItsOwnForEveryGenotype, ()) {
  const Locus locus = random_locus();
  const std::size_t n = locus.alleles().size();
  RC_ASSERT(locus.size() == n * (n + 1) / 2 + (locus.sex_linked() ? n : 0));
  std::set<std::string> seen;
  for (std::size_t g = 0; g < locus.size(); ++g) {
    RC_ASSERT(locus.find(locus.key(g)) == g);
    RC_ASSERT(seen.insert(locus.key(g)).second);
  }
}

}  // namespace
}  // namespace likelihet::genetics::locus_test
