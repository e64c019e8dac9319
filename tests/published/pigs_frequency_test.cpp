// The pigs' pedigree with an allele frequency that nobody knows, learned and averaged over.
//
// Source: as bugs_pigs_test.cpp. The example gives the frequency a uniform prior and prints Ian's
// chances .5717, .3685 and .05981 and the frequency's mean .6258 and deviation .1608, all averages
// of a simulation; the exact fractions were recomputed by enumeration.
#include <cmath>

#include "published/worked_colony.hpp"
#include <gtest/gtest.h>

#include <likelihet/learning/learn.hpp>

namespace likelihet::published::pigs_frequency_test {
namespace {

// Uniform is Beta(1, 1): two alleles' worth of one half.
colony::Colony pigs() {
  Json model = recessive_model(0.5);
  model["origins"][0]["worth"] = 2;
  WorkedColony colony(model);
  colony.founder("Ann").founder("Brian").founder("Eric").founder("Henry");
  colony.young({"Clare", "Diane"}, "Ann", "Brian");
  colony.young({"Fred", "Gene"}, "Diane", "Eric");
  colony.child("Jane", "Gene", "Henry").child("Ian", "Clare", "Fred");
  for (const char* id : {"Ann", "Brian", "Clare", "Diane", "Eric", "Fred", "Gene", "Henry"}) {
    colony.shows(id, "clear");
  }
  return colony.shows("Jane", "affected").colony();
}

TEST(PigsWithUnknownFrequency, FrequencyAndIanAreThePrintedOnes) {
  const colony::Colony colony = pigs();
  learning::Settings settings;
  settings.draws = 40'000;
  settings.most_sweeps = 80'000;
  settings.kept = 100'000;
  const auto outcome = learning::learn(colony, settings);
  const auto& learned = std::get<learning::Learned>(outcome);
  EXPECT_TRUE(learned.converged);
  // The frequency of "+", the last but one number.
  double mean = 0;
  double square = 0;
  for (const auto& draw : learned.draws) {
    mean += draw.origins[0][0][0];
    square += draw.origins[0][0][0] * draw.origins[0][0][0];
  }
  mean /= static_cast<double>(learned.draws.size());
  square /= static_cast<double>(learned.draws.size());
  // 100,000 draws leave an error of about .0006 in the mean.
  EXPECT_NEAR(mean, 122.0 / 195, 0.003);
  EXPECT_NEAR(std::sqrt(square - mean * mean), 0.16069450607989916, 0.003);

  odds::Options options;
  options.learned = &learned.draws;
  options.surprises = false;
  const auto odds = std::get<odds::ColonyOdds>(odds::compute(colony, options));
  const auto& ian = odds.animals[*colony.find_animal("Ian")].loci[0].posterior;
  // The draws' average of exact chances: its error is far below that of drawn genotypes.
  EXPECT_NEAR(ian[0], 223.0 / 390, 0.0006);
  EXPECT_NEAR(ian[1], 287.0 / 780, 0.0006);
  EXPECT_NEAR(ian[2], 47.0 / 780, 0.0003);
  EXPECT_NEAR(ian[0], .5717, 0.0008);
  EXPECT_NEAR(ian[2], .05981, 0.0008);
}

}  // namespace
}  // namespace likelihet::published::pigs_frequency_test
