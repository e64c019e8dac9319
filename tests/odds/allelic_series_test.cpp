// A locus of three alleles, from origins to results: compounds, het of each allele, two lines.
#include <cmath>
#include <string>

#include <gtest/gtest.h>
#include <support/solved_colony.hpp>

namespace likelihet::odds::allelic_series_test {
namespace {

using support::RecordsBuilder;
using support::SolvedColony;

// Two loss alleles e and f: any two of them show "tarnbrook", and a compound e/f shows
// "quillmarsh".
colony::ModelDescription series() {
  auto model = support::recessive_model();
  model.loci[0].alleles = {"+", "e", "f"};
  model.loci[0].appearance = {{"default", {{"plain", 1.0}}},
                              {"e/e", {{"tarnbrook", 1.0}}},
                              {"f/f", {{"tarnbrook", 1.0}}},
                              {"e/f", {{"quillmarsh", 1.0}}}};
  model.origins = {{"bought", {{"tarnbrook", {{"e", 0.1}, {"f", 0.3}}}}, 50.0}};
  model.markers.clear();
  // A test that knows e alone: any genotype without it looks clear.
  model.assays[0].reports = {"clear", "found"};
  model.assays[0].rows = {{"+/+", {0.99, 0.01}}, {"+/e", {0.02, 0.98}}, {"+/f", {0.99, 0.01}},
                          {"e/e", {0.01, 0.99}}, {"e/f", {0.02, 0.98}}, {"f/f", {0.99, 0.01}}};
  model.assays[0].mix_up = 0;
  return model;
}

// p = 0.6, 0.1, 0.3: p_i^2 and 2 p_i p_j (Weinberg 1909; from memory).
TEST(AllelicSeries, FounderIsInHardyWeinbergProportions) {
  RecordsBuilder records;
  records.founder("F", std::nullopt, "bought");
  const SolvedColony solved(series(), records);
  EXPECT_NEAR(solved.pedigree("F", "+/+"), 0.36, 1e-15);
  EXPECT_NEAR(solved.pedigree("F", "+/e"), 0.12, 1e-15);
  EXPECT_NEAR(solved.pedigree("F", "+/f"), 0.36, 1e-15);
  EXPECT_NEAR(solved.pedigree("F", "e/e"), 0.01, 1e-15);
  EXPECT_NEAR(solved.pedigree("F", "e/f"), 0.06, 1e-15);
  EXPECT_NEAR(solved.pedigree("F", "f/f"), 0.09, 1e-15);
  // Exactly one copy of e: +/e and e/f; of f: +/f and e/f.
  ASSERT_EQ(solved.at("F").het.size(), 2U);
  EXPECT_NEAR(solved.at("F").het[0].mean, 0.18, 1e-15);
  EXPECT_NEAR(solved.at("F").het[1].mean, 0.42, 1e-15);
}

// e/f x +/+ : half of the offspring carry each, none is clear.
TEST(AllelicSeries, CompoundGivesEachAlleleToHalf) {
  RecordsBuilder records;
  records.founder("D").bought_as("tarnbrook", {{"e/f", 1.0}}).founder("S");
  records.clutch("C", "D", {"S"}).hatchling("H", "C");
  const SolvedColony solved(series(), records);
  EXPECT_NEAR(solved.posterior("H", "+/e"), 0.5, 1e-15);
  EXPECT_NEAR(solved.posterior("H", "+/f"), 0.5, 1e-15);
  EXPECT_EQ(solved.posterior("H", "+/+"), 0.0);
}

// +/e x +/f with a plain look: +/+, +/e and +/f are alike, e/f is out.
TEST(AllelicSeries, PlainOffspringOfTwoKindsOfCarriers) {
  RecordsBuilder records;
  records.founder("D").bought_as("tarnbrook", {{"+/e", 1.0}});
  records.founder("S").bought_as("tarnbrook", {{"+/f", 1.0}});
  records.clutch("C", "D", {"S"}).hatchling("H", "C").shows("H", "tarnbrook", "plain");
  const SolvedColony solved(series(), records);
  for (const char* key : {"+/+", "+/e", "+/f"}) {
    EXPECT_NEAR(solved.posterior("H", key), 1.0 / 3, 1e-15) << key;
  }
  EXPECT_NEAR(solved.odds().log_evidence, std::log(0.75), 1e-15);
}

// "tarnbrook" does not say which pair it is: e/e and f/f by their shares, 1 : 9 of a founder.
TEST(AllelicSeries, ALookOfTwoGenotypesKeepsTheirOdds) {
  RecordsBuilder records;
  records.founder("F", std::nullopt, "bought").shows("F", "tarnbrook", "tarnbrook");
  const SolvedColony solved(series(), records);
  EXPECT_NEAR(solved.posterior("F", "e/e"), 0.1, 1e-14);
  EXPECT_NEAR(solved.posterior("F", "f/f"), 0.9, 1e-14);
  EXPECT_NEAR(solved.at("F").het[0].mean, 0, 1e-15);
}

// A quillmarsh offspring of two visuals: one parent gave e, the other f, and neither could give
// both.
TEST(AllelicSeries, ACompoundOffspringSettlesItsParents) {
  RecordsBuilder records;
  records.founder("D", std::nullopt, "bought").shows("D", "tarnbrook", "tarnbrook");
  records.founder("S", std::nullopt, "bought").shows("S", "tarnbrook", "tarnbrook");
  records.clutch("C", "D", {"S"}).hatchling("H", "C").shows("H", "tarnbrook", "quillmarsh");
  const SolvedColony solved(series(), records);
  // e/e x f/f and f/f x e/e are alike: 0.01 x 0.09 each way.
  EXPECT_NEAR(solved.posterior("D", "e/e"), 0.5, 1e-14);
  EXPECT_NEAR(solved.posterior("S", "f/f"), 0.5, 1e-14);
  EXPECT_NEAR(solved.odds().log_evidence, std::log(2 * 0.01 * 0.09), 1e-13);
}

// "Clear" of a test that knows e alone leaves f where it was: +/e falls, +/f stays.
TEST(AllelicSeries, ATestKnowsItsOwnVariantAlone) {
  RecordsBuilder records;
  records.founder("F").bought_as("tarnbrook", {{"+/+", 0.25}, {"+/e", 0.25}, {"+/f", 0.5}});
  records.result("F", "shed-pcr", "clear");
  const SolvedColony solved(series(), records);
  const double whole = 0.25 * 0.99 + 0.25 * 0.02 + 0.5 * 0.99;
  EXPECT_NEAR(solved.posterior("F", "+/e"), 0.25 * 0.02 / whole, 1e-15);
  EXPECT_NEAR(solved.posterior("F", "+/f"), 0.5 * 0.99 / whole, 1e-15);
}

// Worst case in use: sixteen alleles, 136 genotypes, over three generations; probabilities sum to 1
// and an allele of frequency 1/32 is carried once with 2 x 1/32 x 31/32 in each generation.
TEST(AllelicSeries, LongSeriesKeepsItsFrequencies) {
  auto model = support::recessive_model();
  model.markers.clear();
  model.assays.clear();
  model.loci[0].alleles = {"+"};
  model.loci[0].appearance.clear();
  model.origins[0].frequencies = {{"tarnbrook", {}}};
  for (int a = 1; a < 16; ++a) {
    std::string allele = "a";
    allele += std::to_string(a);
    model.loci[0].alleles.push_back(allele);
    model.origins[0].frequencies[0].second.emplace_back(allele, 1.0 / 32);
  }
  RecordsBuilder records;
  for (const char* id : {"A", "B", "C", "D"}) records.founder(id, std::nullopt, "bought");
  records.clutch("1", "A", {"B"}).hatchling("E", "1").clutch("2", "C", {"D"}).hatchling("F", "2");
  records.clutch("3", "E", {"F"}).hatchling("G", "3").shows("G", "tarnbrook", "plain");
  const SolvedColony solved(model, records);
  for (const char* id : {"A", "E", "G"}) {
    double sum = 0;
    for (const double p : solved.at(id).posterior) sum += p;
    EXPECT_NEAR(sum, 1, 1e-12) << id;
    EXPECT_NEAR(solved.at(id).het[6].mean, 2.0 / 32 * 31 / 32, 1e-13) << id;
  }
}

}  // namespace
}  // namespace likelihet::odds::allelic_series_test
