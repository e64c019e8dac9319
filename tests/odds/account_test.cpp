// Accounts, histories, surprises, contradictions and intervals on colonies small enough to work by
// hand.
#include <cmath>
#include <memory>

#include <boost/math/distributions/beta.hpp>
#include <gtest/gtest.h>

#include <likelihet/documents/colony_document.hpp>
#include <likelihet/documents/model_document.hpp>
#include <likelihet/odds/odds.hpp>
#include <likelihet/odds/percent.hpp>
#include <likelihet/odds/why.hpp>
#include <likelihet/odds/words.hpp>

namespace likelihet::odds::account_test {
namespace {

// One recessive locus; a sure dam and a visual sire's kind of cross are set by each test.
constexpr const char* model_text = R"({"format":"likelihet-model","version":1,"loci":[
  {"id":"tarnbrook","alleles":["+","e"],"appearance":{"default":"plain","e/e":"tarnbrook"}}],
  "markers":[{"id":"fleck","levels":["absent","strong"],"rows":[
    {"at":{"tarnbrook":"+/e"},"expect":[0.25,0.75],"worth":8},{"at":{},"expect":[0.75,0.25],"worth":8}]}],
  "assays":[{"id":"pcr","locus":"tarnbrook","reports":["clear","carrier","affected"],"mix_up":0.0,"rows":[
    {"at":"+/+","expect":[0.998,0.001,0.001]},{"at":"+/e","expect":[0.001,0.998,0.001]},
    {"at":"e/e","expect":[0.001,0.001,0.998]}]}]})";

// D is half a carrier and half not, S is clear, H and I are theirs.
constexpr const char* animals = R"({"format":"likelihet-colony","version":1,"animals":[
  {"id":"D","bought_as":[{"locus":"tarnbrook","odds":{"+/+":0.5,"+/e":0.5},"trust":1.0}]},
  {"id":"S"},{"id":"H","clutch":"C"},{"id":"I","clutch":"C"}],
  "clutches":[{"id":"C","dam":"D","sires":[{"id":"S"}]}],"observations":[)";

colony::Colony herd(const std::string& observations) {
  auto model =
      colony::Model::make(std::get<colony::ModelDescription>(documents::read_model(model_text)));
  auto records = documents::read_colony(std::string(animals) + observations + "]}");
  auto made = colony::Colony::make(
      std::make_shared<const colony::Model>(std::get<colony::Model>(std::move(model))),
      std::get<colony::Records>(records));
  return std::get<colony::Colony>(std::move(made));
}

const char* three_records = R"(
  {"id":"o1","kind":"score","animal":"H","marker":"fleck","level":"strong","on":"2025-01-02"},
  {"id":"o2","kind":"result","animal":"I","assay":"pcr","report":"carrier","on":"2025-01-03"},
  {"id":"o3","kind":"result","animal":"H","assay":"pcr","report":"clear","on":"2025-01-04"})";

// P(H het) = 1/4 at first; the marker's factor is 0.75/0.25 = 3, so odds 1:3 become 1:1.
TEST(Why, FactorsMultiplyToThePosterior) {
  const auto colony = herd(three_records);
  const auto outcome = why(colony, {*colony.find_animal("H"), 0, 1}, {});
  const auto& account = std::get<Account>(outcome);
  ASSERT_EQ(account.steps.size(), 3U);
  EXPECT_NEAR(account.start, 0.25, 1e-15);
  EXPECT_TRUE(account.steps[0].own);
  EXPECT_NEAR(account.steps[0].factor, 3, 1e-12);
  EXPECT_NEAR(account.steps[0].decibans, 10 * std::log10(3.0), 1e-12);
  EXPECT_FALSE(account.steps[1].own);
  EXPECT_NEAR(account.steps[2].factor, 0.001 / 0.998, 1e-12);
  double odds = account.start / (1 - account.start);
  for (const Step& step : account.steps) odds *= step.factor;
  const auto all = compute(colony, {});
  const double posterior = std::get<ColonyOdds>(all).animals[2].loci[0].het[0].mean;
  EXPECT_NEAR(odds / (1 + odds), posterior, 1e-14);
  EXPECT_NEAR(account.end, posterior, 1e-14);
}

TEST(History, HasAMomentForEachDayThatBearsOnTheAnimal) {
  const auto colony = herd(three_records);
  const auto outcome = history(colony, *colony.find_animal("H"), {});
  const auto& moments = std::get<std::vector<Moment>>(outcome);
  ASSERT_EQ(moments.size(), 4U);
  EXPECT_FALSE(moments[0].day.has_value());
  EXPECT_NEAR(moments[1].odds.loci[0].het[0].mean, 0.5, 1e-12);
  for (std::size_t i = 1; i < moments.size(); ++i) {
    Options then;
    then.as_of = moments[i].day;
    const auto odds = compute(colony, then);
    EXPECT_NEAR(moments[i].odds.loci[0].het[0].mean,
                std::get<ColonyOdds>(odds).animals[2].loci[0].het[0].mean, 1e-14);
  }
}

// S is clear for certain, so a result that he carries has only the test's error behind it: 0.001.
TEST(Surprises, ProbabilityIsThatOfTheRecordGivenTheRest) {
  const auto colony = herd(
      R"({"id":"o1","kind":"result","animal":"S","assay":"pcr","report":"carrier","on":"2025-01-03"})");
  const auto outcome = compute(colony, {});
  const auto& surprises = std::get<ColonyOdds>(outcome).surprises;
  ASSERT_EQ(surprises.size(), 1U);
  EXPECT_NEAR(surprises[0].probability, 0.001, 1e-15);
  double shares = 0;
  for (const Reason& reason : surprises[0].reasons) shares += reason.share;
  EXPECT_NEAR(shares, 1, 1e-3);
  ASSERT_FALSE(surprises[0].reasons.empty());
  EXPECT_EQ(surprises[0].reasons[0].code, "test-erred");
}

// D's "carrier" had 0.4995 and more beforehand; plain animals are expected.
TEST(Surprises, ExpectedRecordsAreNone) {
  const auto colony =
      herd(R"({"id":"o1","kind":"appearance","animal":"H","locus":"tarnbrook","shows":"plain"},
    {"id":"o2","kind":"result","animal":"D","assay":"pcr","report":"carrier"})");
  const auto outcome = compute(colony, {});
  EXPECT_TRUE(std::get<ColonyOdds>(outcome).surprises.empty());
}

// Nine reports of one copy leave less than 1e-24 for anything else: near to certain, yet no proof.
// Each is worth 0.998/0.001 against no copy, the only other genotype there is; the contrary one
// as much the other way.
TEST(Why, WhatIsNearlyCertainIsNotProved) {
  std::string results;
  for (int day = 10; day < 19; ++day) {
    results += R"({"id":"r)" + std::to_string(day) +
               R"(","kind":"result","animal":"H","assay":"pcr","report":"carrier","on":"2025-01-)" +
               std::to_string(day) + R"("},)";
  }
  results +=
      R"({"id":"z","kind":"result","animal":"H","assay":"pcr","report":"clear","on":"2025-01-20"})";
  const auto colony = herd(results);
  const auto outcome = why(colony, {*colony.find_animal("H"), 0, 1}, {});
  const auto& account = std::get<Account>(outcome);
  ASSERT_EQ(account.steps.size(), 10U);
  for (std::size_t i = 0; i < 9; ++i) EXPECT_NEAR(account.steps[i].factor, 998, 1e-9) << i;
  EXPECT_NEAR(account.steps[9].factor, 1 / 998.0, 1e-15);
  EXPECT_NEAR(account.own_decibans, 80 * std::log10(998.0), 1e-9);
}

// From the day on which records clash, the moment says so and keeps the odds before it.
TEST(History, MarksTheDayOfAContradiction) {
  const auto colony = herd(R"(
    {"id":"o1","kind":"appearance","animal":"H","locus":"tarnbrook","shows":"plain","on":"2025-01-02"},
    {"id":"o2","kind":"appearance","animal":"H","locus":"tarnbrook","shows":"tarnbrook","on":"2025-01-05"})");
  const auto outcome = history(colony, *colony.find_animal("H"), {});
  const auto& moments = std::get<std::vector<Moment>>(outcome);
  ASSERT_EQ(moments.size(), 3U);
  EXPECT_FALSE(moments[1].contradictory);
  EXPECT_TRUE(moments[2].contradictory);
  EXPECT_EQ(moments[2].odds.loci[0].posterior, moments[1].odds.loci[0].posterior);
}

TEST(Contradictions, NameTheOneRecordThatCannotBe) {
  const auto colony =
      herd(R"({"id":"o1","kind":"appearance","animal":"I","locus":"tarnbrook","shows":"plain"},
    {"id":"o2","kind":"appearance","animal":"H","locus":"tarnbrook","shows":"tarnbrook"})");
  const auto outcome = compute(colony, {});
  const auto* clash = std::get_if<Contradiction>(&outcome);
  ASSERT_NE(clash, nullptr);
  ASSERT_EQ(clash->observations.size(), 1U);
  EXPECT_EQ(colony.observations()[clash->observations[0]].id, "o2");
  EXPECT_NE(clash->what.find("H: looks tarnbrook"), std::string::npos);
}

// With one marker on H alone: P = a/(a + 3b), a ~ Beta(6, 2), b ~ Beta(2, 6). The ends by
// integrating the distribution function over b with Boost.Math's beta: P(a <= 3 b t/(1 - t)).
TEST(Intervals, EndsAreQuantilesOfTheExactDistribution) {
  const auto colony =
      herd(R"({"id":"o1","kind":"score","animal":"H","marker":"fleck","level":"strong"})");
  Options options;
  options.draws = 20000;
  const auto outcome = compute(colony, options);
  const Het het = std::get<ColonyOdds>(outcome).animals[2].loci[0].het[0];
  EXPECT_NEAR(het.mean, 0.5, 1e-12);
  const boost::math::beta_distribution<double> a(6, 2);
  const boost::math::beta_distribution<double> b(2, 6);
  const auto below = [&](double t) {
    constexpr int steps = 4000;
    double sum = 0;
    for (int i = 0; i < steps; ++i) {
      const double u = boost::math::quantile(b, (i + 0.5) / steps);
      sum += boost::math::cdf(a, std::min(1.0, 3 * u * t / (1 - t)));
    }
    return sum / steps;
  };
  // 4 standard errors of a tail of 0.025 in 20,000 draws.
  const double error = 4 * std::sqrt(0.025 * 0.975 / options.draws);
  EXPECT_NEAR(below(het.low), 0.025, error);
  EXPECT_NEAR(below(het.high), 0.975, error);
}

TEST(Intervals, SameSeedSameEndsAndNoDrawsNoWidth) {
  const auto colony = herd(three_records);
  const auto one = compute(colony, {});
  const auto two = compute(colony, {});
  EXPECT_EQ(std::get<ColonyOdds>(one).animals[2].loci[0].het[0].low,
            std::get<ColonyOdds>(two).animals[2].loci[0].het[0].low);
  Options none;
  none.draws = 0;
  const auto flat = compute(colony, none);
  const Het het = std::get<ColonyOdds>(flat).animals[2].loci[0].het[0];
  EXPECT_EQ(het.low, het.mean);
  EXPECT_EQ(het.high, het.mean);
}

TEST(Words, PercentNeverReachesCertaintyByRounding) {
  EXPECT_EQ(percent(0), "0 %");
  EXPECT_EQ(percent(1), "100 %");
  EXPECT_EQ(percent(0.6667), "66.7 %");
  for (double p : {1e-9, 1e-5, 0.0004, 0.9996, 0.999999, 1 - 1e-12}) {
    EXPECT_NE(percent(p), "0 %") << p;
    EXPECT_NE(percent(p), "100 %") << p;
    EXPECT_NE(percent(p), "100.0 %") << p;
  }
}

}  // namespace
}  // namespace likelihet::odds::account_test
