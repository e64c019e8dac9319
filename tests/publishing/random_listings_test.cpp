// Listings of random books, with every feature of the records, against their definition: the odds
// by enumeration of every joint state, and what may never be said.
#include <algorithm>
#include <cmath>

#include "properties/enumeration.hpp"
#include "properties/random_colony.hpp"
#include "properties/random_records.hpp"
#include <gtest/gtest.h>
#include <publishing/listed.hpp>

#include <likelihet/genetics/copies.hpp>
#include <likelihet/odds/odds.hpp>
#include <likelihet/publishing/ground_odds.hpp>
#include <likelihet/publishing/rounding.hpp>
#include <likelihet/publishing/sheet.hpp>

namespace likelihet::properties::random_listings_test {
namespace {

using publishing::Basis;
using publishing::Label;
using publishing::Listing;
using publishing::Statement;

constexpr double close = 1e-9;  // enumeration against the engine

std::vector<std::size_t> all_animals(const colony::Colony& colony) {
  std::vector<std::size_t> out;
  for (std::size_t a = 0; a < colony.animals().size(); ++a) out.push_back(a);
  return out;
}

// The same book without any reading, which is what published odds without markers rest on.
colony::Colony without_scores(const RandomColony& drawn) {
  colony::Records records = drawn.records;
  for (auto& observation : records.observations) {
    if (auto* score = std::get_if<colony::ScoreRecord>(&observation.what)) score->level.reset();
  }
  return support::colony_of(drawn.model, records);
}

std::vector<Listing> listed(const colony::Colony& colony, const std::vector<std::size_t>& animals,
                            const std::vector<odds::Tables>* learned = nullptr) {
  const colony::Policy policy;
  publishing::Ground ground;
  ground.colony = &colony;
  ground.policy = &policy;
  ground.learned = learned;
  auto found = publishing::listings(ground, animals);
  auto* made = std::get_if<std::vector<Listing>>(&found);
  return made != nullptr ? std::move(*made) : std::vector<Listing>{};
}

bool contradictory(const colony::Colony& colony) {
  return enumerate(colony, std::nullopt).contradiction;
}

void check_bounds(const Statement& one) {
  // No percentage above the evidence that it counts.
  const double counted = one.basis == Basis::markers ? one.marked->mean : one.markerless;
  EXPECT_LE(one.published.high, counted + publishing::rounding_error);
  EXPECT_LE(one.published.low, one.published.high);
  // 100 % only where it is forced.
  if (one.markerless < 1 - publishing::rounding_error) {
    EXPECT_LT(one.published.high, 1);
    EXPECT_NE(one.label, Label::proven);
    EXPECT_NE(one.label, Label::certain);
    EXPECT_TRUE(one.basis == Basis::markers || counted - one.published.high < 0.01 + close);
  }
  const bool certain = one.label == Label::proven || one.label == Label::certain;
  EXPECT_TRUE(certain || one.headline.find("100 %") == std::string::npos) << one.headline;
}

// A reason's direction is the odds with some looks against the odds without them: these are those
// of the book in which they were never recorded.
TEST(RandomListings, OddsWithoutSomeLooksAreThoseOfABookWithoutThem) {
  std::size_t checked = 0;
  for (std::uint64_t seed = 1; seed <= 1000 && !HasFailure(); ++seed) {
    Dice dice(seed);
    const RandomColony drawn = random_colony(dice);
    SCOPED_TRACE("seed " + std::to_string(seed));
    if (contradictory(*drawn.colony)) continue;
    publishing::Ground ground;
    ground.colony = drawn.colony.get();
    const auto made = publishing::ground_odds(ground);
    const auto* odds = std::get_if<publishing::GroundOdds>(&made);
    ASSERT_NE(odds, nullptr);

    std::vector<std::size_t> left_out;
    colony::Records fewer = drawn.records;
    for (std::size_t o = 0; o < drawn.colony->observations().size(); ++o) {
      const auto& observation = drawn.colony->observations()[o];
      const bool look = std::holds_alternative<colony::AppearanceSeen>(observation.what) ||
                        std::holds_alternative<colony::Brood>(observation.what);
      const bool withdrawn =
          std::any_of(fewer.observations.begin(), fewer.observations.end(), [&](const auto& one) {
            const auto* withdrawal = std::get_if<colony::WithdrawalRecord>(&one.what);
            return withdrawal != nullptr && withdrawal->of == observation.id;
          });
      if (!look || withdrawn || seed % 2 == o % 2) continue;
      left_out.push_back(o);
      std::erase_if(fewer.observations, [&](const auto& one) { return one.id == observation.id; });
    }
    if (left_out.empty()) continue;
    for (auto& observation : fewer.observations) {
      if (auto* score = std::get_if<colony::ScoreRecord>(&observation.what)) score->level.reset();
    }
    const colony::Colony without = support::colony_of(drawn.model, fewer);
    const Enumerated expected = enumerate(without, std::nullopt);
    for (std::size_t a = 0; a < without.animals().size(); ++a) {
      const std::size_t here = *drawn.colony->find_animal(without.animals()[a].id);
      for (std::size_t l = 0; l < without.model().loci().size(); ++l) {
        const auto found = odds->markerless_without(left_out, here, l);
        ASSERT_TRUE(found);
        const auto& locus = without.model().loci()[l];
        for (std::uint16_t allele = 1; allele < locus.alleles().size(); ++allele) {
          EXPECT_NEAR(genetics::copy_chances(locus, *found, allele).one,
                      expected.animals[a][l].het[allele - std::size_t{1}], close);
        }
        ++checked;
      }
    }
  }
  EXPECT_GT(checked, 1000u);
}

TEST(RandomListings, AreTheEnumeratedOddsRoundedDown) {
  std::size_t checked = 0;
  for (std::uint64_t seed = 1; seed <= 400 && !HasFailure(); ++seed) {
    Dice dice(seed);
    const RandomColony drawn = random_colony(dice);
    SCOPED_TRACE("seed " + std::to_string(seed));
    const auto animals = all_animals(*drawn.colony);
    const auto made = listed(*drawn.colony, animals);
    if (contradictory(*drawn.colony)) {
      EXPECT_TRUE(made.empty());
      continue;
    }
    ASSERT_EQ(made.size(), animals.size());
    const Enumerated expected = enumerate(without_scores(drawn), std::nullopt);
    for (const Listing& listing : made) {
      for (const Statement& one : listing.statements) {
        const auto& truth = expected.animals[listing.animal][one.locus];
        EXPECT_NEAR(one.markerless, truth.het[one.allele - std::size_t{1}], close);
        check_bounds(one);
        EXPECT_NE(one.basis, Basis::markers);
        ++checked;
      }
    }
  }
  EXPECT_GT(checked, 1000U);
}

TEST(RandomListings, NeverCountMarkersThatNoAuditEarned) {
  // Tables are at hand, and these books have too few outcomes: none may count them.
  for (std::uint64_t seed = 1; seed <= 60 && !HasFailure(); ++seed) {
    Dice dice(seed);
    const RandomColony drawn = random_colony(dice);
    SCOPED_TRACE("seed " + std::to_string(seed));
    const std::vector<odds::Tables> learned(3, odds::believed(*drawn.model));
    for (const Listing& listing : listed(*drawn.colony, all_animals(*drawn.colony), &learned)) {
      for (const Statement& one : listing.statements) {
        EXPECT_NE(one.basis, Basis::markers);
        EXPECT_FALSE(one.marked);
        check_bounds(one);
      }
      for (const auto& markers : listing.markers) EXPECT_FALSE(markers.count);
    }
  }
}

TEST(RandomListings, DoNotDependOnTheOrderOfTheRecords) {
  for (std::uint64_t seed = 1; seed <= 200 && !HasFailure(); ++seed) {
    Dice dice(seed);
    const RandomColony drawn = random_colony(dice);
    SCOPED_TRACE("seed " + std::to_string(seed));
    const auto animals = all_animals(*drawn.colony);
    const auto first = listed(*drawn.colony, animals);
    const auto other = support::colony_of(drawn.model, shuffled(dice, drawn.records));
    if (first.empty()) continue;
    std::vector<std::size_t> moved;
    for (const auto& animal : drawn.colony->animals()) {
      moved.push_back(other.find_animal(animal.id).value());
    }
    const auto second = listed(other, moved);
    ASSERT_EQ(first.size(), second.size());
    for (std::size_t i = 0; i < first.size(); ++i) {
      for (std::size_t s = 0; s < first[i].statements.size(); ++s) {
        const Statement& a = first[i].statements[s];
        const Statement& b = second[i].statements[s];
        EXPECT_EQ(a.headline, b.headline);
        EXPECT_EQ(a.reason, b.reason);
        EXPECT_EQ(a.published, b.published);
        EXPECT_EQ(a.markerless, b.markerless);
        EXPECT_EQ(a.rests_on.size(), b.rests_on.size());
      }
      EXPECT_EQ(first[i].cautions, second[i].cautions);
    }
  }
}

TEST(RandomListings, RestOnRecordsThatCountAndAreNamedOnce) {
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    Dice dice(seed);
    const RandomColony drawn = random_colony(dice);
    const auto scenario = odds::scenario(*drawn.colony, std::nullopt);
    for (const Listing& listing : listed(*drawn.colony, all_animals(*drawn.colony))) {
      for (const Statement& one : listing.statements) {
        EXPECT_TRUE(std::is_sorted(one.rests_on.begin(), one.rests_on.end()));
        EXPECT_EQ(std::adjacent_find(one.rests_on.begin(), one.rests_on.end()), one.rests_on.end());
        for (const std::size_t o : one.rests_on) {
          const auto* named = &drawn.colony->observations()[o];
          EXPECT_NE(std::find(scenario.observations.begin(), scenario.observations.end(), named),
                    scenario.observations.end());
          EXPECT_FALSE(std::holds_alternative<colony::Score>(named->what));
        }
        EXPECT_FALSE(one.reason.empty());
        EXPECT_FALSE(one.plain.empty());
      }
    }
  }
}

TEST(RandomListings, AccountsEndAtTheNumberWithoutMarkers) {
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    Dice dice(seed);
    const RandomColony drawn = random_colony(dice);
    const colony::Policy policy;
    publishing::Ground ground;
    ground.colony = drawn.colony.get();
    ground.policy = &policy;
    for (const Listing& listing : listed(*drawn.colony, all_animals(*drawn.colony))) {
      const auto found = publishing::evidence_of(ground, listing);
      for (const auto& one : std::get<std::vector<publishing::Evidence>>(found)) {
        EXPECT_NEAR(one.account.end, listing.statements[one.statement].markerless, close);
      }
    }
  }
}

}  // namespace
}  // namespace likelihet::properties::random_listings_test
