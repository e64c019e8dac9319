// Residual carrier risk after a test that finds nothing.
//
// Sources. Population: the standard residual risk of a recessive disease with carrier frequency
// 1/25 and a test that detects 90 %, printed as 1 in 241 (rounded to 1/240 by laboratories); inputs
// and printed results were read in a teaching text and in a quoted laboratory report. Sibling of an
// affected child: Ogino and Wilson (2004, Journal of Molecular Diagnostics 6); Young, Introduction
// to Risk Calculation. From memory (1/6 at 90 %), the table by exact arithmetic.
#include <utility>
#include <vector>

#include "published/worked_colony.hpp"
#include <gtest/gtest.h>

namespace likelihet::published::negative_carrier_test_test {
namespace {

// A test that finds a carrier with probability `detection` and never finds what is not there.
Json with_test(Json model, double detection, const std::vector<std::string>& keys,
               const std::vector<double>& found) {
  std::vector<std::vector<double>> rows;
  for (double p : found) rows.push_back({1 - p * detection, p * detection});
  add_assay(model, "screen", {"negative", "positive"}, keys, rows);
  return model;
}

TEST(NegativeCarrierTest, PopulationRiskFallsTo1In241) {
  // Two classes, carrier or not: the sex with one copy of a Z-linked locus has just two genotypes,
  // and the origin's frequency is that of carriers.
  WorkedColony colony(with_test(recessive_model(1.0 / 25, "Z"), 0.9,
                                {"+/+", "+/a", "a/a", "+/W", "a/W"}, {0, 1, 1, 0, 1}));
  colony.founder("person").sex("person", "female").result("person", "screen", "negative");
  const Answer answer = colony.solve();
  EXPECT_NEAR(answer.pedigree("person", "a/W"), 1.0 / 25, 1e-12);
  EXPECT_NEAR(answer.posterior("person", "a/W"), 1.0 / 241, 1e-12);
  EXPECT_NEAR(1 / answer.posterior("person", "a/W"), 241, half_unit(0));
}

TEST(NegativeCarrierTest, PopulationRiskAsAClaim) {
  WorkedColony colony(with_test(recessive_model(), 0.9, {"+/+", "+/a", "a/a"}, {0, 1, 1}));
  colony.founder("person", either("+/a", 1.0 / 25, "+/+"));
  const Answer answer = colony.result("person", "screen", "negative").solve();
  EXPECT_NEAR(answer.posterior("person", "+/a"), 1.0 / 241, 1e-12);
  EXPECT_NEAR(answer.log_evidence(), std::log(24.0 / 25 + 0.1 / 25), 1e-12);
}

TEST(NegativeCarrierTest, SiblingOfAnAffectedChild) {
  const std::vector<std::pair<double, double>> table = {{0.70, 3. / 8},  {0.80, 2. / 7},
                                                        {0.85, 3. / 13}, {0.90, 1. / 6},
                                                        {0.95, 1. / 11}, {0.99, 1. / 51}};
  for (const auto& [detection, expected] : table) {
    WorkedColony colony(
        with_test(recessive_model(0.05), detection, {"+/+", "+/a", "a/a"}, {0, 1, 1}));
    colony.founder("mother").founder("father").young({"affected", "sib"}, "mother", "father");
    colony.shows("mother", "clear").shows("father", "clear");
    colony.shows("affected", "affected").shows("sib", "clear");
    const Answer answer = colony.result("sib", "screen", "negative").solve();
    EXPECT_NEAR(answer.pedigree("sib", "+/a"), 2.0 / 3, 1e-12);
    EXPECT_NEAR(answer.posterior("sib", "+/a"), expected, 1e-12) << detection;
  }
}

}  // namespace
}  // namespace likelihet::published::negative_carrier_test_test
