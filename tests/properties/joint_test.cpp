// Joint posteriors of random colonies against the enumeration of every joint state.
#include <cmath>
#include <string>
#include <variant>
#include <vector>

#include "properties/enumeration.hpp"
#include "properties/joint_state.hpp"
#include "properties/random_colony.hpp"
#include <gtest/gtest.h>

#include <likelihet/odds/joint.hpp>

namespace likelihet::properties::joint_test {
namespace {

constexpr std::uint64_t colonies = 300;
constexpr double tolerance = 1e-12;

// Everything an animal can be held at.
odds::Scenario holding(const colony::Colony& colony, const std::vector<std::size_t>& animals) {
  odds::Scenario out = odds::scenario(colony, std::nullopt);
  for (std::size_t a : animals) {
    for (std::size_t l = 0; l < colony.model().loci().size(); ++l) out.held.push_back({a, l});
  }
  return out;
}

// Cells of the table over all loci of both animals, from joint states that include the sex.
double expected_of(const std::vector<double>& pair, const std::vector<JointState>& states,
                   std::span<const std::uint32_t> cell) {
  const std::size_t loci = states.front().genotypes.size();
  const auto fits = [&](const JointState& state, std::size_t from) {
    for (std::size_t l = 0; l < loci; ++l) {
      if (state.genotypes[l] != cell[from + l]) return false;
    }
    return true;
  };
  double sum = 0;
  for (std::size_t i = 0; i < states.size(); ++i) {
    if (!fits(states[i], 0)) continue;
    for (std::size_t j = 0; j < states.size(); ++j) {
      if (fits(states[j], loci)) sum += pair[i * states.size() + j];
    }
  }
  return sum;
}

TEST(JointPosterior, EqualsEnumeration) {
  std::size_t possible = 0;
  for (std::uint64_t seed = 1; seed <= colonies && !HasFailure(); ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    Dice dice(seed);
    const RandomColony drawn = random_colony(dice);
    const std::size_t animals = drawn.colony->animals().size();
    if (animals < 2) continue;
    const std::size_t first = dice.roll(animals);
    const std::size_t second = (first + 1 + dice.roll(animals - 1)) % animals;
    const auto pair = enumerate_pair(*drawn.colony, std::nullopt, first, second);
    auto made = odds::JointBeliefs::make(holding(*drawn.colony, {first, second}), {});
    ASSERT_EQ(pair.empty(), std::holds_alternative<odds::Contradiction>(made));
    if (pair.empty()) continue;
    ++possible;
    auto& beliefs = *std::get<std::unique_ptr<odds::JointBeliefs>>(made);
    std::vector<std::size_t> held;
    for (std::size_t k = 0; k < 2 * drawn.model->loci().size(); ++k) held.push_back(k);
    const auto joint = std::get<odds::JointTable>(beliefs.joint(held));
    const auto states = joint_states(*drawn.model);
    double sum = 0;
    for (std::size_t c = 0; c < joint.cells(); ++c) {
      ASSERT_NEAR(joint.probability[c], expected_of(pair, states, joint.cell(c)), tolerance);
      sum += joint.probability[c];
    }
    // So no cell of positive probability is missing.
    ASSERT_NEAR(sum, 1.0, tolerance);
  }
  EXPECT_GT(possible, colonies / 3);
}

TEST(JointPosterior, PairTablesAreMarginsOfTheJoint) {
  for (std::uint64_t seed = 1; seed <= colonies && !HasFailure(); ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    Dice dice(seed);
    const RandomColony drawn = random_colony(dice);
    const std::size_t animals = drawn.colony->animals().size();
    if (animals < 3) continue;
    auto made = odds::JointBeliefs::make(holding(*drawn.colony, {0, 1, animals - 1}), {});
    auto* beliefs = std::get_if<std::unique_ptr<odds::JointBeliefs>>(&made);
    if (beliefs == nullptr) continue;
    const std::size_t loci = drawn.model->loci().size();
    const std::vector<std::size_t> others = {loci, 2 * loci};
    const auto tables = (*beliefs)->pairs(0, others);
    for (std::size_t k = 0; k < others.size(); ++k) {
      const std::vector<std::size_t> both = {0, others[k]};
      const auto joint = std::get<odds::JointTable>((*beliefs)->joint(both));
      const std::size_t size = drawn.model->loci()[0].size();
      std::vector<double> dense(size * size, 0.0);
      for (std::size_t c = 0; c < joint.cells(); ++c) {
        dense[joint.cell(c)[0] * size + joint.cell(c)[1]] = joint.probability[c];
      }
      for (std::size_t i = 0; i < dense.size(); ++i) {
        ASSERT_NEAR(tables[k][i], dense[i], tolerance);
      }
    }
  }
}

// A genotype that can be held has the same odds as one that cannot.
TEST(JointPosterior, HoldingNothingChangesNothing) {
  odds::Options options;
  options.draws = 0;
  options.surprises = false;
  for (std::uint64_t seed = 1; seed <= colonies && !HasFailure(); ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    Dice dice(seed);
    const RandomColony drawn = random_colony(dice);
    const auto plain = odds::compute(*drawn.colony, options);
    const auto* odds = std::get_if<odds::ColonyOdds>(&plain);
    if (odds == nullptr) continue;
    std::vector<std::size_t> all;
    for (std::size_t a = 0; a < drawn.colony->animals().size(); ++a) all.push_back(a);
    auto made = odds::JointBeliefs::make(holding(*drawn.colony, all), options);
    const auto& beliefs = *std::get<std::unique_ptr<odds::JointBeliefs>>(made);
    for (std::size_t a = 0; a < all.size(); ++a) {
      for (std::size_t l = 0; l < drawn.model->loci().size(); ++l) {
        const auto held = beliefs.marginal(a * drawn.model->loci().size() + l);
        for (std::size_t g = 0; g < held.size(); ++g) {
          ASSERT_NEAR(held[g], odds->animals[a].loci[l].posterior[g], tolerance);
        }
      }
    }
  }
}

// Eight at a time or one by one, in little memory.
TEST(JointPosterior, TheSameWithoutRoomForEight) {
  for (std::uint64_t seed = 1; seed <= 60 && !HasFailure(); ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    Dice dice(seed);
    const RandomColony drawn = random_colony(dice);
    if (drawn.colony->animals().size() < 2) continue;
    const auto scenario = holding(*drawn.colony, {0, 1});
    auto wide = odds::JointBeliefs::make(scenario, {});
    auto* roomy = std::get_if<std::unique_ptr<odds::JointBeliefs>>(&wide);
    if (roomy == nullptr) continue;
    std::vector<std::size_t> held;
    for (std::size_t k = 0; k < scenario.held.size(); ++k) held.push_back(k);
    const auto expected = std::get<odds::JointTable>((*roomy)->joint(held));
    odds::Options tight;
    tight.memory_bytes = std::size_t{1} << 14;
    auto narrow = odds::JointBeliefs::make(scenario, tight);
    auto* made = std::get_if<std::unique_ptr<odds::JointBeliefs>>(&narrow);
    if (made == nullptr) continue;  // not even one set of numbers fits
    const auto outcome = (*made)->joint(held);
    const auto* joint = std::get_if<odds::JointTable>(&outcome);
    if (joint == nullptr) continue;
    ASSERT_EQ(joint->states, expected.states);
    for (std::size_t c = 0; c < joint->cells(); ++c) {
      ASSERT_NEAR(joint->probability[c], expected.probability[c], tolerance);
    }
  }
}

}  // namespace
}  // namespace likelihet::properties::joint_test
