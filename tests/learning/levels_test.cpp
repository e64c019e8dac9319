// Animals by cell, and levels drawn for one animal or for many.
#include <cmath>
#include <map>
#include <string>

#include "learning/learning_colony.hpp"

#include <likelihet/inference/engine.hpp>
#include <likelihet/learning/level_sampler.hpp>
#include <likelihet/learning/scored_cells.hpp>

namespace likelihet::learning::levels_test {
namespace {

using support::recessive_model;
using support::RecordsBuilder;

// A marker of two loci, one of one, and animals in and out of clutches.
colony::ModelDescription two_loci() {
  auto description = recessive_model();
  description.loci.push_back(support::masking_locus());
  auto both = support::crown_fleck();
  both.id = "edge-thread";
  both.rows = {{{{"tarnbrook", "+/e"}, {"brackmoor", "+/s"}}, {0.1, 0.2, 0.7}, 8.0},
               {{}, {0.6, 0.3, 0.1}, 8.0}};
  description.markers.push_back(both);
  return description;
}

colony::Records scored_family() {
  RecordsBuilder records;
  records.founder("D", std::nullopt, "bought").founder("S", std::nullopt, "bought");
  records.clutch("C", "D", {"S"});
  for (int i = 0; i < 6; ++i) {
    const std::string id = "H" + std::to_string(i);
    records.hatchling(id, "C");
    records.score(id, "crown-fleck", i < 3 ? "strong" : "absent");
    records.score(id, "edge-thread", i < 4 ? "faint" : "strong");
  }
  records.score("D", "crown-fleck", "strong");
  return records.records;
}

TEST(ScoredCells, AreThoseOfEachAnimalInTurn) {
  const Ready ready(two_loci(), scored_family());
  const auto& net = ready.prepared().net;
  const ScoredCells scored_cells(ready.prepared());
  std::vector<std::uint32_t> counted;
  inference::Draw draw;
  inference::RandomBits random(1);
  draw.variables.resize(net.network().variables());
  draw.leaves.resize(net.network().leaves());
  for (int i = 0; i < 50; ++i) {
    for (auto* states : {&draw.variables, &draw.leaves}) {
      for (auto& state : *states) state = static_cast<std::uint32_t>(random.below(3));
    }
    scored_cells.count(draw, counted);
    std::map<std::uint32_t, std::vector<std::uint32_t>> expected;
    for (const auto& scored : net.scored()) {
      auto& cells = expected[scored.term];
      cells.resize(net.term(scored.term).scores.front().row_of.size());
      ++cells[cell_of(net, scored, draw)];
    }
    ASSERT_EQ(scored_cells.terms().size(), expected.size());
    for (std::size_t place = 0; place < scored_cells.terms().size(); ++place) {
      const auto cells = scored_cells.of(place, counted);
      EXPECT_EQ(std::vector<std::uint32_t>(cells.begin(), cells.end()),
                expected.at(scored_cells.terms()[place]));
    }
  }
}

// Each animal's chances are those of its marginal, joint over two loci where the marker reads both.
TEST(ScoredCells, BelieveWhatExactOddsSay) {
  const Ready ready(two_loci(), scored_family());
  const auto& prepared = ready.prepared();
  const auto values = prepared.net.values(odds::Layer::posterior, ready.believed());
  const ScoredCells cells(prepared);
  const auto believed = [&]<class Number>(Number /*one*/) {
    const std::vector<Number> numbers(values.begin(), values.end());
    inference::Pass<Number> pass(*prepared.plan);
    pass.propagate(numbers);
    pass.late_posteriors();
    std::vector<double> out;
    cells.believe(pass, out);
    return out;
  };
  const auto animals = believed(1.0);
  const auto wide = believed(inference::Extended(1.0));
  ASSERT_EQ(animals.size(), wide.size());
  for (std::size_t i = 0; i < wide.size(); ++i) EXPECT_NEAR(animals[i], wide[i], 1e-12);
  const auto beliefs = inference::infer(*prepared.plan, values);
  for (std::size_t place = 0; place < cells.terms().size(); ++place) {
    const auto of = cells.of(place, animals);
    const bool both = of.size() == 9;
    std::vector<double> margins(6, 0.0);  // of tarnbrook, of brackmoor
    std::vector<double> expected(6, 0.0);
    for (const auto& scored : prepared.net.scored()) {
      if (scored.term != cells.terms()[place]) continue;
      for (std::size_t l : scored.loci) {
        const auto odds = odds::genotype_odds(prepared, beliefs, scored.animal, l);
        for (std::size_t g = 0; g < 3; ++g) expected[3 * l + g] += odds[g];
      }
    }
    for (std::size_t c = 0; c < of.size(); ++c) {
      margins[both ? c / 3 : c] += of[c];
      if (both) margins[3 + c % 3] += of[c];
    }
    for (std::size_t g = 0; g < 6; ++g) EXPECT_NEAR(margins[g], expected[g], 1e-12) << g;
  }
}

TEST(ScoredCells, NobodyScoredIsNoTerm) {
  RecordsBuilder records;
  records.founder("D", std::nullopt, "bought");
  const Ready ready(recessive_model(), records.records);
  const ScoredCells cells(ready.prepared());
  std::vector<std::uint32_t> counted;
  cells.count({}, counted);
  EXPECT_TRUE(cells.terms().empty());
  EXPECT_TRUE(counted.empty());
}

// P(level | row, read) by hand: the row times 0.8 where it was read and 0.1 elsewhere.
TEST(LevelSampler, DrawsWhatStandsBehindAReading) {
  auto description = recessive_model();
  description.scorers[0].sure = 0.8;
  RecordsBuilder records;
  records.founder("D", std::nullopt, "bought").score("D", "crown-fleck", "faint", "ana");
  const Ready ready(description, records.records);
  const auto tables = ready.believed();
  LevelSampler sampler(ready.prepared().net, ready.model());
  sampler.at(tables);
  const auto term = ready.prepared().net.scored().front().term;
  inference::RandomBits random(3);
  std::vector<DrawnLevel> drawn;
  constexpr int draws = 40'000;
  std::vector<double> counts(3, 0.0);
  for (int i = 0; i < draws; ++i) {
    sampler.draw(term, 0, random, drawn);
    ASSERT_EQ(drawn.size(), 1U);
    EXPECT_EQ(drawn[0].row, 2U);  // no copy: the last row
    counts[drawn[0].level] += 1;
  }
  const double whole = 0.8 * 0.1 + 0.15 * 0.8 + 0.05 * 0.1;
  const std::vector<double> chances{0.08 / whole, 0.12 / whole, 0.005 / whole};
  for (std::size_t k = 0; k < 3; ++k) {
    const double error = std::sqrt(draws * chances[k] * (1 - chances[k]));
    EXPECT_NEAR(counts[k], draws * chances[k], 4 * error) << k;
  }
}

// Markers that come together: P(both levels | both readings), summed over strengths by hand.
TEST(LevelSampler, DrawsMarkersThatComeTogetherAtOneStrength) {
  auto description = recessive_model();
  description.scorers[0].sure = 0.8;
  auto second = support::crown_fleck();
  second.id = "side-thread";
  description.markers.push_back(second);
  description.together = {{"pattern", {"crown-fleck", "side-thread"}, std::nullopt, std::nullopt}};
  RecordsBuilder records;
  records.founder("D", std::nullopt, "bought").score("D", "crown-fleck", "strong", "ana");
  records.score("D", "side-thread", "absent", "ana");
  const Ready ready(description, records.records);
  auto tables = ready.believed();
  tables.loadings = {{1.5, 0.7}};
  const auto& net = ready.prepared().net;
  LevelSampler sampler(net, ready.model());
  sampler.at(tables);
  const auto& row = tables.rows[0][0][2];  // no copy: the last row of both
  const auto& points = net.strengths();
  const auto first = odds::given_strength(row, 1.5, points.strength);
  const auto other = odds::given_strength(row, 0.7, points.strength);
  const std::size_t n = points.strength.size();
  std::vector<double> chances(9, 0.0);
  double whole = 0;
  for (std::size_t c = 0; c < 9; ++c) {
    const double read = (c / 3 == 2 ? 0.8 : 0.1) * (c % 3 == 0 ? 0.8 : 0.1);
    for (std::size_t q = 0; q < n; ++q) {
      chances[c] += points.weight[q] * first[c / 3 * n + q] * other[c % 3 * n + q] * read;
    }
    whole += chances[c];
  }
  inference::RandomBits random(4);
  std::vector<DrawnLevel> drawn;
  constexpr int draws = 40'000;
  std::vector<double> counts(9, 0.0);
  for (int i = 0; i < draws; ++i) {
    sampler.draw(net.scored().front().term, 0, random, drawn);
    ASSERT_EQ(drawn.size(), 2U);
    counts[drawn[0].level * 3 + drawn[1].level] += 1;
  }
  for (std::size_t c = 0; c < 9; ++c) {
    const double p = chances[c] / whole;
    EXPECT_NEAR(counts[c], draws * p, 4 * std::sqrt(draws * p * (1 - p)) + 1) << c;
  }
}

}  // namespace
}  // namespace likelihet::learning::levels_test
