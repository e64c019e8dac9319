// Intervals: what widens them, what cannot, and draws at the edge of a double's reach.
#include <algorithm>
#include <cmath>
#include <string>

#include <boost/math/distributions/beta.hpp>
#include <gtest/gtest.h>
#include <support/solved_colony.hpp>

#include <likelihet/odds/odds.hpp>

namespace likelihet::odds::intervals_test {
namespace {

using support::RecordsBuilder;
using support::SolvedColony;

Options with_draws(unsigned draws, std::uint64_t seed = 1) {
  Options options = support::only_odds();
  options.draws = draws;
  options.seed = seed;
  return options;
}

Het het_of(const colony::ModelDescription& model, const RecordsBuilder& records,
           const Options& options = with_draws(1000), const std::string& animal = "F") {
  return SolvedColony(model, records, options).at(animal).het[0];
}

RecordsBuilder half_a_carrier() {
  RecordsBuilder records;
  records.founder("F").bought_as("tarnbrook", {{"+/+", 0.5}, {"+/e", 0.5}});
  return records;
}

// A locus of its own and one marker that reads it, of the worth given.
colony::ModelDescription marked(double worth, const std::vector<double>& hets = {0.4, 0.6},
                                const std::vector<double>& others = {0.7, 0.3}) {
  auto model = support::recessive_model();
  model.markers[0].levels = {"absent", "strong"};
  model.markers[0].rows = {{{{"tarnbrook", "+/e"}}, hets, worth}, {{}, others, worth}};
  return model;
}

TEST(Interval, HasNoWidthWhereNoBeliefPlaysAPart) {
  RecordsBuilder records = half_a_carrier();
  records.result("F", "shed-pcr", "carrier");
  const Het het = het_of(support::recessive_model(), records);
  EXPECT_EQ(het.low, het.mean);
  EXPECT_EQ(het.high, het.mean);
}

TEST(Interval, HoldsTheMeanAndStaysAmongProbabilities) {
  RecordsBuilder records = half_a_carrier();
  records.score("F", "crown-fleck", "strong");
  for (const double worth : {0.5, 2.0, 8.0, 1000.0}) {
    const Het het = het_of(marked(worth), records);
    EXPECT_NEAR(het.mean, 2.0 / 3, 1e-14) << "odds 0.6 / 0.3";
    EXPECT_LE(0, het.low);
    EXPECT_LT(het.low, het.mean);
    EXPECT_LT(het.mean, het.high);
    EXPECT_LE(het.high, 1);
  }
}

TEST(Interval, NarrowsWithWhatABeliefIsWorth) {
  RecordsBuilder records = half_a_carrier();
  records.score("F", "crown-fleck", "strong");
  double before = 1;
  for (const double worth : {1.0, 4.0, 16.0, 64.0, 256.0}) {
    const Het het = het_of(marked(worth), records, with_draws(4000));
    EXPECT_LT(het.high - het.low, before) << worth;
    before = het.high - het.low;
  }
  EXPECT_LT(before, 0.1);
}

// With a weight of 1/4 the same reading moves less, and so does what is not known of it.
TEST(Interval, NarrowsWithTheWeightOfAMark) {
  RecordsBuilder records = half_a_carrier();
  records.score("F", "crown-fleck", "strong");
  auto model = marked(8);
  const Het whole = het_of(model, records);
  model.markers[0].weight = 0.25;
  const Het part = het_of(model, records);
  EXPECT_LT(part.high - part.low, whole.high - whole.low);
  EXPECT_NEAR(part.mean / (1 - part.mean), std::pow(2.0, 0.25), 1e-13);
}

// A founder out of an origin of frequency q ~ Beta(20 x 0.1, 20 x 0.9) is a carrier with 2q(1 - q),
// which rises up to q = 1/2: the ends are those of q's own quantiles, but for the draws above 1/2
// (about 1e-4 of them). Four standard errors of a tail of 0.025 in 20,000 draws.
TEST(Interval, OfAFounderIsThatOfItsOriginsFrequency) {
  auto model = support::recessive_model();
  model.origins = {{"bought", {{"tarnbrook", {{"e", 0.1}}}}, 20.0}};
  RecordsBuilder records;
  records.founder("F", std::nullopt, "bought");
  const Het het = het_of(model, records, with_draws(20'000));
  EXPECT_NEAR(het.mean, 0.18, 1e-15);
  const boost::math::beta_distribution<double> frequency(2, 18);
  const auto below = [&](double carrier) {
    return boost::math::cdf(frequency, (1 - std::sqrt(1 - 2 * carrier)) / 2);
  };
  const double error = 4 * std::sqrt(0.025 * 0.975 / 20'000);
  EXPECT_NEAR(below(het.low), 0.025, error);
  EXPECT_NEAR(below(het.high), 0.975, error);
}

// An offspring of that founder and a clear partner is a carrier with q, as P(het)/2 + P(hom) says.
TEST(Interval, PassesDownThePedigree) {
  auto model = support::recessive_model();
  model.origins = {{"bought", {{"tarnbrook", {{"e", 0.1}}}}, 20.0}};
  RecordsBuilder records;
  records.founder("F", std::nullopt, "bought").founder("S");
  records.clutch("C", "F", {"S"}).hatchling("H", "C");
  const Het het = het_of(model, records, with_draws(20'000), "H");
  EXPECT_NEAR(het.mean, 0.1, 1e-15);
  const boost::math::beta_distribution<double> frequency(2, 18);
  const double error = 4 * std::sqrt(0.025 * 0.975 / 20'000);
  EXPECT_NEAR(boost::math::cdf(frequency, het.low), 0.025, error);
  EXPECT_NEAR(boost::math::cdf(frequency, het.high), 0.975, error);
}

TEST(Interval, OfWhatIsCertainHasNoWidth) {
  RecordsBuilder records;
  records.founder("F").bought_as("tarnbrook", {{"+/e", 1.0}}).score("F", "crown-fleck", "strong");
  const Het het = het_of(marked(1), records);
  EXPECT_EQ(het.low, 1.0);
  EXPECT_EQ(het.high, 1.0);
}

TEST(Interval, HangsOnTheSeedByChanceAlone) {
  RecordsBuilder records = half_a_carrier();
  records.score("F", "crown-fleck", "strong");
  const Het one = het_of(marked(8), records, with_draws(20'000, 1));
  const Het two = het_of(marked(8), records, with_draws(20'000, 2));
  EXPECT_NE(one.low, two.low);
  EXPECT_NEAR(one.low, two.low, 0.02);
  EXPECT_NEAR(one.high, two.high, 0.02);
}

// Type 7 of Hyndman and Fan (1996): one draw is both ends; of two, the ends are 2.5 % and 97.5 % of
// the way between them.
TEST(Interval, OfOneOrTwoDraws) {
  RecordsBuilder records = half_a_carrier();
  records.score("F", "crown-fleck", "strong");
  const Het first = het_of(marked(8), records, with_draws(1));
  EXPECT_EQ(first.low, first.high);
  const Het two = het_of(marked(8), records, with_draws(2));
  const double width = (two.high - two.low) / 0.95;
  const double least = two.low - 0.025 * width;
  const double most = least + width;
  EXPECT_LT(std::min(std::abs(least - first.low), std::abs(most - first.low)), 1e-12)
      << "the first draw is one of the two";
}

// Nine draws are one block of eight and one more.
TEST(Interval, LiesWithinThatOfMoreOfTheSameDraws) {
  RecordsBuilder records = half_a_carrier();
  records.score("F", "crown-fleck", "strong");
  const Het eight = het_of(marked(8), records, with_draws(8));
  const Het nine = het_of(marked(8), records, with_draws(9));
  EXPECT_NE(eight.low, nine.low);
  EXPECT_GT(nine.low, 0);
  EXPECT_LT(nine.high, 1);
}

// P(clear | no carrier) is believed near 1/1000 and worth one animal: its draws reach down to
// next to nothing, several of them multiply to less than a double holds, and yet nothing
// contradicts itself.
TEST(Interval, HoldsDrawsThatUnderflowTogether) {
  auto model = marked(1, {0.5, 0.5}, {0.999, 0.001});
  for (const char* id : {"tail-dot", "chin-bar", "side-thread"}) {
    model.markers.push_back(model.markers[0]);
    model.markers.back().id = id;
  }
  RecordsBuilder records;
  records.founder("F").founder("D").bought_as("tarnbrook", {{"+/+", 0.5}, {"+/e", 0.5}});
  records.clutch("C", "D", {}).hatchling("H", "C");
  for (const char* animal : {"F", "D", "H"}) {
    for (const auto& marker : model.markers) records.score(animal, marker.id, "strong");
  }
  const SolvedColony solved(model, records, with_draws(400));
  EXPECT_EQ(solved.at("F").het[0].low, 0.0);
  EXPECT_EQ(solved.at("F").het[0].high, 0.0);
  for (const char* animal : {"D", "H"}) {
    const Het het = solved.at(animal).het[0];
    EXPECT_GE(het.low, 0) << animal;
    EXPECT_LE(het.low, het.high) << animal;
    EXPECT_LE(het.high, 1) << animal;
    EXPECT_GT(het.high, 0.999) << animal;
  }
}

// Of an allelic series each allele but the first has an interval of its own.
TEST(Interval, IsGivenForEachAllele) {
  auto model = support::recessive_model();
  model.loci[0].alleles = {"+", "e", "f"};
  model.markers.clear();
  model.assays.clear();
  model.origins = {{"bought", {{"tarnbrook", {{"e", 0.1}, {"f", 0.2}}}}, 30.0}};
  RecordsBuilder records;
  records.founder("F", std::nullopt, "bought");
  const SolvedColony solved(model, records, with_draws(2000));
  const auto& het = solved.at("F").het;
  ASSERT_EQ(het.size(), 2U);
  EXPECT_NEAR(het[0].mean, 2 * 0.1 * 0.9, 1e-14);
  EXPECT_NEAR(het[1].mean, 2 * 0.2 * 0.8, 1e-14);
  for (const Het& one : het) {
    EXPECT_LT(one.low, one.mean);
    EXPECT_GT(one.high, one.mean);
  }
}

}  // namespace
}  // namespace likelihet::odds::intervals_test
