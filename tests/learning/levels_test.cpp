// Animals by cell, and levels drawn for one animal or for many.
#include <cmath>

#include "learning/learning_colony.hpp"

#include <likelihet/inference/multinomial.hpp>
#include <likelihet/learning/level_sampler.hpp>
#include <likelihet/learning/scored_cells.hpp>

namespace likelihet::learning {
namespace {

using support::recessive_model;
using support::RecordsBuilder;

// A mark of two loci, one of one, and animals in and out of clutches.
colony::ModelDescription two_loci() {
  auto description = recessive_model();
  description.loci.push_back(support::masking_locus());
  auto both = support::crown_fleck();
  both.id = "edge-thread";
  both.rows = {{{{"ember", "+/e"}, {"harbor", "+/s"}}, {0.1, 0.2, 0.7}, 8.0},
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
    records.score(id, "crown-fleck", i < 3 ? "clear" : "absent");
    records.score(id, "edge-thread", i < 4 ? "faint" : "clear");
  }
  records.score("D", "crown-fleck", "clear");
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

// Each animal's chances are those of its marginal, joint over two loci where the mark reads both.
TEST(ScoredCells, BelieveWhatExactOddsSay) {
  const Ready ready(two_loci(), scored_family());
  const auto& prepared = ready.prepared();
  const auto values = prepared.net.values(odds::Layer::posterior, ready.believed());
  inference::Pass<double> pass(*prepared.plan);
  pass.propagate(values);
  pass.late_posteriors();
  const ScoredCells cells(prepared);
  std::vector<double> animals;
  cells.believe(pass, animals);
  const auto beliefs = inference::infer(*prepared.plan, values);
  for (std::size_t place = 0; place < cells.terms().size(); ++place) {
    const auto of = cells.of(place, animals);
    std::vector<double> by_ember(3, 0.0);
    std::vector<double> expected(3, 0.0);
    for (const auto& scored : prepared.net.scored()) {
      if (scored.term != cells.terms()[place]) continue;
      const auto odds = odds::genotype_odds(prepared, beliefs, scored.animal, 0);
      for (std::size_t g = 0; g < 3; ++g) expected[g] += odds[g];
    }
    for (std::size_t c = 0; c < of.size(); ++c) by_ember[c * 3 / of.size()] += of[c];
    for (std::size_t g = 0; g < 3; ++g) EXPECT_NEAR(by_ember[g], expected[g], 1e-12);
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

}  // namespace
}  // namespace likelihet::learning
