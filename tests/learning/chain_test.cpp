// Chains against distributions that are known in closed form or by integration.
#include <cmath>

#include "learning/learning_colony.hpp"
#include <boost/math/quadrature/gauss_kronrod.hpp>

#include <likelihet/learning/chain.hpp>

namespace likelihet::learning::chain_test {
namespace {

using support::recessive_model;
using support::RecordsBuilder;

struct Moments {
  double mean = 0;
  double deviation = 0;
};

template <class Read>
Moments run(const Ready& ready, std::size_t sweeps, Read read) {
  Chain chain(ready.prepared(), ready.model(), ready.believed(), 11, 0);
  double sum = 0;
  double squares = 0;
  for (std::size_t i = 0; i < sweeps; ++i) {
    EXPECT_TRUE(chain.step());
    const double value = read(chain.tables());
    sum += value;
    squares += value * value;
  }
  const double mean = sum / static_cast<double>(sweeps);
  return {mean, std::sqrt(squares / static_cast<double>(sweeps) - mean * mean)};
}

// Known genotypes: a row is Dirichlet(worth x expect + counts) exactly; Beta(2 + 6, 2 + 4) for
// "strong", whose mean is 8/14 and whose variance 8 x 6 / (14^2 x 15).
TEST(Chain, ConjugateRowsHaveTheirClosedForm) {
  const Ready ready(recessive_model(), ten_visuals());
  const auto found = run(ready, 20'000, [](const odds::Tables& t) { return t.rows[0][0][0][2]; });
  EXPECT_NEAR(found.mean, 8.0 / 14, 4 * 0.128 / std::sqrt(20'000));
  EXPECT_NEAR(found.deviation, std::sqrt(8.0 * 6 / (14 * 14 * 15)), 0.004);
}

// The posterior mean of f over x in (0, 1) by Gauss-Kronrod quadrature (Boost.Math).
template <class Density>
Moments integrated(Density density) {
  using boost::math::quadrature::gauss_kronrod;
  const auto moment = [&](int power) {
    return gauss_kronrod<double, 61>::integrate(
        [&](double x) { return std::pow(x, power) * density(x); }, 0.0, 1.0, 12, 1e-10);
  };
  const double whole = moment(0);
  const double mean = moment(1) / whole;
  return {mean, std::sqrt(moment(2) / whole - mean * mean)};
}

// Two levels; sure visuals with unsure readings (0.8): the density of p = P(yes) is its Beta times
// Π (p r(yes) + (1 - p) r(no))^weight, here for a weight of 0.4.
void expect_tempered(int yes, int no) {
  auto description = recessive_model();
  description.markers[0].levels = {"no", "yes"};
  description.markers[0].weight = 0.4;
  description.markers[0].rows = {{{{"tarnbrook", "e/e"}}, {0.5, 0.5}, 2.0}, {{}, {0.9, 0.1}, 5.0}};
  RecordsBuilder records;
  for (int i = 0; i < yes + no; ++i) {
    const std::string id = "V" + std::to_string(i);
    records.founder(id, std::nullopt, "bought").shows(id, "tarnbrook", "tarnbrook");
    records.score(id, "crown-fleck", i < yes ? "yes" : "no").sure(0.8);
  }
  const Ready ready(description, records.records);
  const Moments expected = integrated([&](double p) {
    return std::pow(0.8 * p + 0.2 * (1 - p), 0.4 * yes) *
           std::pow(0.2 * p + 0.8 * (1 - p), 0.4 * no);
  });
  const auto found = run(ready, 40'000, [](const odds::Tables& t) { return t.rows[0][0][0][1]; });
  EXPECT_NEAR(found.mean, expected.mean, 0.006) << yes << ' ' << no;
  EXPECT_NEAR(found.deviation, expected.deviation, 0.005) << yes << ' ' << no;
}

// Levels drawn animal by animal, and as numbers.
TEST(Chain, TemperedUnsureReadingsAreExact) {
  expect_tempered(7, 3);
  expect_tempered(24, 9);
}

// A scorer: one sure visual whose row is all but known (worth 1e6), read twelve times over as many
// animals, nine of them as the level that is there.
TEST(Chain, AScorersReliabilityIsIntegratedExactly) {
  auto description = recessive_model();
  description.markers[0].levels = {"no", "yes"};
  description.markers[0].rows = {{{{"tarnbrook", "e/e"}}, {0.1, 0.9}, 1e6}, {{}, {0.9, 0.1}, 5.0}};
  RecordsBuilder records;
  for (int i = 0; i < 12; ++i) {
    const std::string id = "V" + std::to_string(i);
    records.founder(id, std::nullopt, "bought").shows(id, "tarnbrook", "tarnbrook");
    records.score(id, "crown-fleck", i < 9 ? "yes" : "no", "ana");
  }
  const Ready ready(description, records.records);
  // Beta(19, 1) is the belief: 0.95 worth 20.
  const Moments expected = integrated([](double s) {
    return std::pow(s, 18) * std::pow(0.9 * s + 0.1 * (1 - s), 9) *
           std::pow(0.1 * s + 0.9 * (1 - s), 3);
  });
  const auto found = run(ready, 40'000, [](const odds::Tables& t) { return t.scorers[0]; });
  EXPECT_NEAR(found.mean, expected.mean, 0.003);
  EXPECT_NEAR(found.deviation, expected.deviation, 0.003);
}

// A lethal homozygote: the frequency's density is its Beta times the chances of what lives.
TEST(Chain, AFrequencyUnderSelectionIsIntegratedExactly) {
  auto description = recessive_model();
  description.loci[0].viability = {{"e/e", 0.0}};
  description.loci[0].appearance = {{"default", {{"plain", 1.0}}}, {"+/e", {{"corrinvale", 1.0}}}};
  description.origins = {{"bought", {{"tarnbrook", {{"e", 0.5}}}}, 2.0}};
  RecordsBuilder records;
  for (int i = 0; i < 10; ++i) {
    const std::string id = "F" + std::to_string(i);
    records.founder(id, std::nullopt, "bought")
        .shows(id, "tarnbrook", i < 4 ? "corrinvale" : "plain");
  }
  const Ready ready(description, records.records);
  const Moments expected = integrated([](double q) {
    const double alive = 1 - q * q;
    return std::pow(2 * q * (1 - q) / alive, 4) * std::pow((1 - q) * (1 - q) / alive, 6);
  });
  const auto found = run(ready, 40'000, [](const odds::Tables& t) { return t.origins[0][0][1]; });
  EXPECT_NEAR(found.mean, expected.mean, 0.004);
  EXPECT_NEAR(found.deviation, expected.deviation, 0.004);
}

TEST(Chain, TheSameSeedDrawsTheSame) {
  const Ready ready(recessive_model(), RecordsBuilder()
                                           .founder("F", std::nullopt, "bought")
                                           .score("F", "crown-fleck", "strong", "ana")
                                           .records);
  Chain one(ready.prepared(), ready.model(), ready.believed(), 3, 1);
  Chain two(ready.prepared(), ready.model(), ready.believed(), 3, 1);
  Chain other(ready.prepared(), ready.model(), ready.believed(), 3, 2);
  for (int i = 0; i < 5; ++i) {
    one.step();
    two.step();
    other.step();
  }
  EXPECT_EQ(one.tables().rows, two.tables().rows);
  EXPECT_NE(one.tables().rows, other.tables().rows);
}

}  // namespace
}  // namespace likelihet::learning::chain_test
