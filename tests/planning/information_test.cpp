// Entropies and mutual information against values worked by hand.
#include <cmath>
#include <vector>

#include "properties/dice.hpp"
#include <gtest/gtest.h>
#include <support/small_model.hpp>

#include <likelihet/odds/evidence_result.hpp>
#include <likelihet/planning/information.hpp>

namespace likelihet::planning::information_test {
namespace {

using properties::Dice;

colony::Assay assay_of(std::vector<std::vector<double>> expect, double mix_up = 0) {
  colony::Assay assay;
  for (std::size_t r = 0; r < expect.front().size(); ++r) {
    assay.reports.push_back(properties::numbered("r", r));
  }
  assay.expect = std::move(expect);
  assay.mix_up = mix_up;
  return assay;
}

double information(const std::vector<double>& genotypes, const colony::Assay& assay) {
  return information_bits(genotypes, report_classes(assay));
}

TEST(Entropy, IsThatOfFairCoinsAndOfCertainty) {
  EXPECT_EQ(entropy_bits(std::vector<double>{0.5, 0.5}), 1);
  EXPECT_EQ(entropy_bits(std::vector<double>{0.25, 0.25, 0.25, 0.25}), 2);
  EXPECT_EQ(entropy_bits(std::vector<double>{0, 1, 0}), 0);
  EXPECT_EQ(entropy_bits(std::vector<double>{}), 0);
  // A carrier cross: 1/4, 1/2, 1/4 are 1.5 bits.
  EXPECT_EQ(entropy_bits(std::vector<double>{0.25, 0.5, 0.25}), 1.5);
}

// Shannon 1948, section 7: H(p, 1 - p) at p = 0.1 is 0.469 bits (from memory; -0.1 log2 0.1 - 0.9
// log2 0.9 = 0.1 x 3.32193 + 0.9 x 0.152003).
TEST(Entropy, OfAnUnevenCoin) {
  EXPECT_NEAR(entropy_bits(std::vector<double>{0.1, 0.9}), 0.468996, 5e-7);
}

// A test that never errs tells all that is not known.
TEST(Information, OfAPerfectTestIsTheEntropy) {
  const auto perfect = assay_of({{1, 0, 0}, {0, 1, 0}, {0, 0, 1}});
  EXPECT_NEAR(information({0.25, 0.5, 0.25}, perfect), 1.5, 1e-15);
  EXPECT_NEAR(information({1.0 / 3, 2.0 / 3, 0}, perfect), 0.918295834, 1e-9);
  EXPECT_EQ(information({0, 1, 0}, perfect), 0);
}

// A binary symmetric channel that flips 11 % at even odds carries 1 - H(0.11) = 0.500084 bits
// (Cover and Thomas, Elements of Information Theory, section 7.1.4; the figure by arithmetic:
// H(0.11) = 0.11 x 3.184425 + 0.89 x 0.168123 = 0.499916).
TEST(Information, OfABinarySymmetricChannel) {
  const auto flips = assay_of({{0.89, 0.11}, {0.11, 0.89}});
  EXPECT_NEAR(information({0.5, 0.5}, flips), 0.500084, 1e-6);
}

// An erasure channel that says nothing with 1/4 carries 3/4 of the entropy (Cover and Thomas,
// section 7.1.5).
TEST(Information, OfAnErasureChannel) {
  const auto erases = assay_of({{0.75, 0, 0.25}, {0, 0.75, 0.25}});
  EXPECT_NEAR(information({0.5, 0.5}, erases), 0.75, 1e-15);
  EXPECT_NEAR(information({0.1, 0.9}, erases), 0.75 * 0.468996, 1e-6);
}

// With mix-ups of m a perfect test of two genotypes is right with 1 - m/2.
TEST(Information, FallsWithMixUps) {
  const auto mixed = assay_of({{1, 0}, {0, 1}}, 0.22);
  EXPECT_NEAR(information({0.5, 0.5}, mixed), 0.500084, 1e-6);
  EXPECT_EQ(information({0.5, 0.5}, assay_of({{1, 0}, {0, 1}}, 1)), 0);
}

TEST(Information, OfReportsThatTellNothingIsNone) {
  EXPECT_NEAR(information({0.3, 0.7}, assay_of({{0.2, 0.8}, {0.2, 0.8}})), 0, 1e-16);
}

TEST(ReportClasses, PutsReportsOfOneMeaningTogether) {
  // Two kinds of "no call" in proportion, and a report that is never given.
  const auto classes =
      report_classes(assay_of({{0.8, 0.0, 0.1, 0.05, 0.05, 0}, {0.0, 0.8, 0.1, 0.05, 0.05, 0}}));
  ASSERT_EQ(classes.size(), 3U);
  EXPECT_EQ(classes[2].reports, (std::vector<std::size_t>{2, 3, 4}));
  EXPECT_NEAR(classes[2].likelihood[0], 0.2, 1e-15);
  EXPECT_EQ(classes[0].reports, (std::vector<std::size_t>{0}));
}

// Never negative, never above the entropy of either side, and the same whether reports are put
// together or not.
TEST(Information, KeepsItsBoundsOnRandomTests) {
  Dice dice(11);
  for (int trial = 0; trial < 2000; ++trial) {
    const std::size_t genotypes = dice.between(1, 5);
    const std::size_t reports = dice.between(1, 5);
    std::vector<std::vector<double>> expect;
    for (std::size_t g = 0; g < genotypes; ++g) expect.push_back(dice.simplex(reports, 0.2));
    const auto assay = assay_of(expect, dice.chance(0.5) ? 0 : dice.unit());
    const auto p = dice.simplex(genotypes, 0.2);
    std::vector<double> report(reports, 0.0);
    double by_entropies = 0;
    std::vector<ReportClass> apart;
    for (std::size_t r = 0; r < reports; ++r) {
      apart.push_back({odds::result_likelihood(assay, r), {r}});
      for (std::size_t g = 0; g < genotypes; ++g) report[r] += p[g] * apart[r].likelihood[g];
    }
    for (std::size_t g = 0; g < genotypes; ++g) {
      std::vector<double> given;
      for (const ReportClass& one : apart) given.push_back(one.likelihood[g]);
      by_entropies += p[g] * entropy_bits(given);
    }
    const double told = information(p, assay);
    EXPECT_GE(told, 0);
    EXPECT_LE(told, entropy_bits(p) + 1e-12);
    EXPECT_LE(told, entropy_bits(report) + 1e-12);
    // I = H(report) - H(report | genotype).
    EXPECT_NEAR(told, entropy_bits(report) - by_entropies, 1e-12);
    EXPECT_NEAR(told, information_bits(p, apart), 1e-12);
  }
}

}  // namespace
}  // namespace likelihet::planning::information_test
