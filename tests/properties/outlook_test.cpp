// Outlooks of random, mostly related pairs against the enumeration of every joint state.
#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <variant>
#include <vector>

#include "properties/enumeration.hpp"
#include "properties/joint_state.hpp"
#include "properties/random_colony.hpp"
#include "properties/random_records.hpp"
#include "support/small_model.hpp"
#include <gtest/gtest.h>

#include <likelihet/planning/kinship.hpp>
#include <likelihet/planning/outlook.hpp>
#include <likelihet/planning/rank.hpp>

namespace likelihet::properties::outlook_test {
namespace {

using planning::ChanceMixture;
using planning::Pair;

constexpr std::size_t pairs_wanted = 500;
constexpr std::size_t eggs = 6;
constexpr double tolerance = 1e-12;

// The pair with its sexes recorded, which is what a pairing implies; nothing where a record says
// otherwise (a brood with a partner of that sex).
std::optional<colony::Colony> with_sexes(const RandomColony& drawn, Pair pair) {
  colony::Records records = drawn.records;
  records.animals[pair.dam].sex = genetics::Sex::female;
  records.animals[pair.sire].sex = genetics::Sex::male;
  auto made = colony::Colony::make(drawn.model, records);
  if (auto* colony = std::get_if<colony::Colony>(&made)) return std::move(*colony);
  return std::nullopt;
}

// Calls `visit` with the weight of each joint state of the parents whose offspring can live, and
// what one offspring is then. Returns the weight of the others.
template <class Visit>
double each_state(const colony::Colony& colony, const std::vector<double>& joint,
                  const Visit& visit) {
  const auto states = joint_states(colony.model());
  double barren = 0;
  for (std::size_t i = 0; i < states.size(); ++i) {
    for (std::size_t j = 0; j < states.size(); ++j) {
      const double weight = joint[i * states.size() + j];
      if (!(weight > 0)) continue;
      const auto offspring = hatchling(colony.model(), states, states[i], states[j]);
      double sum = 0;
      for (double p : offspring) sum += p;
      sum > 0 ? visit(weight, states, offspring) : void(barren += weight);
    }
  }
  return barren;
}

struct Slow {
  double barren = 0;
  std::vector<std::vector<double>> chance, at_least_one;  // by locus and genotype
  std::map<std::vector<std::size_t>, std::pair<double, double>> combined;
  std::vector<std::vector<double>> shown_once;  // P(exactly one of the eggs), locus and appearance
};

Slow by_definition(const colony::Colony& colony, const std::vector<double>& joint) {
  const auto& loci = colony.model().loci();
  Slow out;
  for (const auto& locus : loci) {
    out.chance.emplace_back(locus.size(), 0.0);
    out.at_least_one.emplace_back(locus.size(), 0.0);
    out.shown_once.emplace_back(locus.appearances().size(), 0.0);
  }
  const double n = static_cast<double>(eggs);
  out.barren = each_state(
      colony, joint, [&](double weight, const auto& states, const std::vector<double>& offspring) {
        std::map<std::vector<std::size_t>, double> shows;
        for (std::size_t l = 0; l < loci.size(); ++l) {
          std::vector<double> of(loci[l].size(), 0.0), looks(loci[l].appearances().size(), 0.0);
          for (std::size_t s = 0; s < offspring.size(); ++s)
            of[states[s].genotypes[l]] += offspring[s];
          for (std::size_t g = 0; g < of.size(); ++g) {
            out.chance[l][g] += weight * of[g];
            out.at_least_one[l][g] += weight * (1 - std::pow(1 - std::min(of[g], 1.0), n));
            for (std::size_t a = 0; a < looks.size(); ++a) looks[a] += of[g] * loci[l].shows(g, a);
          }
          for (std::size_t a = 0; a < looks.size(); ++a) {
            const double p = std::min(looks[a], 1.0);
            out.shown_once[l][a] += weight * n * p * std::pow(1 - p, n - 1);
          }
        }
        // Appearances are independent given the offspring's genotypes.
        std::vector<std::vector<std::size_t>> all{{}};
        for (const auto& locus : loci) {
          std::vector<std::vector<std::size_t>> longer;
          for (const auto& start : all) {
            for (std::size_t a = 0; a < locus.appearances().size(); ++a) {
              longer.push_back(start);
              longer.back().push_back(a);
            }
          }
          all = longer;
        }
        for (const auto& choice : all) {
          double p = 0;
          for (std::size_t s = 0; s < offspring.size(); ++s) {
            double of = offspring[s];
            for (std::size_t l = 0; l < loci.size(); ++l) {
              of *= loci[l].shows(states[s].genotypes[l], choice[l]);
            }
            p += of;
          }
          p = std::min(p, 1.0);
          out.combined[choice].first += weight * p;
          out.combined[choice].second += weight * (1 - std::pow(1 - p, n));
        }
      });
  return out;
}

void expect_equal(const planning::Outlook& fast, const Slow& slow, const colony::Model& model) {
  ASSERT_NEAR(fast.none_can_live, slow.barren, tolerance);
  const double lives = 1 - slow.barren;
  if (lives < 1e-9) return;
  for (std::size_t l = 0; l < model.loci().size(); ++l) {
    for (std::size_t g = 0; g < model.loci()[l].size(); ++g) {
      const ChanceMixture& mixture = fast.loci[l].genotypes[g];
      ASSERT_NEAR(mixture.chance(), slow.chance[l][g] / lives, tolerance) << l << ' ' << g;
      ASSERT_NEAR(mixture.at_least_one(eggs), slow.at_least_one[l][g] / lives, tolerance);
    }
    for (std::size_t a = 0; a < model.loci()[l].appearances().size(); ++a) {
      const auto counts = fast.loci[l].appearances[a].counts(eggs);
      ASSERT_NEAR(counts[1], slow.shown_once[l][a] / lives, tolerance);
      ASSERT_NEAR(fast.loci[l].by_sex[0][a] + fast.loci[l].by_sex[1][a],
                  fast.loci[l].appearances[a].chance(), tolerance);
    }
  }
  std::map<std::vector<std::size_t>, const ChanceMixture*> listed;
  for (const auto& one : fast.combined) listed[one.appearances] = &one.chance;
  for (const auto& [choice, expected] : slow.combined) {
    const auto found = listed.find(choice);
    if (found == listed.end()) {
      ASSERT_EQ(expected.first, 0.0);
      continue;
    }
    ASSERT_NEAR(found->second->chance(), expected.first / lives, tolerance);
    ASSERT_NEAR(found->second->at_least_one(eggs), expected.second / lives, tolerance);
  }
}

// Any two that could be paired.
std::vector<Pair> possible_pairs(const colony::Colony& colony) {
  std::vector<Pair> out;
  for (std::size_t d = 0; d < colony.animals().size(); ++d) {
    for (std::size_t s = 0; s < colony.animals().size(); ++s) {
      if (!planning::pairing_fault(colony, {d, s})) out.push_back({d, s});
    }
  }
  return out;
}

struct DrawnPair {
  RandomColony drawn;
  Pair pair;
};

// Nothing where no two of the colony could be paired.
std::optional<DrawnPair> drawn_pair(Dice& dice) {
  RandomColony drawn = random_colony(dice);
  const auto possible = possible_pairs(*drawn.colony);
  if (possible.empty()) return std::nullopt;
  const Pair pair = dice.pick(possible);
  return DrawnPair{std::move(drawn), pair};
}

TEST(OutlookProperty, EqualsEnumeration) {
  std::size_t pairs = 0, related = 0;
  for (std::uint64_t seed = 1; pairs < pairs_wanted && !HasFailure(); ++seed) {
    ASSERT_LT(seed, 5000u);
    SCOPED_TRACE("seed " + std::to_string(seed));
    Dice dice(seed);
    const auto made = drawn_pair(dice);
    if (!made) continue;
    const auto& [drawn, pair] = *made;
    const auto sexed = with_sexes(drawn, pair);
    if (!sexed) continue;
    const auto joint = enumerate_pair(*sexed, std::nullopt, pair.dam, pair.sire);
    const auto fast = planning::outlook(*drawn.colony, pair, {}, {});
    ASSERT_EQ(joint.empty(), std::holds_alternative<odds::Contradiction>(fast));
    if (joint.empty()) continue;
    ++pairs;
    const auto& outlook = std::get<planning::Outlook>(fast);
    if (outlook.inbreeding > 0) ++related;
    expect_equal(outlook, by_definition(*sexed, joint), *drawn.model);
  }
  EXPECT_EQ(pairs, pairs_wanted);
  EXPECT_GT(related, pairs_wanted / 10);
}

// Each pair of a ranking has the figures that its own outlook has.
TEST(OutlookProperty, RankingsAgreeWithOutlooks) {
  std::size_t compared = 0;
  for (std::uint64_t seed = 1; seed <= 150 && !HasFailure(); ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    Dice dice(seed);
    const RandomColony drawn = random_colony(dice);
    const std::size_t locus = dice.roll(drawn.model->loci().size());
    const planning::Goal goal{locus, dice.roll(drawn.model->loci()[locus].size()), 0};
    const auto ranked = planning::rank(*drawn.colony, goal, eggs, {}, {});
    const auto* ranking = std::get_if<planning::Ranking>(&ranked);
    if (ranking == nullptr) continue;
    const auto could = possible_pairs(*drawn.colony);
    ASSERT_EQ(ranking->considered,
              static_cast<std::size_t>(std::count_if(could.begin(), could.end(), [&](Pair pair) {
                return !std::holds_alternative<odds::Contradiction>(
                    planning::outlook(*drawn.colony, pair, {}, {}));
              })));
    for (const auto& one : ranking->pairs) {
      const auto alone = planning::outlook(*drawn.colony, one.pair, {}, {});
      const auto& outlook = std::get<planning::Outlook>(alone);
      // A ranking leaves out parents without living offspring at this locus only.
      if (outlook.none_can_live > 0) continue;
      const auto& mixture = outlook.loci[locus].genotypes[*goal.genotype];
      ASSERT_NEAR(one.wanted.chance(), mixture.chance(), tolerance);
      ASSERT_NEAR(one.wanted.at_least_one(eggs), mixture.at_least_one(eggs), tolerance);
      ASSERT_NEAR(one.inbreeding, outlook.inbreeding, tolerance);
      ++compared;
    }
  }
  EXPECT_GT(compared, 200u);
}

// The order of the records is no part of the answer.
TEST(OutlookProperty, NoMatterTheOrderOfRecords) {
  for (std::uint64_t seed = 1; seed <= 100 && !HasFailure(); ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    Dice dice(seed);
    const auto made = drawn_pair(dice);
    if (!made) continue;
    const auto& [drawn, pair] = *made;
    const colony::Colony other = support::colony_of(drawn.model, shuffled(dice, drawn.records));
    const auto id = [&, &animals = drawn.colony->animals()](std::size_t a) {
      return animals[a].id;
    };
    const Pair moved{*other.find_animal(id(pair.dam)), *other.find_animal(id(pair.sire))};
    const auto one = planning::outlook(*drawn.colony, pair, {}, {});
    const auto two = planning::outlook(other, moved, {}, {});
    ASSERT_EQ(one.index(), two.index());
    const auto* a = std::get_if<planning::Outlook>(&one);
    if (a == nullptr) continue;
    const auto& b = std::get<planning::Outlook>(two);
    for (std::size_t l = 0; l < a->loci.size(); ++l) {
      for (std::size_t g = 0; g < a->loci[l].genotypes.size(); ++g) {
        ASSERT_EQ(a->loci[l].genotypes[g].weights(), b.loci[l].genotypes[g].weights());
      }
    }
  }
}

}  // namespace
}  // namespace likelihet::properties::outlook_test
