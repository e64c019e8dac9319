// Markers that share a strength of expression: against quadrature, and where they are one and the
// same marker.
#include <cmath>

#include "learning/learning_colony.hpp"
#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <boost/math/special_functions/erf.hpp>

#include <likelihet/inference/random_bits.hpp>
#include <likelihet/learning/clutch_left_out.hpp>
#include <likelihet/learning/learn.hpp>
#include <likelihet/learning/levels_together.hpp>
#include <likelihet/learning/maximum.hpp>
#include <likelihet/learning/simulate.hpp>
#include <likelihet/learning/together_factors.hpp>
#include <likelihet/odds/strength.hpp>

namespace likelihet::learning::together_test {
namespace {

using support::RecordsBuilder;

// recessive_model() with a second marker, "side-thread", and both in one group.
colony::ModelDescription model(double worth = 8) {
  auto description = support::recessive_model();
  description.origins = {{"bought", {{"tarnbrook", {{"e", 0.35}}}}, 8.0}};
  auto second = support::crown_fleck();
  second.id = "side-thread";
  second.levels = {"absent", "there"};
  second.rows = {{{{"tarnbrook", "+/e"}}, {0.4, 0.6}, worth}, {{}, {0.7, 0.3}, worth}};
  for (auto& row : description.markers[0].rows) row.worth = worth;
  description.markers.push_back(second);
  description.together = {{"pattern", {"crown-fleck", "side-thread"}, std::nullopt, std::nullopt}};
  return description;
}

// Three clutches of one pair, each hatchling read for both markers, some tested.
RecordsBuilder clutches(int hatchlings) {
  RecordsBuilder records;
  records.founder("A", genetics::Sex::female, "bought").founder("B", genetics::Sex::male, "bought");
  for (const char* clutch : {"C1", "C2", "C3"}) records.clutch(clutch, "A", {"B"});
  for (int i = 0; i < hatchlings; ++i) {
    const std::string id = "H" + std::to_string(i);
    records.hatchling(id, "C" + std::to_string(1 + i % 3));
    records.score(id, "crown-fleck", "strong").score(id, "side-thread", "there");
    if (i % 2 == 0) records.result(id, "shed-pcr", "clear");
  }
  return records;
}

// P(level >= `from` of a row whose levels from there have chance `above`) at strength t.
double at_least(double above, double loading, double t) {
  const double quantile = std::sqrt(2.0) * boost::math::erfc_inv(2 * above);  // Φ⁻¹(1 - above)
  return 0.5 *
         std::erfc(std::sqrt(0.5) * (std::sqrt(1 + loading * loading) * quantile - loading * t));
}

// Both markers at their highest levels.
double both(double first, double second, double a, double b) {
  const auto integrand = [&](double t) {
    return at_least(first, a, t) * at_least(second, b, t) * std::exp(-0.5 * t * t) /
           std::sqrt(2 * 3.14159265358979323846);
  };
  return boost::math::quadrature::gauss_kronrod<double, 61>::integrate(integrand, -12.0, 12.0, 12,
                                                                       1e-14);
}

// Against adaptive quadrature of Boost.Math, a founder scored clear and there.
TEST(Together, OddsAreThoseOfTheIntegral) {
  RecordsBuilder records;
  records.founder("F", std::nullopt, "bought").score("F", "crown-fleck", "strong");
  records.score("F", "side-thread", "there");
  const Ready ready(model(), records.records);
  odds::Tables tables = ready.believed();
  for (const auto& [a, b] : {std::pair(0.0, 0.0), {0.5, 1.2}, {1.5, 1.5}}) {
    tables.loadings = {{a, b}};
    const auto values = ready.prepared().net.values(odds::Layer::posterior, tables);
    const auto beliefs = inference::infer(*ready.prepared().plan, values);
    const auto found = odds::genotype_odds(ready.prepared(), beliefs, 0, 0);
    std::vector<double> expected = {0.65 * 0.65 * both(0.05, 0.3, a, b),
                                    2 * 0.65 * 0.35 * both(0.4, 0.6, a, b),
                                    0.35 * 0.35 * both(0.5, 0.3, a, b)};
    const double whole = expected[0] + expected[1] + expected[2];
    for (std::size_t g = 0; g < 3; ++g) EXPECT_NEAR(found[g], expected[g] / whole, 1e-9) << a;
    EXPECT_NEAR(std::log(whole), beliefs.log_evidence, 1e-9);
  }
}

TEST(Together, BeliefIsTheProduct) {
  const RecordsBuilder records = clutches(12);
  auto apart = model();
  apart.together.clear();
  const Ready grouped(model(), records.records);
  const Ready alone(apart, records.records);
  const auto belief = [](const Ready& ready, std::size_t animal) {
    const auto values = ready.prepared().net.values(odds::Layer::posterior, ready.believed());
    return odds::genotype_odds(ready.prepared(), inference::infer(*ready.prepared().plan, values),
                               animal, 0);
  };
  for (std::size_t animal = 0; animal < grouped.colony().animals().size(); ++animal) {
    const auto one = belief(grouped, animal);
    const auto other = belief(alone, animal);
    for (std::size_t g = 0; g < one.size(); ++g) EXPECT_NEAR(one[g], other[g], 1e-14);
  }
}

// A weight below 1 already discounts what a marker repeats.
TEST(Together, AMarkOfLowWeightKeepsOut) {
  auto description = model();
  description.markers[1].weight = 0.5;
  const Ready ready(description, clutches(4).records);
  EXPECT_FALSE(open_group(ready.model(), 0));
  for (const auto& scored : ready.prepared().net.scored()) {
    EXPECT_EQ(ready.prepared().net.term(scored.term).scores.size(), 1U);
  }
}

TEST(Together, ClimbsNeverGoDown) {
  const Ready like(model(), clutches(60).records);
  const auto book = std::get<Simulated>(simulate(like.colony(), clutches(60).records, 11));
  const Ready ready(model(), book.records);
  Expecting expecting(ready.prepared(), ready.model());
  inference::RandomBits random(5);
  for (int start = 0; start < 3; ++start) {
    const auto end = climb(expecting, ready.model(),
                           off_the_saddle(ready.model(), drawn_belief(ready.model(), random)));
    ASSERT_TRUE(end && end->converged);
    for (std::size_t i = 1; i < end->trace.size(); ++i) {
      EXPECT_GE(end->trace[i], end->trace[i - 1] - 1e-9) << "step " << i;
    }
  }
}

// No small step from the mode is uphill in the evidence itself, the loadings among them.
TEST(Together, TheModeIsAPeakOfTheEvidence) {
  const Ready like(model(), clutches(60).records);
  const auto book = std::get<Simulated>(simulate(like.colony(), clutches(60).records, 4));
  const Ready ready(model(), book.records);
  Expecting expecting(ready.prepared(), ready.model());
  const auto end = climb(expecting, ready.model(), off_the_saddle(ready.model(), ready.believed()));
  ASSERT_TRUE(end && end->converged);
  const Counts prior = prior_counts(ready.model());
  const auto height = [&](const odds::Tables& tables) {
    return expecting.at(tables)->log_evidence + log_prior(prior, ready.model(), tables);
  };
  const double top = height(end->tables);
  for (double step : {1e-3, -1e-3}) {
    odds::Tables beside = end->tables;
    beside.loadings[0][0] = std::max(0.0, beside.loadings[0][0] + step);
    EXPECT_LE(height(beside), top + 1e-10);
    for (std::size_t row = 0; row < 2; ++row) {
      beside = end->tables;
      auto& of = beside.rows[1][0][row];
      of[0] += step * of[0] * of[1];
      of[1] = 1 - of[0];
      EXPECT_LE(height(beside), top + 1e-10);
    }
  }
}

// Sixty animals all read clear and there, and rows that start where neither is ever seen. As long
// as the markers are thought to come together, a better row for one of them alone helps little.
TEST(Together, RowsComeBackFromAfar) {
  const Ready ready(model(), clutches(4).records);
  LevelsTogether seen;
  Counts counts(ready.model());
  for (int animal = 0; animal < 60; ++animal) {
    seen.add({{0, 0, 0, 2}, {1, 0, 0, 1}});
    counts.rows[0][0][0][2] += 1;
    counts.rows[1][0][0][1] += 1;
  }
  odds::Tables tables = ready.believed();
  tables.rows[0][0][0] = {0.98, 0.01, 0.01};
  tables.rows[1][0][0] = {0.99, 0.01};
  tables.loadings = {{2.5, 2.5}};
  inference::RandomBits random(9);
  double mean = 0;
  constexpr int sweeps = 2'000;
  for (int sweep = 0; sweep < sweeps; ++sweep) {
    odds::Tables next = tables;
    seen.move(ready.model(), ready.prepared().net.strengths(), prior_counts(ready.model()), counts,
              tables, next, random);
    tables = std::move(next);
    if (sweep >= sweeps / 2) mean += tables.rows[1][0][0][1] / (sweeps - sweeps / 2);
  }
  // Were the markers independent: (60 + 8 x 0.6)/(60 + 8).
  EXPECT_NEAR(mean, 64.8 / 68, 0.05);
}

// Books in which both markers follow the strength closely: learning finds that, and what they say
// together is less than their product.
TEST(Together, RepeatingMarkersAreFound) {
  auto description = model(30);
  const Ready like(description, clutches(240).records);
  // The first simulated book whose loadings are both large.
  for (std::uint64_t seed = 1; seed < 400; ++seed) {
    const auto book = std::get<Simulated>(simulate(like.colony(), clutches(240).records, seed));
    const auto& loadings = book.tables.loadings[0];
    if (std::min(loadings[0], loadings[1]) < 1.5) continue;
    const Ready ready(description, book.records);
    Settings settings;
    settings.draws = 400;
    settings.further_starts = 1;
    const Learned found = std::get<Learned>(learn(ready.colony(), settings));
    EXPECT_TRUE(found.converged);
    for (const Summary& one : found.summaries) {
      if (one.parameter.kind != Parameter::Kind::loading) continue;
      EXPECT_GT(one.low, 0.3);
      EXPECT_LT(one.low, loadings[one.parameter.entry]);
      EXPECT_GT(one.high, loadings[one.parameter.entry]);
    }
    const auto factor = together_factor(ready.model(), 0, found.draws);
    ASSERT_TRUE(factor);
    EXPECT_LT(factor->together.median, factor->product.median);
    ASSERT_TRUE(found.left_out);
    EXPECT_EQ(found.left_out->clutches, 3U);
    EXPECT_GT(found.left_out->gain, 3 * found.left_out->standard_error);
    return;
  }
  FAIL() << "no book with large loadings";
}

// The worst case: one marker under two names. The loadings are as large as belief lets them be, and
// every figure is finite.
TEST(Together, TwoNamesOfOneMarker) {
  auto description = model();
  description.markers[1] = description.markers[0];
  description.markers[1].id = "side-thread";
  RecordsBuilder records = clutches(0);
  const char* levels[3] = {"absent", "faint", "strong"};
  for (int i = 0; i < 60; ++i) {
    const std::string id = "H" + std::to_string(i);
    records.hatchling(id, "C" + std::to_string(1 + i % 3));
    records.score(id, "crown-fleck", levels[i % 3]).score(id, "side-thread", levels[i % 3]);
  }
  const Ready ready(description, records.records);
  Settings settings;
  settings.draws = 300;
  settings.most_sweeps = 1200;
  settings.further_starts = 1;
  const Learned found = std::get<Learned>(learn(ready.colony(), settings));
  for (const Summary& one : found.summaries) {
    EXPECT_TRUE(std::isfinite(one.mean) && std::isfinite(one.high));
    if (one.parameter.kind == Parameter::Kind::loading) {
      EXPECT_GT(one.mean, 1.5);
    }
  }
  const auto factor = together_factor(ready.model(), 0, found.draws);
  ASSERT_TRUE(factor);
  EXPECT_TRUE(std::isfinite(factor->together.high));
}

}  // namespace
}  // namespace likelihet::learning::together_test
