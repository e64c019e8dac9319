// A proof says today what the book will say once an offspring is recorded: on random colonies.
#include <algorithm>
#include <cmath>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "properties/dice.hpp"
#include "properties/random_colony.hpp"
#include <gtest/gtest.h>
#include <support/solved_colony.hpp>

#include <likelihet/planning/outlook.hpp>
#include <likelihet/planning/prove_out.hpp>
#include <likelihet/planning/rank.hpp>

namespace likelihet::properties::prove_out_steps_test {
namespace {

using planning::Pair;

constexpr double tolerance = 1e-11;

// A pair, one of which is to be proven by its offspring with the other.
struct Asked {
  RandomColony drawn;
  Pair pair;
  planning::ProveOutAsked proof;
};

std::optional<Asked> asked(std::uint64_t seed) {
  Dice dice(seed);
  Asked out{random_colony(dice), {}, {}};
  const std::size_t animals = out.drawn.colony->animals().size();
  out.pair = {dice.roll(animals), dice.roll(animals)};
  if (planning::pairing_fault(*out.drawn.colony, out.pair)) return std::nullopt;
  // Their sexes are recorded: of two that are not, an outlook takes the order as told, a proof any.
  out.drawn.records.animals[out.pair.dam].sex = genetics::Sex::female;
  out.drawn.records.animals[out.pair.sire].sex = genetics::Sex::male;
  auto sexed = colony::Colony::make(out.drawn.model, out.drawn.records);
  auto* colony = std::get_if<colony::Colony>(&sexed);
  if (colony == nullptr) return std::nullopt;
  out.drawn.colony = std::make_shared<const colony::Colony>(std::move(*colony));
  const bool dam = dice.chance(0.5);
  out.proof.animal = dam ? out.pair.dam : out.pair.sire;
  out.proof.partner = planning::PartnerAnimal{dam ? out.pair.sire : out.pair.dam};
  out.proof.locus = dice.roll(out.drawn.model->loci().size());
  out.proof.allele = 1;
  if (planning::prove_out_fault(*out.drawn.colony, out.proof)) return std::nullopt;
  return out;
}

template <class Check>
void for_pairs(std::size_t wanted, const Check& check) {
  std::size_t checked = 0;
  for (std::uint64_t seed = 1; checked < wanted && !testing::Test::HasFailure(); ++seed) {
    ASSERT_LT(seed, 4000u);
    SCOPED_TRACE("seed " + std::to_string(seed));
    const auto of = asked(seed);
    if (!of) continue;
    const auto made = planning::proof(*of->drawn.colony, of->proof, {}, {});
    const auto* proof = std::get_if<planning::ProveOut>(&made);
    if (proof == nullptr) continue;
    ++checked;
    check(*of, *proof);
  }
}

bool carries(const genetics::Locus& locus, std::size_t genotype, std::uint16_t allele) {
  const auto& alleles = locus.alleles();
  const std::string key = "/" + locus.key(genotype) + "/";
  return key.find("/" + alleles[allele] + "/") != std::string::npos;
}

// P(the animal carries it) in the book with an offspring of the pair that shows this; nothing where
// that cannot be.
std::optional<double> recorded(const Asked& of, std::size_t appearance) {
  colony::Records records = of.drawn.records;
  const auto& animals = of.drawn.colony->animals();
  const auto& locus = of.drawn.model->loci()[of.proof.locus];
  colony::ClutchRecord clutch;
  clutch.id = "next";
  clutch.dam = animals[of.pair.dam].id;
  clutch.sires.push_back({animals[of.pair.sire].id, std::nullopt});
  records.clutches.push_back(clutch);
  colony::AnimalRecord offspring;
  offspring.id = "offspring";
  offspring.clutch = "next";
  records.animals.push_back(offspring);
  colony::ObservationRecord look;
  look.id = "look";
  look.what = colony::AppearanceRecord{"offspring", locus.id(), locus.appearances()[appearance]};
  records.observations.push_back(look);
  const auto colony = support::colony_of(of.drawn.model, records);
  const auto solved = odds::compute(colony, support::only_odds());
  const auto* odds = std::get_if<odds::ColonyOdds>(&solved);
  if (odds == nullptr) return std::nullopt;
  const std::size_t animal = *colony.find_animal(animals[of.proof.animal].id);
  const auto& posterior = odds->animals[animal].loci[of.proof.locus].posterior;
  double sum = 0;
  for (std::size_t g = 0; g < posterior.size(); ++g) {
    if (carries(locus, g, of.proof.allele)) sum += posterior[g];
  }
  return sum;
}

// Bayes' rule through the whole book: kin, markers, results and sexes included.
TEST(ProveOutSteps, ArePosteriorsOfTheBookToCome) {
  std::size_t clear = 0, visual = 0;
  for_pairs(250, [&](const Asked& of, const planning::ProveOut& proof) {
    // Pairs of which some parents have no living offspring are told given that they have some,
    // which a recorded offspring says as well, but for the odds as they are.
    const auto& looks = of.drawn.model->loci()[of.proof.locus].appearances();
    if (proof.visual_appearances.size() == 1 && proof.odds.after_visual()) {
      const auto book = recorded(of, proof.visual_appearances[0]);
      ASSERT_TRUE(book.has_value());
      EXPECT_NEAR(proof.odds.after_visual()->carrier, *book, tolerance);
      ++visual;
    }
    if (looks.size() != proof.visual_appearances.size() + 1) return;
    for (std::size_t a = 0; a < looks.size(); ++a) {
      if (std::find(proof.visual_appearances.begin(), proof.visual_appearances.end(), a) !=
          proof.visual_appearances.end()) {
        continue;
      }
      const auto book = recorded(of, a);
      const double all_non_visual = proof.odds.all_non_visual(1);
      ASSERT_EQ(book.has_value(), all_non_visual > 0);
      if (!book) continue;
      EXPECT_NEAR(proof.odds.carrier_after(1), *book, tolerance);
      ++clear;
    }
  });
  EXPECT_GT(clear, 40u);
  EXPECT_GT(visual, 40u);
}

// Non-visual offspring never make a carrier likelier, and the needed number is the fewest there is;
// eggs taken as independent understate how often all are clear (Jensen's inequality).
TEST(ProveOutSteps, GoOneWay) {
  for_pairs(250, [](const Asked&, const planning::ProveOut& proof) {
    const planning::ProveOutOdds& odds = proof.odds;
    double before = odds.carrier_after(0);
    for (std::size_t n = 1; n <= 12; ++n) {
      const double naive = std::pow(1 - odds.visual(), static_cast<double>(n));
      EXPECT_GE(odds.all_non_visual(n), naive - 1e-12);
      EXPECT_LE(odds.all_non_visual(n), odds.all_non_visual(n - 1) + 1e-15);
      EXPECT_GE(odds.detected(n), odds.detected(n - 1) - 1e-12);
      if (odds.all_non_visual(n) <= 1e-12) break;
      const double now = odds.carrier_after(n);
      // Where none but a carrier's offspring can show it: a partner may give what shows in one
      // copy.
      const bool by_carriers = odds.after_visual() && odds.after_visual()->carrier == 1;
      EXPECT_LE(now, by_carriers ? before + 1e-12 : 1.0);
      before = now;
    }
    for (double level : planning::prove_out_levels) {
      const auto needed = odds.needed(level);
      if (!needed || *needed == 0) continue;
      EXPECT_GE(1 - odds.carrier_after(*needed), level - 1e-12);
      EXPECT_LT(1 - odds.carrier_after(*needed - 1), level + 1e-12);
    }
  });
}

// The same pair through its outlook: the chance of a visual is that of the appearances.
TEST(ProveOutSteps, AgreeWithTheOutlook) {
  for_pairs(250, [](const Asked& of, const planning::ProveOut& proof) {
    const auto made = planning::outlook(*of.drawn.colony, of.pair, {}, {});
    const auto& outlook = std::get<planning::Outlook>(made);
    if (outlook.none_can_live > 0) return;
    double visual = 0;
    for (const std::size_t a : proof.visual_appearances) {
      visual += outlook.loci[of.proof.locus].appearances[a].chance();
    }
    EXPECT_NEAR(proof.odds.visual(), visual, tolerance);
  });
}

// Learned tables that are what the model believes say what the model says.
TEST(ProveOutSteps, BelievedTablesAreNoNews) {
  for_pairs(80, [](const Asked& of, const planning::ProveOut& proof) {
    const odds::Tables believed = odds::believed(*of.drawn.model);
    const std::vector<const odds::Tables*> twice = {&believed, &believed};
    const auto learned =
        std::get<planning::ProveOut>(planning::proof(*of.drawn.colony, of.proof, {}, twice));
    EXPECT_EQ(learned.tables, 2u);
    EXPECT_NEAR(learned.odds.visual(), proof.odds.visual(), 1e-12);
    EXPECT_NEAR(learned.odds.carrier_after(0), proof.odds.carrier_after(0), 1e-12);
    const auto plain = planning::outlook(*of.drawn.colony, of.pair, {}, {});
    const auto averaged = planning::outlook(*of.drawn.colony, of.pair, {}, twice);
    const auto& one = std::get<planning::Outlook>(plain);
    const auto& other = std::get<planning::Outlook>(averaged);
    EXPECT_EQ(one.tables, 0u);
    EXPECT_EQ(other.tables, 2u);
    for (std::size_t g = 0; g < one.loci[0].genotypes.size(); ++g) {
      EXPECT_NEAR(one.loci[0].genotypes[g].at_least_one(5),
                  other.loci[0].genotypes[g].at_least_one(5), 1e-12);
    }
  });
}

// What counting offspring can teach of the parents is no more than is unknown of them, and grows
// with the count.
TEST(ProveOutSteps, APairingTeachesNoMoreThanIsUnknown) {
  for_pairs(120, [](const Asked& of, const planning::ProveOut&) {
    const planning::Goal goal{of.proof.locus, std::nullopt, 0};
    double before = 0;
    for (const std::size_t offspring : {1u, 3u, 9u}) {
      const auto ranked = planning::rank(*of.drawn.colony, goal, offspring, {}, {});
      for (const auto& one : std::get<planning::Ranking>(ranked).pairs) {
        EXPECT_GE(one.teaches, 0.0);
        EXPECT_LE(one.wanted.at_least_one(offspring),
                  static_cast<double>(offspring) * one.wanted.chance() + 1e-12);
        if (!(one.pair == of.pair)) continue;
        double entropy = 0;
        const auto made = planning::outlook(*of.drawn.colony, of.pair, {}, {});
        const auto& outlook = std::get<planning::Outlook>(made);
        if (outlook.none_can_live > 0) continue;
        const auto& loci = of.drawn.model->loci();
        for (std::size_t l = 0; l < loci.size(); ++l) {
          // Survival may tie loci on one sex chromosome; their joint entropy is the sum or less.
          const bool tied = loci[l].sex_linked() && loci[goal.locus].sex_linked();
          if (l != goal.locus && !tied) continue;
          for (double p : outlook.loci[l].parents) entropy -= p > 0 ? p * std::log2(p) : 0;
        }
        EXPECT_LE(one.teaches, entropy + 1e-12);
        EXPECT_GE(one.teaches, before - 1e-12);
        before = one.teaches;
      }
    }
  });
}

}  // namespace
}  // namespace likelihet::properties::prove_out_steps_test
