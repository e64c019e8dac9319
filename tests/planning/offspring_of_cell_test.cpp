// Several loci of one offspring at once.
#include <cmath>

#include "support/random_locus.hpp"
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <likelihet/planning/offspring_of_cell.hpp>

namespace likelihet::planning::offspring_of_cell_test {
namespace {

using genetics::Chromosome;

std::vector<LocusOffspring> offspring_of(const std::vector<genetics::Locus>& loci) {
  std::vector<LocusOffspring> out;
  for (const auto& locus : loci) out.emplace_back(locus);
  return out;
}

// Two autosomal loci, het x het each: 1/4 x 1/4, in either sex alike.
TEST(OffspringOfCell, UnlinkedLociMultiply) {
  const std::vector<genetics::Locus> loci = {support::plain_locus(2, Chromosome::autosome),
                                             support::plain_locus(2, Chromosome::autosome)};
  const auto offspring = offspring_of(loci);
  const std::vector<std::size_t> group = {0, 1};
  const std::vector<std::uint32_t> parents = {1, 1, 1, 1};
  const OffspringOfCell cell(offspring, group, parents);
  EXPECT_EQ(cell.lives(), 1.0);
  EXPECT_EQ(cell.genotype(0, 0, 2), 0.125);
  EXPECT_EQ(cell.genotype(1, 1, 1), 0.25);
  EXPECT_EQ(cell.together({0, 0}), 1.0);
}

// A lethal on Z takes half of the daughters: two thirds of the living are sons, and another locus
// on Z, of a het sire, is seen through that: +/a sons 1/3, a/W daughters 1/6.
TEST(OffspringOfCell, SurvivalAtOneLocusShiftsTheOther) {
  const std::vector<genetics::Locus> loci = {
      support::plain_locus(2, Chromosome::z),
      support::plain_locus(2, Chromosome::z, {1, 1, 1, 1, 0})};
  const auto offspring = offspring_of(loci);
  const std::vector<std::size_t> group = {0, 1};
  const std::vector<std::uint32_t> parents = {3, 1, 3, 1};  // +/W by het, at both
  const OffspringOfCell cell(offspring, group, parents);
  EXPECT_EQ(cell.lives(), 0.75);
  EXPECT_NEAR(cell.genotype(0, 1, 1), 1. / 3, 1e-15);
  EXPECT_NEAR(cell.genotype(0, 0, 4), 1. / 6, 1e-15);
  EXPECT_NEAR(cell.genotype(1, 0, 3), 1. / 3, 1e-15);
  EXPECT_EQ(cell.genotype(1, 0, 4), 0.0);
}

// Each locus's genotypes add up to one offspring, whatever dies.
RC_GTEST_PROP(OffspringOfCellProperty, GenotypesAddUp, ()) {
  std::vector<genetics::Locus> loci;
  std::vector<std::size_t> group;
  std::vector<std::uint32_t> parents;
  const auto chromosome = *rc::gen::element(Chromosome::autosome, Chromosome::x, Chromosome::z);
  const auto size = *rc::gen::inRange<std::size_t>(1, 4);
  for (std::size_t k = 0; k < size; ++k) {
    const std::size_t genotypes = genetics::Locus::genotypes_of(2, chromosome).size();
    std::vector<double> viability;
    for (std::size_t g = 0; g < genotypes; ++g) viability.push_back(*rc::gen::inRange(0, 5) / 4.0);
    loci.push_back(support::plain_locus(2, chromosome, viability));
    group.push_back(k);
    for (int parent = 0; parent < 2; ++parent) {
      parents.push_back(*rc::gen::inRange<std::uint32_t>(0, static_cast<std::uint32_t>(genotypes)));
    }
  }
  const auto offspring = offspring_of(loci);
  const OffspringOfCell cell(offspring, group, parents);
  if (!(cell.lives() > 0)) return;
  for (std::size_t k = 0; k < size; ++k) {
    double genotypes = 0, looks = 0;
    for (std::size_t x = 0; x < 2; ++x) {
      for (std::size_t g = 0; g < loci[k].size(); ++g) genotypes += cell.genotype(k, x, g);
      looks += cell.appearance(k, x, 0);
    }
    RC_ASSERT(std::abs(genotypes - 1) < 1e-12);
    RC_ASSERT(std::abs(looks - 1) < 1e-12);
  }
  RC_ASSERT(std::abs(cell.together(std::vector<std::size_t>(size, 0)) - 1) < 1e-12);
}

}  // namespace
}  // namespace likelihet::planning::offspring_of_cell_test
