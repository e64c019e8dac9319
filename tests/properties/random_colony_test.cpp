// The engine against enumeration on random colonies: every layer, log evidence, contradictions.
#include "properties/random_colony.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <memory>
#include <string>
#include <variant>

#include "properties/dice.hpp"
#include "properties/enumeration.hpp"
#include "properties/random_records.hpp"
#include "support/small_model.hpp"
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <likelihet/documents/colony_document.hpp>
#include <likelihet/documents/model_document.hpp>
#include <likelihet/odds/layers.hpp>
#include <likelihet/odds/odds.hpp>

namespace likelihet::properties::random_colony_test {
namespace {

std::uint64_t colonies_to_try() {
  return std::getenv("LIKELIHET_LONG") == nullptr ? 5000 : 50'000;
}

std::string text_of(const RandomColony& drawn) {
  return documents::write_model(drawn.model->description()) +
         documents::write_colony(drawn.records);
}

odds::Options options_for(std::uint64_t seed) {
  odds::Options options;
  options.draws = 0;
  options.surprises = false;
  if (seed % 3 == 0) options.as_of = colony::Date::parse("2024-06-15");
  return options;
}

// The largest differences met, for docs/evidence.md.
struct Differences {
  double probability = 0;
  double log_evidence = 0;
};

void expect_close(const std::vector<double>& found, const std::vector<double>& expected,
                  const std::string& where, Differences& largest) {
  ASSERT_EQ(found.size(), expected.size()) << where;
  for (std::size_t g = 0; g < found.size(); ++g) {
    EXPECT_NEAR(found[g], expected[g], 1e-12) << where << ", genotype " << g;
    largest.probability = std::max(largest.probability, std::abs(found[g] - expected[g]));
  }
}

void expect_same(const odds::ColonyOdds& found, const Enumerated& expected,
                 const colony::Colony& colony, Differences& largest) {
  EXPECT_NEAR(found.log_evidence, expected.log_evidence, 1e-11);
  largest.log_evidence =
      std::max(largest.log_evidence, std::abs(found.log_evidence - expected.log_evidence));
  ASSERT_EQ(found.animals.size(), expected.animals.size());
  for (std::size_t a = 0; a < found.animals.size(); ++a) {
    for (std::size_t l = 0; l < found.animals[a].loci.size(); ++l) {
      const odds::LocusOdds& ours = found.animals[a].loci[l];
      const EnumeratedLocus& theirs = expected.animals[a][l];
      const std::string where = colony.animals()[a].id + " at locus " + std::to_string(l);
      expect_close(ours.pedigree, theirs.pedigree, where + ", pedigree", largest);
      expect_close(ours.scored, theirs.scored, where + ", scored", largest);
      expect_close(ours.posterior, theirs.posterior, where + ", posterior", largest);
      ASSERT_EQ(ours.het.size(), theirs.het.size()) << where;
      for (std::size_t k = 0; k < ours.het.size(); ++k) {
        EXPECT_NEAR(ours.het[k].mean, theirs.het[k], 1e-12) << where << ", het";
      }
    }
  }
}

// Whether an animal is kept out of the tree though it has offspring or loci tied together.
bool any_barren(const RandomColony& drawn, const odds::Options& options) {
  const auto made = odds::prepare(odds::scenario(*drawn.colony, options.as_of),
                                  odds::believed(*drawn.model), options.memory_bytes);
  const auto& prepared = std::get<std::unique_ptr<odds::Prepared>>(made);
  return !prepared->plan->barren().order.empty();
}

TEST(RandomColonies, EngineEqualsEnumeration) {
  std::size_t contradictions = 0;
  std::size_t barren = 0;
  Differences largest;
  const std::uint64_t count = colonies_to_try();
  for (std::uint64_t seed = 1; seed <= count && !HasFailure(); ++seed) {
    Dice dice(seed);
    const RandomColony drawn = random_colony(dice);
    SCOPED_TRACE("seed " + std::to_string(seed));
    const odds::Options options = options_for(seed);
    const Enumerated expected = enumerate(*drawn.colony, options.as_of);
    const odds::Outcome outcome = odds::compute(*drawn.colony, options);
    if (expected.contradiction) {
      ++contradictions;
      EXPECT_TRUE(std::holds_alternative<odds::Contradiction>(outcome)) << text_of(drawn);
      continue;
    }
    const auto* found = std::get_if<odds::ColonyOdds>(&outcome);
    ASSERT_NE(found, nullptr) << text_of(drawn);
    expect_same(*found, expected, *drawn.colony, largest);
    if (any_barren(drawn, options)) ++barren;
    if (HasFailure()) ADD_FAILURE() << text_of(drawn);
  }
  // Both kinds of outcome were really tried, and the way below the tree.
  EXPECT_GT(barren, count / 50);
  EXPECT_GT(contradictions, count / 100);
  EXPECT_LT(contradictions, count / 2);
  RecordProperty("colonies", std::to_string(count));
  RecordProperty("contradictions", std::to_string(contradictions));
  RecordProperty("barren", std::to_string(barren));
  RecordProperty("largest_difference", fmt::format("{:.1e}", largest.probability));
  RecordProperty("largest_log_evidence_difference", fmt::format("{:.1e}", largest.log_evidence));
}

// A contradiction names a set that is impossible and of which every part is needed.
TEST(RandomColonies, ContradictionsAreSmallest) {
  std::size_t tried = 0;
  for (std::uint64_t seed = 1; seed <= 400 && !HasFailure(); ++seed) {
    Dice dice(seed);
    const RandomColony drawn = random_colony(dice);
    const odds::Options options = options_for(seed);
    const auto outcome = odds::compute(*drawn.colony, options);
    const auto* found = std::get_if<odds::Contradiction>(&outcome);
    if (found == nullptr) continue;
    ++tried;
    SCOPED_TRACE("seed " + std::to_string(seed));
    EXPECT_FALSE(found->what.empty());
    for (std::size_t left_out : found->observations) {
      colony::Records fewer = drawn.records;
      fewer.observations.clear();
      for (std::size_t o : found->observations) {
        if (o != left_out) fewer.observations.push_back(drawn.records.observations[o]);
      }
      auto made = colony::Colony::make(drawn.model, fewer);
      ASSERT_TRUE(std::holds_alternative<colony::Colony>(made));
      EXPECT_FALSE(enumerate(std::get<colony::Colony>(made), options.as_of).contradiction)
          << "without " << drawn.records.observations[left_out].id << '\n'
          << text_of(drawn);
    }
    colony::Records all = drawn.records;
    all.observations.clear();
    for (std::size_t o : found->observations) {
      all.observations.push_back(drawn.records.observations[o]);
    }
    auto made = colony::Colony::make(drawn.model, all);
    ASSERT_TRUE(std::holds_alternative<colony::Colony>(made));
    EXPECT_TRUE(enumerate(std::get<colony::Colony>(made), options.as_of).contradiction)
        << text_of(drawn);
  }
  EXPECT_GT(tried, 4U);
}

// The same records in any order give the same numbers, to the last bit.
TEST(RandomColonies, OrderOfRecordsDoesNotMatter) {
  for (std::uint64_t seed = 10'001; seed <= 10'200 && !HasFailure(); ++seed) {
    Dice dice(seed);
    const RandomColony drawn = random_colony(dice);
    SCOPED_TRACE("seed " + std::to_string(seed));
    const odds::Options options = options_for(seed);
    const auto first = odds::compute(*drawn.colony, options);
    const auto made = colony::Colony::make(drawn.model, shuffled(dice, drawn.records));
    ASSERT_TRUE(std::holds_alternative<colony::Colony>(made));
    const auto& other = std::get<colony::Colony>(made);
    const auto second = odds::compute(other, options);
    ASSERT_EQ(first.index(), second.index());
    if (!std::holds_alternative<odds::ColonyOdds>(first)) continue;
    const auto& one = std::get<odds::ColonyOdds>(first);
    const auto& two = std::get<odds::ColonyOdds>(second);
    EXPECT_EQ(one.log_evidence, two.log_evidence);
    for (std::size_t a = 0; a < one.animals.size(); ++a) {
      const auto there = other.find_animal(drawn.colony->animals()[a].id);
      ASSERT_TRUE(there);
      for (std::size_t l = 0; l < one.animals[a].loci.size(); ++l) {
        EXPECT_EQ(one.animals[a].loci[l].pedigree, two.animals[*there].loci[l].pedigree);
        EXPECT_EQ(one.animals[a].loci[l].scored, two.animals[*there].loci[l].scored);
        EXPECT_EQ(one.animals[a].loci[l].posterior, two.animals[*there].loci[l].posterior);
      }
    }
  }
}

}  // namespace
}  // namespace likelihet::properties::random_colony_test
