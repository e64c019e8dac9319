// Mendel and survival of one locus by sex.
#include "support/random_locus.hpp"
#include "support/small_model.hpp"
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <likelihet/genetics/transmission.hpp>
#include <likelihet/planning/offspring.hpp>

namespace likelihet::planning::offspring_test {
namespace {

using genetics::Chromosome;
using genetics::Sex;

// het x het, e/e lethal: 1/4 + 1/2 of either sex live, a quarter is lost.
TEST(LocusOffspring, ALethalRecessive) {
  const auto locus = support::plain_locus(2, Chromosome::autosome, {1, 1, 0});
  const LocusOffspring offspring(locus);
  EXPECT_EQ(offspring.weight(1, 1, Sex::female, 1), 0.5);
  EXPECT_EQ(offspring.weight(1, 1, Sex::male, 2), 0.0);
  EXPECT_EQ(offspring.alive(1, 1, Sex::male), 0.75);
  EXPECT_EQ(offspring.laid(1, 1, 2), 0.25);
  EXPECT_EQ(offspring.lost(1, 1), 0.25);
  EXPECT_EQ(offspring.lost(0, 1), 0.0);
}

// Only ratios of viability mean anything.
TEST(LocusOffspring, ViabilityIsRelative) {
  const auto locus = support::plain_locus(2, Chromosome::autosome, {2, 2, 1});
  EXPECT_EQ(LocusOffspring(locus).lost(1, 1), 0.125);
}

// Z, dam +/W (3), sire +/z (1), z/W lethal: half of the females die, no male does.
TEST(LocusOffspring, ALethalOnZ) {
  const auto locus = support::plain_locus(2, Chromosome::z, {1, 1, 1, 1, 0});
  const LocusOffspring offspring(locus);
  EXPECT_EQ(offspring.alive(3, 1, Sex::female), 0.5);
  EXPECT_EQ(offspring.alive(3, 1, Sex::male), 1.0);
  EXPECT_EQ(offspring.weight(3, 1, Sex::male, 1), 0.5);
  EXPECT_EQ(offspring.weight(3, 1, Sex::female, 1), 0.0);
  EXPECT_EQ(offspring.lost(3, 1), 0.25);
}

TEST(TogetherWith, OnlyWhereSurvivalTiesThem) {
  std::vector<genetics::Locus> loci = {support::plain_locus(2, Chromosome::z),
                                       support::plain_locus(2, Chromosome::autosome, {1, 1, 0}),
                                       support::plain_locus(2, Chromosome::z)};
  EXPECT_EQ(together_with(loci, 2), (std::vector<std::size_t>{2}));
  loci.push_back(support::plain_locus(2, Chromosome::z, {1, 1, 0, 1, 1}));
  EXPECT_EQ(together_with(loci, 2), (std::vector<std::size_t>{2, 0, 3}));
  EXPECT_EQ(together_with(loci, 1), (std::vector<std::size_t>{1}));
}

RC_GTEST_PROP(LocusOffspringProperty, AddsUp, ()) {
  const auto locus = support::random_locus();
  const LocusOffspring offspring(locus);
  const auto dam = *rc::gen::inRange<std::size_t>(0, locus.size());
  const auto sire = *rc::gen::inRange<std::size_t>(0, locus.size());
  const genetics::Transmission weighted(locus, genetics::Survival::weighted);
  double all = 0, expected = 0, laid = 0;
  for (std::size_t g = 0; g < locus.size(); ++g) {
    for (const Sex sex : both_sexes) all += offspring.weight(dam, sire, sex, g) / 2;
    expected += weighted(dam, sire, g);
    laid += offspring.laid(dam, sire, g);
  }
  RC_ASSERT(std::abs(all - expected) < 1e-12);
  RC_ASSERT(laid == 0 || std::abs(laid - 1) < 1e-12);
  RC_ASSERT(offspring.lost(dam, sire) >= 0 && offspring.lost(dam, sire) <= 1);
}

}  // namespace
}  // namespace likelihet::planning::offspring_test
