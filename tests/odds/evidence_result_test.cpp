// Laboratory reports as likelihoods: rows, mix-ups, and what one report does to a chance.
#include <cmath>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>
#include <support/random_row.hpp>
#include <support/solved_colony.hpp>

#include <likelihet/odds/evidence_result.hpp>

namespace likelihet::odds::evidence_result_test {
namespace {

using support::RecordsBuilder;
using support::SolvedColony;

colony::Assay assay_of(std::vector<std::vector<double>> expect, double mix_up) {
  colony::Assay assay;
  assay.id = "shed-pcr";
  assay.expect = std::move(expect);
  assay.reports.assign(assay.expect.front().size(), "report");
  assay.mix_up = mix_up;
  return assay;
}

// Rows 0.98, 0.10, 0.01 for the first report: their average is 1.09/3. With 3 % of samples mixed
// up: 0.97 x row + 0.03 x 1.09/3 = 0.97 x row + 0.0109.
TEST(ResultLikelihood, MixesInThePlainAverageOfTheRows) {
  const auto assay = assay_of({{0.98, 0.02}, {0.10, 0.90}, {0.01, 0.99}}, 0.03);
  const auto likelihood = result_likelihood(assay, 0);
  ASSERT_EQ(likelihood.size(), 3U);
  EXPECT_NEAR(likelihood[0], 0.9615, 1e-15);
  EXPECT_NEAR(likelihood[1], 0.1079, 1e-15);
  EXPECT_NEAR(likelihood[2], 0.0206, 1e-15);
}

TEST(ResultLikelihood, IsTheRowWhereNoSampleIsMixedUp) {
  const auto assay = assay_of({{1.0, 0.0}, {0.25, 0.75}}, 0);
  EXPECT_EQ(result_likelihood(assay, 1), (std::vector<double>{0.0, 0.75}));
}

TEST(ResultLikelihood, SaysNothingWhereEverySampleIsMixedUp) {
  const auto likelihood = result_likelihood(assay_of({{1.0, 0.0}, {0.0, 1.0}}, 1), 0);
  EXPECT_EQ(likelihood, (std::vector<double>{0.5, 0.5}));
}

// A report that no row ever gives can't be: zero for every genotype.
TEST(ResultLikelihood, IsZeroForAReportThatIsNeverGiven) {
  EXPECT_EQ(result_likelihood(assay_of({{1.0, 0.0}, {1.0, 0.0}}, 0.1), 1),
            (std::vector<double>{0.0, 0.0}));
}

RC_GTEST_PROP(ResultLikelihoodProperty, IsADistributionOfReports, ()) {
  const auto genotypes = *rc::gen::inRange<std::size_t>(2, 7);
  const auto reports = *rc::gen::inRange<std::size_t>(2, 5);
  std::vector<std::vector<double>> expect;
  for (std::size_t g = 0; g < genotypes; ++g) {
    expect.push_back(support::random_row(reports));
  }
  const auto assay = assay_of(expect, *rc::gen::inRange(0, 101) / 100.0);
  std::vector<double> sums(genotypes, 0.0);
  for (std::size_t report = 0; report < reports; ++report) {
    const auto likelihood = result_likelihood(assay, report);
    for (std::size_t g = 0; g < genotypes; ++g) sums[g] += likelihood[g];
  }
  for (const double sum : sums) RC_ASSERT(std::abs(sum - 1) < 1e-12);
}

// Any mix-up pulls the genotypes' likelihoods together, never apart.
RC_GTEST_PROP(ResultLikelihoodProperty, ShrinksWithMixUps, ()) {
  const std::vector<std::vector<double>> expect = {support::random_row(2), support::random_row(2)};
  const double mix_up = *rc::gen::inRange(0, 101) / 100.0;
  const auto clean = result_likelihood(assay_of(expect, 0), 0);
  const auto mixed = result_likelihood(assay_of(expect, mix_up), 0);
  RC_ASSERT(std::abs(std::abs(mixed[0] - mixed[1]) - (1 - mix_up) * std::abs(clean[0] - clean[1])) <
            1e-12);
}

// A test that finds 97.5 % of hets and calls 0.5 % of others hets.
colony::ModelDescription tested() {
  auto model = support::recessive_model();
  model.assays[0].reports = {"0 copies", "1 copy"};
  model.assays[0].rows = {{"+/+", {0.995, 0.005}}, {"+/e", {0.025, 0.975}}, {"e/e", {0.5, 0.5}}};
  model.assays[0].mix_up = 0;
  return model;
}

double after(double carrier, const std::string& report) {
  RecordsBuilder records;
  records.founder("F").bought_as("tarnbrook", {{"+/+", 1 - carrier}, {"+/e", carrier}});
  records.result("F", "shed-pcr", report);
  return SolvedColony(tested(), records).posterior("F", "+/e");
}

// Bayes' rule: p x 0.025 / (p x 0.025 + (1 - p) x 0.995), and the same with 0.975 and 0.005.
TEST(Result, MovesAChanceAsBayesRuleSays) {
  EXPECT_NEAR(after(2.0 / 3, "0 copies"), 0.05 / (0.05 + 0.995), 1e-14);     // 4.8 %
  EXPECT_NEAR(after(0.5, "0 copies"), 0.025 / 1.02, 1e-14);                  // 2.5 %
  EXPECT_NEAR(after(2.0 / 3, "1 copy"), 1.95 / 1.955, 1e-14);                // 99.7 %
  EXPECT_NEAR(after(0.05, "1 copy"), 0.04875 / (0.04875 + 0.00475), 1e-14);  // 91 %
}

// Two samples are two independent looks: odds 1 : 1 x (0.025/0.995)^2.
TEST(Result, RepeatedIsIndependentEvidence) {
  RecordsBuilder records;
  records.founder("F").bought_as("tarnbrook", {{"+/+", 0.5}, {"+/e", 0.5}});
  records.result("F", "shed-pcr", "0 copies").result("F", "shed-pcr", "0 copies");
  const double odds = (0.025 / 0.995) * (0.025 / 0.995);
  EXPECT_NEAR(SolvedColony(tested(), records).posterior("F", "+/e"), odds / (1 + odds), 1e-14);
}

// Results count in the last layer alone.
TEST(Result, IsNoPartOfTheLayersBefore) {
  RecordsBuilder records;
  records.founder("F").bought_as("tarnbrook", {{"+/+", 0.5}, {"+/e", 0.5}});
  records.result("F", "shed-pcr", "1 copy");
  const SolvedColony solved(tested(), records);
  EXPECT_NEAR(solved.pedigree("F", "+/e"), 0.5, 1e-15);
  EXPECT_NEAR(solved.scored("F", "+/e"), 0.5, 1e-15);
  EXPECT_NEAR(solved.odds().log_evidence, std::log(0.49), 1e-14);  // (0.975 + 0.005)/2
}

// An animal that can be nothing else is not moved by any report that can err.
TEST(Result, CannotMoveWhatIsCertain) {
  EXPECT_EQ(after(1.0, "0 copies"), 1.0);
  EXPECT_EQ(after(0.0, "1 copy"), 0.0);
}

// 400 reports against an animal, each of odds 1/39.8: P near 1e-640 beyond a double's reach, yet
// odds come out, and so does ln P(reports).
TEST(Result, HundredsOfReportsDoNotUnderflow) {
  RecordsBuilder records;
  records.founder("F").bought_as("tarnbrook", {{"+/e", 1.0}});
  for (int i = 0; i < 400; ++i) records.result("F", "shed-pcr", "0 copies");
  const SolvedColony solved(tested(), records);
  EXPECT_EQ(solved.posterior("F", "+/e"), 1.0);
  EXPECT_NEAR(solved.odds().log_evidence, 400 * std::log(0.025), 1e-8);
}

}  // namespace
}  // namespace likelihet::odds::evidence_result_test
