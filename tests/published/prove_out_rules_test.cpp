// Rules of test matings and of proving by clear young, through the proof of a pair.
//
// Sources: as in test_mating_test.cpp (handbooks; the column of matings to carriers was read in the
// genetics notes of North Dakota State University, the others are from memory),
// mixed_mates_test.cpp (an online genetics course) and clear_young_table_test.cpp (exact
// fractions). The last table is the demo's own design (invented data): a 50 %, 66 % and 95 % claim
// that no visual has borne out.
#include <functional>
#include <string>
#include <vector>

#include "published/worked_colony.hpp"
#include <gtest/gtest.h>

#include <likelihet/planning/prove_out.hpp>

namespace likelihet::published::prove_out_rules_test {
namespace {

planning::ProveOut prove_out_of(const colony::Colony& colony, const std::string& animal,
                                const std::string& partner) {
  planning::ProveOutAsked asked;
  asked.animal = *colony.find_animal(animal);
  if (const auto known = colony.find_animal(partner)) {
    asked.partner = planning::PartnerAnimal{*known};
  } else {
    asked.partner = planning::PartnerGenotype{*colony.model().loci()[0].find(partner)};
  }
  return std::get<planning::ProveOut>(planning::proof(colony, asked, {}, {}));
}

planning::ProveOutOdds of_claim(const Json& claim, const std::string& partner) {
  WorkedColony colony(recessive_model());
  colony.founder("sire", claim).sex("sire", "male");
  return prove_out_of(colony.colony(), "sire", partner).odds;
}

std::size_t smallest(double confidence, const planning::ProveOutOdds& odds) {
  std::size_t n = 1;
  while (odds.detected(n) < confidence) ++n;
  return n;
}

TEST(ProveOutRules, HandbookNumbers) {
  const auto to_affected = of_claim(either("+/+", 0.5, "+/a"), "a/a");
  EXPECT_EQ(smallest(0.95, to_affected), 5u);
  EXPECT_EQ(smallest(0.99, to_affected), 7u);
  EXPECT_NEAR(to_affected.detected(5), 0.96875, 1e-12);
  const auto to_carriers = of_claim(either("+/+", 0.5, "+/a"), "+/a");
  EXPECT_EQ(smallest(0.95, to_carriers), 11u);
  EXPECT_EQ(smallest(0.99, to_carriers), 17u);  // the handbooks' 16 is just short
  EXPECT_NEAR(to_carriers.detected(16), 0.9899774042423815, 1e-12);
}

// One young of each of n daughters by clear dams: n - 1 are recorded, the next is the proof's.
WorkedColony with_daughters(const Json& claim, int seen) {
  WorkedColony colony(recessive_model());
  colony.founder("sire", claim).sex("sire", "male");
  for (int k = 0; k <= seen; ++k) {
    const std::string number = std::to_string(k);
    colony.founder("dam" + number).child("daughter" + number, "dam" + number, "sire", "female");
    if (k == seen) break;
    colony.child("young" + number, "daughter" + number, "sire").shows("young" + number, "clear");
  }
  return colony;
}

TEST(ProveOutRules, OwnDaughters) {
  const auto carrier = [](int young) {
    return prove_out_of(with_daughters(either("+/+", 0.5, "+/a"), young - 1).colony(), "sire",
                        numbered("daughter", young - 1))
        .odds.carrier_after(1);
  };
  for (const auto& [young, detection] : {std::pair{22, 0.9470120440637096},
                                         {23, 0.9536355385557459},
                                         {34, 0.9893273122680238},
                                         {35, 0.9906613982345208}}) {
    const double p = carrier(young);
    EXPECT_NEAR(1 - p / (1 - p), detection, 1e-12) << young;
  }
}

// Two young of horned cows seen, then three of known carriers: 27/256 on the odds.
TEST(ProveOutRules, MixedMates) {
  WorkedColony colony(recessive_model());
  colony.founder("bull", either("+/+", 0.5, "+/a")).sex("bull", "male").brood("bull", "a/a", 2);
  const auto out = prove_out_of(colony.colony(), "bull", "+/a");
  EXPECT_NEAR(out.odds.carrier_after(3), 27. / 283, 1e-12);
  EXPECT_NEAR(out.odds.carrier_after(3), 0.09540636042402827, 1e-12);
  EXPECT_EQ(out.seen.non_visual, 0);
}

struct Row {
  std::size_t young;
  double to_affected, to_carrier;
};

void expect_rows(const Json& claim, const std::vector<Row>& rows) {
  const auto affected = of_claim(claim, "a/a"), carrier = of_claim(claim, "+/a");
  for (const Row& row : rows) {
    EXPECT_NEAR(affected.carrier_after(row.young), row.to_affected, 1e-12) << row.young;
    EXPECT_NEAR(carrier.carrier_after(row.young), row.to_carrier, 1e-12) << row.young;
  }
}

TEST(ProveOutRules, ClearYoungFromOneHalf) {
  expect_rows(either("+/+", 0.5, "+/a"), {{0, 1. / 2, 1. / 2},
                                          {1, 1. / 3, 3. / 7},
                                          {2, 1. / 5, 9. / 25},
                                          {5, 1. / 33, 243. / 1267},
                                          {8, 1. / 257, 6561. / 72097},
                                          {11, 1. / 2049, 177147. / 4371451},
                                          {17, 1. / 131073, 129140163. / 17309009347},
                                          {35, 1. / 34359738369, 4.237657125099922e-05}});
}

TEST(ProveOutRules, ClearYoungFromTwoThirds) {
  expect_rows(either("+/a", 2. / 3, "+/+"), {{0, 2. / 3, 2. / 3},
                                             {1, 1. / 2, 3. / 5},
                                             {3, 1. / 5, 27. / 59},
                                             {6, 1. / 33, 729. / 2777},
                                             {10, 1. / 513, 59049. / 583337},
                                             {16, 1. / 32769, 43046721. / 2190530369},
                                             {35, 1. / 17179869185, 8.474955110660748e-05}});
}

TEST(ProveOutRules, ToFallBelowFivePercent) {
  struct Claim {
    double odds;
    std::size_t to_visual, to_het;
  };
  for (const Claim& claim :
       {Claim{0.5, 5, 11}, Claim{2. / 3, 6, 13}, Claim{0.66, 6, 13}, Claim{0.95, 9, 21}}) {
    const Json odds = either("+/a", claim.odds, "+/+");
    EXPECT_EQ(of_claim(odds, "a/a").needed(0.95), claim.to_visual) << claim.odds;
    EXPECT_EQ(of_claim(odds, "+/a").needed(0.95), claim.to_het) << claim.odds;
  }
}

}  // namespace
}  // namespace likelihet::published::prove_out_rules_test
