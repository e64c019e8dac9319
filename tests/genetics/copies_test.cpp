// Copies of an allele.
#include <gtest/gtest.h>
#include <support/small_model.hpp>

#include <likelihet/genetics/copies.hpp>

namespace likelihet::genetics::copies_test {
namespace {

genetics::Locus locus_of(const colony::LocusDescription& description,
                         genetics::SexSystem system = genetics::SexSystem::zw) {
  colony::ModelDescription model;
  model.name = "example";
  model.sex_chromosomes = system;
  model.loci = {description};
  return support::made(model)->loci()[0];
}

TEST(CopyChances, SumGenotypesByTheirCopies) {
  const auto locus = locus_of(support::recessive_locus());
  const auto chances = copy_chances(locus, std::vector<double>{0.2, 0.5, 0.3}, 1);
  EXPECT_DOUBLE_EQ(chances.none, 0.2);
  EXPECT_DOUBLE_EQ(chances.one, 0.5);
  EXPECT_DOUBLE_EQ(chances.two, 0.3);
  EXPECT_DOUBLE_EQ(chances.not_one, 0.5);
  EXPECT_FALSE(chances.settled());
}

TEST(CopyChances, OneCopyOnASexChromosomeIsOne) {
  // +/+, +/e, e/e, +/W, e/W.
  const auto locus = locus_of(support::recessive_locus("tarnbrook", genetics::Chromosome::z));
  const auto chances = copy_chances(locus, std::vector<double>{0, 0.25, 0, 0.25, 0.5}, 1);
  EXPECT_DOUBLE_EQ(chances.one, 0.75);
  EXPECT_TRUE(has_one_chromosome(locus, genetics::Sex::female));
  EXPECT_FALSE(has_one_chromosome(locus, genetics::Sex::male));
  EXPECT_FALSE(has_one_chromosome(locus, std::nullopt));
}

TEST(CopyChances, CountTheFirstAlleleTooAndEndAtOne) {
  const auto locus = locus_of(support::recessive_locus("tarnbrook", genetics::Chromosome::z));
  const std::vector<double> odds{0.1, 0.2, 0.3, 0.15, 0.25};
  EXPECT_NEAR(copy_chances(locus, odds, 1).one, 0.45, 1e-15);
  EXPECT_NEAR(copy_chances(locus, odds, 0).one, 0.35, 1e-15);
  const std::vector<double> rounded{0, 0.5000001, 0, 0, 0.5};
  EXPECT_EQ(copy_chances(locus, rounded, 1).one, 1.0) << "rounding is cut off at 1";
}

TEST(CopyChances, AreCertainByTheDigitsOfTheContrary) {
  const CopyChances nearly{1e-11, 1, 0, 1e-11};
  EXPECT_FALSE(nearly.certainly_one());
  const CopyChances rounding{1e-13, 1 - 1e-13, 0, 1e-13};
  EXPECT_TRUE(rounding.certainly_one());
  EXPECT_TRUE(rounding.certainly_some());
  EXPECT_TRUE(rounding.settled());
}

TEST(ProvesTwo, ALookThatNeitherNoneNorOneCopyEverGives) {
  auto description = support::recessive_locus();
  const auto of_tarnbrook = [&](colony::Named<double> none, colony::Named<double> one) {
    description.appearance = {
        {"+/+", std::move(none)}, {"+/e", std::move(one)}, {"e/e", {{"tarnbrook", 1.0}}}};
    const auto locus = locus_of(description);
    return bool(proves_two(locus, 1)[locus.find_appearance("tarnbrook").value()]);
  };
  EXPECT_TRUE(of_tarnbrook({{"plain", 1.0}}, {{"plain", 1.0}}));
  EXPECT_TRUE(of_tarnbrook({{"plain", 1.0}}, {{"tinged", 1.0}}));
  EXPECT_FALSE(of_tarnbrook({{"plain", 1.0}}, {{"tarnbrook", 1.0}}));
  EXPECT_FALSE(of_tarnbrook({{"plain", 0.99}, {"tarnbrook", 0.01}}, {{"plain", 1.0}}));
}

}  // namespace
}  // namespace likelihet::genetics::copies_test
