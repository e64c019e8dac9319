// Simulation-based calibration: books drawn from the model, tables learned from them, and the truth
// ranked among the draws. If simulating and learning are of one model, ranks are uniform.
//
// Source: Talts, Betancourt, Simpson, Vehtari and Gelman, "Validating Bayesian inference algorithms
// with simulation-based calibration" (2018, arXiv:1804.06788). Coverage is that of the intervals
// which the same ranks give.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <random>

#include "learning/learning_colony.hpp"
#include <boost/math/distributions/chi_squared.hpp>

#include <likelihet/inference/random_bits.hpp>
#include <likelihet/learning/chain.hpp>
#include <likelihet/learning/parameters.hpp>
#include <likelihet/learning/simulate.hpp>

namespace likelihet::learning::calibration_test {
namespace {

using support::recessive_model;
using support::RecordsBuilder;

constexpr std::size_t draws = 199;  // ranks 0 to 199: whole numbers of them make each share below
constexpr std::size_t bins = 20;

// A loop (full siblings bred), two possible sires, markers read by a scorer and by nobody known, a
// brood, results on some, appearances on all; beliefs that leave much open.
RecordsBuilder herd() {
  RecordsBuilder records;
  records.founder("A", genetics::Sex::female, "bought").founder("B", genetics::Sex::male, "bought");
  records.founder("E", genetics::Sex::male, "bought");
  records.clutch("C1", "A", {"B"}).hatchling("C", "C1", genetics::Sex::female);
  records.hatchling("D", "C1", genetics::Sex::male).clutch("C2", "C", {"D"});
  records.clutch("C3", "A", {"D", "E"});
  for (int i = 0; i < 24; ++i) {
    const std::string id = "H" + std::to_string(i);
    records.hatchling(id, i % 2 == 0 ? "C2" : "C3").shows(id, "tarnbrook", "plain");
    records.score(id, "crown-fleck", "strong", i % 3 == 0 ? std::nullopt : std::optional("ana"));
    if (i % 4 == 0) records.score(id, "crown-fleck", "strong", "ana");
    if (i % 6 == 1) records.result(id, "shed-pcr", "clear");
  }
  records.brood("D", "tarnbrook", "e/e", {{"plain", 4}, {"tarnbrook", 0}});
  return records;
}

// What is simulated and learned, at which effort.
struct Setting {
  colony::ModelDescription model;
  colony::Records records;
  std::size_t books = 0;
  int settling = 300;  // sweeps
  int apart = 20;      // sweeps between draws
};

colony::ModelDescription model() {
  auto description = recessive_model();
  description.origins = {{"bought", {{"tarnbrook", {{"e", 0.35}}}}, 8.0}};
  description.scorers[0].sure = 0.8;
  return description;
}

// A second marker, read on the same animals, and a strength of expression that both follow.
Setting together() {
  Setting out{model(), herd().records};
  auto second = support::crown_fleck();
  second.id = "side-thread";
  second.levels = {"absent", "there"};
  second.rows = {{{{"tarnbrook", "+/e"}}, {0.4, 0.6}, 8.0}, {{}, {0.7, 0.3}, 8.0}};
  out.model.markers.push_back(second);
  out.model.together = {{"pattern", {"crown-fleck", "side-thread"}, std::nullopt, std::nullopt}};
  RecordsBuilder records;
  records.records = std::move(out.records);
  for (int i = 0; i < 24; ++i) {
    records.score("H" + std::to_string(i), "side-thread", "there",
                  i % 2 == 0 ? std::nullopt : std::optional("ana"));
  }
  out.records = std::move(records.records);
  out.settling = 200;
  out.apart = 10;
  return out;
}

struct Ranks {
  std::vector<std::vector<std::size_t>> of_parameter;  // by parameter, by book
  std::vector<double> of_carriers;                     // randomised, in [0, 1]
};

// One book: learned from, then the truth's rank among draws kept far apart.
void add_book(const Ready& like, const Setting& setting, std::uint64_t seed, Ranks& ranks) {
  const auto book = std::get<Simulated>(simulate(like.colony(), setting.records, seed));
  const Ready ready(setting.model, book.records);
  // A stream of its own, far from the one that drew the truth.
  inference::RandomBits random(seed + 1'000'003);
  Chain chain(ready.prepared(), ready.model(), drawn_belief(ready.model(), random), seed, 0);
  for (int i = 0; i < setting.settling; ++i) chain.step();
  const auto truth = flat(book.tables);
  std::vector<std::size_t> rank(truth.size(), 0);
  const std::size_t h = *ready.colony().find_animal("H" + std::to_string(seed % 24));
  double carrier = 0;
  for (std::size_t d = 0; d < draws; ++d) {
    for (int i = 0; i < setting.apart; ++i) chain.step();
    const auto drawn = flat(chain.tables());
    for (std::size_t p = 0; p < truth.size(); ++p) rank[p] += drawn[p] < truth[p] ? 1 : 0;
    const auto values = ready.prepared().net.values(odds::Layer::posterior, chain.tables());
    const auto beliefs = inference::infer(*ready.prepared().plan, values);
    carrier += odds::genotype_odds(ready.prepared(), beliefs, h, 0)[1] / draws;
  }
  for (std::size_t p = 0; p < truth.size(); ++p) ranks.of_parameter[p].push_back(rank[p]);
  // A coin of that chance, spread over [0, 1] (the randomised probability integral transform).
  const double u = std::uniform_real_distribution<double>()(random);
  const bool is_carrier = book.genotypes[h] == 1;
  ranks.of_carriers.push_back(is_carrier ? u * carrier : carrier + u * (1 - carrier));
}

double chi_square_p(const std::vector<double>& in_unit) {
  std::array<double, bins> counts{};
  for (double u : in_unit) {
    counts[std::min(bins - 1, static_cast<std::size_t>(u * static_cast<double>(bins)))] += 1;
  }
  const double expected = static_cast<double>(in_unit.size()) / bins;
  double sum = 0;
  for (double count : counts) sum += (count - expected) * (count - expected) / expected;
  return boost::math::cdf(boost::math::complement(boost::math::chi_squared(bins - 1), sum));
}

std::vector<double> in_unit(const std::vector<std::size_t>& ranks) {
  std::vector<double> out;
  for (std::size_t rank : ranks) out.push_back((static_cast<double>(rank) + 0.5) / (draws + 1));
  return out;
}

struct Found {
  double least = 1;  // of the chi-square p-values
  std::array<double, 3> covered{};
};
constexpr std::array shares = {0.5, 0.8, 0.95};

// One in a hundred for all numbers of a setting together (Bonferroni).
Found expect_calibrated(const Setting& setting) {
  const Ready like(setting.model, setting.records);
  const auto all = parameters(like.model());
  Ranks ranks;
  ranks.of_parameter.resize(all.size());
  for (std::uint64_t seed = 1; seed <= setting.books; ++seed) add_book(like, setting, seed, ranks);

  const auto open =
      std::count_if(all.begin(), all.end(), [](const Parameter& p) { return p.open; });
  const double limit = 0.01 / static_cast<double>(open + 1);
  Found found;
  found.least = chi_square_p(ranks.of_carriers);
  EXPECT_GT(found.least, limit) << "carriers";
  for (std::size_t p = 0; p < all.size(); ++p) {
    if (!all[p].open) continue;
    const auto unit = in_unit(ranks.of_parameter[p]);
    const double chance = chi_square_p(unit);
    EXPECT_GT(chance, limit) << "parameter " << p;
    found.least = std::min(found.least, chance);
    for (std::size_t s = 0; s < shares.size(); ++s) {
      for (double u : unit) found.covered[s] += std::abs(u - 0.5) < shares[s] / 2 ? 1 : 0;
    }
  }
  for (double& covered : found.covered) {
    covered /= static_cast<double>(setting.books) * static_cast<double>(open);
  }
  return found;
}

void record(const Setting& setting, const Found& found) {
  for (std::size_t s = 0; s < shares.size(); ++s) {
    testing::Test::RecordProperty(
        "coverage_of_" + std::to_string(static_cast<int>(100 * shares[s])) + "_percent",
        std::to_string(found.covered[s]));
  }
  testing::Test::RecordProperty("books", std::to_string(setting.books));
  testing::Test::RecordProperty("least_chi_square_p", std::to_string(found.least));
}

bool in_full() {
  return std::getenv("LIKELIHET_LONG") != nullptr;
}

// An instrumented build takes ten times as long: there the check is of memory, not of statistics.
#ifdef __SANITIZE_ADDRESS__
constexpr bool instrumented = true;
#else
constexpr bool instrumented = false;
#endif

TEST(Calibration, RanksAreUniformAndIntervalsCover) {
  const Setting setting{model(), herd().records, in_full() ? 2000U : instrumented ? 30U : 150U};
  const Found found = expect_calibrated(setting);
  for (std::size_t s = 0; s < shares.size(); ++s) {
    EXPECT_NEAR(found.covered[s], shares[s], instrumented ? 0.1 : 0.03) << shares[s];
  }
  record(setting, found);
}

TEST(Calibration, OfMarkersThatComeTogether) {
  Setting setting = together();
  setting.books = in_full() ? 400U : instrumented ? 8U : 60U;
  const Found found = expect_calibrated(setting);
  // A few books of a dozen numbers that hang together leave more to chance.
  const double tolerance = in_full() ? 0.03 : instrumented ? 0.2 : 0.06;
  for (std::size_t s = 0; s < shares.size(); ++s) {
    EXPECT_NEAR(found.covered[s], shares[s], tolerance) << shares[s];
  }
  record(setting, found);
}

}  // namespace
}  // namespace likelihet::learning::calibration_test
