// Readings of a marker as likelihoods: levels, contexts, rows and weights on their own.
#include <algorithm>
#include <cmath>
#include <numeric>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>
#include <support/small_model.hpp>

#include <likelihet/odds/evidence_score.hpp>

namespace likelihet::odds::evidence_score_test {
namespace {

using Numbers = std::vector<double>;

void expect_near(const Numbers& found, const Numbers& expected, double tolerance = 1e-15) {
  ASSERT_EQ(found.size(), expected.size());
  for (std::size_t i = 0; i < found.size(); ++i) {
    EXPECT_NEAR(found[i], expected[i], tolerance) << "at " << i;
  }
}

// The definition in docs/method.md: r = sure where read, (1 - sure)/(levels - 1) elsewhere.
TEST(ReadingLikelihood, SpreadsTheDoubtEvenly) {
  expect_near(reading_likelihood(3, {{2, 0.9}}), {0.05, 0.05, 0.9});
  expect_near(reading_likelihood(2, {{0, 0.75}}), {0.75, 0.25});
  expect_near(reading_likelihood(5, {{1, 0.6}}), {0.1, 0.6, 0.1, 0.1, 0.1});
}

// Read twice at different levels with 0.8 and 0.6: 0.1 x 0.6, 0.1 x 0.2, 0.8 x 0.2.
TEST(ReadingLikelihood, MultipliesReadingsOfOneLevel) {
  expect_near(reading_likelihood(3, {{2, 0.8}, {0, 0.6}}), {0.06, 0.02, 0.16});
}

TEST(ReadingLikelihood, OfNoReadingSaysNothing) {
  expect_near(reading_likelihood(4, {}), {1, 1, 1, 1});
}

TEST(ReadingLikelihood, OfACertainReadingLeavesOneLevel) {
  expect_near(reading_likelihood(3, {{1, 1.0}}), {0, 1, 0});
  // Two certain readings that differ leave none: the records contradict each other.
  expect_near(reading_likelihood(3, {{1, 1.0}, {2, 1.0}}), {0, 0, 0});
}

// One in three is no better than a guess among three levels.
TEST(ReadingLikelihood, OfAGuessIsFlat) {
  const auto flat = reading_likelihood(3, {{0, 1.0 / 3}});
  EXPECT_NEAR(flat[0], flat[1], 1e-16);
  EXPECT_NEAR(flat[1], flat[2], 1e-16);
}

// 0: surely another level.
TEST(ReadingLikelihood, OfASurenessOfNothingRulesTheLevelOut) {
  expect_near(reading_likelihood(3, {{1, 0.0}}), {0.5, 0, 0.5});
}

RC_GTEST_PROP(ReadingLikelihoodProperty, DoesNotDependOnTheOrder, ()) {
  const auto levels = *rc::gen::inRange<std::size_t>(2, 6);
  std::vector<Reading> readings;
  for (const int percent : *rc::gen::container<std::vector<int>>(rc::gen::inRange(1, 100))) {
    readings.push_back({*rc::gen::inRange<std::size_t>(0, levels), percent / 100.0});
    if (readings.size() == 12) break;
  }
  const auto there = reading_likelihood(levels, readings);
  std::reverse(readings.begin(), readings.end());
  const auto back = reading_likelihood(levels, readings);
  for (std::size_t i = 0; i < levels; ++i) {
    RC_ASSERT(std::abs(there[i] - back[i]) <= 1e-14 * there[i]);
  }
}

// Beside the plain product, where that holds; ln of what was taken out puts it back.
RC_GTEST_PROP(ScaledReadingLikelihoodProperty, IsThePlainOneOverAFactor, ()) {
  const auto levels = *rc::gen::inRange<std::size_t>(2, 6);
  std::vector<Reading> readings;
  for (const int percent : *rc::gen::container<std::vector<int>>(rc::gen::inRange(0, 101))) {
    readings.push_back({*rc::gen::inRange<std::size_t>(0, levels), percent / 100.0});
    if (readings.size() == 40) break;
  }
  const auto plain = reading_likelihood(levels, readings);
  Numbers scaled;
  const double log_factor = scaled_reading_likelihood(levels, readings, scaled);
  double largest = 0;
  for (std::size_t l = 0; l < levels; ++l) {
    largest = std::max(largest, scaled[l]);
    RC_ASSERT(std::abs(scaled[l] * std::exp(log_factor) - plain[l]) <= 1e-12 * plain[l]);
  }
  RC_ASSERT(largest == 0 || (largest >= 0.5 && largest < 1));
}

// 2000 readings of each of two levels: both stay alike, the third is next to nothing, not nothing.
TEST(ScaledReadingLikelihood, HoldsThousandsThatDiffer) {
  std::vector<Reading> readings;
  for (int i = 0; i < 2000; ++i) readings.insert(readings.end(), {{1, 0.99}, {2, 0.99}});
  Numbers scaled;
  const double log_factor = scaled_reading_likelihood(3, readings, scaled);
  EXPECT_NEAR(scaled[1], scaled[2], 1e-12);
  EXPECT_GT(scaled[0], 0);
  EXPECT_LT(scaled[0], 1e-300);
  EXPECT_NEAR(log_factor + std::log(scaled[1]), 2000 * (std::log(0.99) + std::log(0.005)), 1e-8);
}

TEST(ScaledReadingLikelihood, OfCertainReadingsThatDifferIsNothing) {
  std::vector<Reading> readings(40, {1, 1.0});
  readings.push_back({2, 1.0});
  Numbers scaled;
  EXPECT_EQ(scaled_reading_likelihood(3, readings, scaled), 0);
  EXPECT_EQ(scaled, Numbers(3, 0.0));
  EXPECT_TRUE(many(readings));
  EXPECT_FALSE(many({{1, 1.0}, {2, 1e-15}}));
  EXPECT_TRUE(many({{1, 1e-300}, {2, 1e-300}})) << "few, but together below a double's range";
}

// Over all levels that might have been read, r sums to 1 for each true level.
RC_GTEST_PROP(ReadingLikelihoodProperty, IsADistributionOfWhatIsRead, ()) {
  const auto levels = *rc::gen::inRange<std::size_t>(2, 8);
  const double sure = *rc::gen::inRange(0, 1001) / 1000.0;
  Numbers sums(levels, 0.0);
  for (std::size_t read = 0; read < levels; ++read) {
    const auto r = reading_likelihood(levels, {{read, sure}});
    for (std::size_t level = 0; level < levels; ++level) sums[level] += r[level];
  }
  for (const double sum : sums) RC_ASSERT(std::abs(sum - 1) < 1e-12);
}

colony::Marker marked(std::vector<colony::MarkerContext> contexts) {
  colony::Marker marker;
  marker.id = "crown-fleck";
  marker.levels = {"absent", "strong"};
  marker.rows = {{{}, {0.5, 0.5}, 1}};
  marker.contexts = std::move(contexts);
  return marker;
}

colony::MarkerContext where_shown(std::size_t locus, std::size_t appearance, bool ignore) {
  return {std::pair{locus, appearance}, std::nullopt, ignore, {{{}, {0.1, 0.9}, 1}}};
}

colony::MarkerContext where_line(const std::string& line) {
  return {std::nullopt, line, false, {{{}, {0.2, 0.8}, 1}}};
}

TEST(TableInForce, IsTheMarkersOwnWhereNoContextHolds) {
  EXPECT_EQ(table_in_force(marked({}), {{}, {}}, ""), 0U);
  EXPECT_EQ(table_in_force(marked({where_shown(1, 1, true)}), {{1}, {0}}, ""), 0U);
  EXPECT_EQ(table_in_force(marked({where_line("dune")}), {{}, {}}, "dunes"), 0U);
}

TEST(TableInForce, IsNoneWhereTheSignCannotBeRead) {
  EXPECT_EQ(table_in_force(marked({where_shown(1, 1, true)}), {{}, {1}}, ""), std::nullopt);
}

TEST(TableInForce, IsThatOfTheFirstContextThatHolds) {
  const auto marker = marked(
      {where_line("dune"), where_shown(0, 2, true), where_shown(1, 0, false), where_line("dune")});
  EXPECT_EQ(table_in_force(marker, {{2}, {0}}, "dune"), 1U);
  EXPECT_EQ(table_in_force(marker, {{2}, {0}}, "marsh"), std::nullopt);
  EXPECT_EQ(table_in_force(marker, {{}, {0}}, "marsh"), 3U);
  EXPECT_EQ(&rows_of(marker, 0), &marker.rows);
  EXPECT_EQ(&rows_of(marker, 3), &marker.contexts[2].rows);
}

// An animal seen to show two things, as it aged: either will do.
TEST(TableInForce, LooksAtEveryRecordedAppearance) {
  EXPECT_EQ(table_in_force(marked({where_shown(0, 1, false)}), {{0, 1}}, ""), 1U);
}

std::shared_ptr<const colony::Model> two_loci() {
  return support::made(support::masked_model());
}

TEST(LociRead, AreAscendingAndNamedOnce) {
  EXPECT_TRUE(loci_read({{{}, {1}, 1}}).empty());
  const std::vector<colony::MarkerRow> rows = {
      {{{1, 2}}, {1}, 1}, {{{0, 1}, {1, 0}}, {1}, 1}, {{}, {1}, 1}};
  EXPECT_EQ(loci_read(rows), (std::vector<std::size_t>{0, 1}));
}

// Rows are tried top to bottom; tarnbrook e/e (state 2) first, then brackmoor s/s (state 2), then
// any.
TEST(RowOfGenotypes, IsTheFirstThatMatches) {
  const auto model = two_loci();
  const std::vector<colony::MarkerRow> rows = {
      {{{0, 2}}, {1}, 1}, {{{1, 2}}, {1}, 1}, {{}, {1}, 1}};
  EXPECT_EQ(row_of_genotypes(*model, rows, loci_read(rows)),
            (std::vector<std::size_t>{2, 2, 1,  // +/+
                                      2, 2, 1,  // +/e
                                      0, 0, 0}));
}

TEST(RowOfGenotypes, NeedsEveryEntryOfARow) {
  const auto model = two_loci();
  const std::vector<colony::MarkerRow> rows = {{{{0, 1}, {1, 1}}, {1}, 1}, {{}, {1}, 1}};
  EXPECT_EQ(row_of_genotypes(*model, rows, loci_read(rows)),
            (std::vector<std::size_t>{1, 1, 1, 1, 0, 1, 1, 1, 1}));
}

TEST(RowOfGenotypes, ReadsOnlyTheLociNamed) {
  const auto model = two_loci();
  const std::vector<colony::MarkerRow> rows = {{{{1, 1}}, {1}, 1}, {{}, {1}, 1}};
  EXPECT_EQ(row_of_genotypes(*model, rows, loci_read(rows)), (std::vector<std::size_t>{1, 0, 1}));
  EXPECT_EQ(row_of_genotypes(*model, {{{}, {1}, 1}}, {}), (std::vector<std::size_t>{0}));
}

// Rows 0.2, 0.3, 0.5 and 0.8, 0.15, 0.05 read as (0.05, 0.05, 0.9):
// 0.01 + 0.015 + 0.45 = 0.475 and 0.04 + 0.0075 + 0.045 = 0.0925.
TEST(RowLikelihood, SumsTheLevelsOut) {
  const std::vector<Numbers> expect = {{0.2, 0.3, 0.5}, {0.8, 0.15, 0.05}};
  expect_near(row_likelihood(expect, {0.05, 0.05, 0.9}, 1), {0.475, 0.0925});
  expect_near(row_likelihood(expect, {0.05, 0.05, 0.9}, 0.5),
              {std::sqrt(0.475), std::sqrt(0.0925)});
}

TEST(RowLikelihood, OfWeightZeroSaysNothingEvenOfTheImpossible) {
  expect_near(row_likelihood({{1, 0}, {0, 1}}, {0, 1}, 0), {1, 1});
}

TEST(RowLikelihood, KeepsZerosAtAnyWeightAboveZero) {
  for (const double weight : {1.0, 0.5, 1e-6}) {
    const auto out = row_likelihood({{1, 0}, {0, 1}}, {0, 1}, weight);
    EXPECT_EQ(out[0], 0.0);
    EXPECT_EQ(out[1], 1.0);
  }
}

// A power of a power: weights a and b together weigh a + b; a smaller weight is nearer to 1.
RC_GTEST_PROP(RowLikelihoodProperty, AddsWeightsAndShrinksTowardsNothing, ()) {
  const double a = *rc::gen::inRange(1, 50) / 100.0;
  const double b = *rc::gen::inRange(1, 50) / 100.0;
  const double p = *rc::gen::inRange(1, 1000) / 1000.0;
  const std::vector<Numbers> expect = {{p, 1 - p}};
  const auto at = [&](double weight) { return row_likelihood(expect, {0.3, 0.6}, weight)[0]; };
  RC_ASSERT(std::abs(at(a) * at(b) - at(a + b)) < 1e-14);
  RC_ASSERT(std::abs(std::log(at(a))) <= std::abs(std::log(at(a + b))) + 1e-15);
}

// Worst case in use: 250 readings, half of each level, of one animal; by logs.
TEST(RowLikelihood, HoldsHundredsOfReadings) {
  std::vector<Reading> readings;
  for (int i = 0; i < 250; ++i) readings.push_back({i % 2 == 0 ? 0U : 2U, 0.9});
  const auto r = reading_likelihood(3, readings);
  const double both = 125 * (std::log(0.9) + std::log(0.05));
  EXPECT_NEAR(std::log(r[0]), both, 1e-9);
  EXPECT_NEAR(std::log(r[2]), both, 1e-9);
  const auto out = row_likelihood({{0.2, 0.3, 0.5}, {0.6, 0.3, 0.1}}, r, 1);
  EXPECT_NEAR(std::log(out[0]), std::log(0.7) + both, 1e-9);
  EXPECT_NEAR(out[0], out[1], 1e-12 * out[0]);
}

}  // namespace
}  // namespace likelihet::odds::evidence_score_test
