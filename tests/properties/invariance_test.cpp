// What must not change the odds of random colonies: withdrawn records, strangers, new names,
// silent offspring, and a look back to the end of time.
#include <cmath>
#include <functional>
#include <string>
#include <variant>
#include <vector>

#include "properties/random_colony.hpp"
#include "support/small_model.hpp"
#include <gtest/gtest.h>

#include <likelihet/odds/odds.hpp>

namespace likelihet::properties::invariance_test {
namespace {

constexpr std::uint64_t colonies = 250;

odds::Outcome outcome_of(const std::shared_ptr<const colony::Model>& model,
                         const colony::Records& records) {
  odds::Options options;
  options.draws = 0;
  options.surprises = false;
  return odds::compute(support::colony_of(model, records), options);
}

// The first animals and loci have the same odds, up to `error`.
void expect_alike(const odds::Outcome& one, const odds::Outcome& two, std::size_t animals,
                  double error) {
  ASSERT_EQ(one.index(), two.index());
  const auto* a = std::get_if<odds::ColonyOdds>(&one);
  if (a == nullptr) return;
  const auto& b = std::get<odds::ColonyOdds>(two);
  EXPECT_NEAR(a->log_evidence, b.log_evidence, 10 * error);
  for (std::size_t i = 0; i < animals; ++i) {
    for (std::size_t l = 0; l < a->animals[i].loci.size(); ++l) {
      const auto& x = a->animals[i].loci[l];
      const auto& y = b.animals[i].loci[l];
      for (std::size_t g = 0; g < x.posterior.size(); ++g) {
        EXPECT_NEAR(x.pedigree[g], y.pedigree[g], error);
        EXPECT_NEAR(x.scored[g], y.scored[g], error);
        EXPECT_NEAR(x.posterior[g], y.posterior[g], error);
      }
    }
  }
}

using Change = std::function<void(Dice&, colony::Records&)>;

void expect_unchanged_by(const Change& change, double error = 1e-13) {
  std::size_t possible = 0;
  for (std::uint64_t seed = 1; seed <= colonies && !testing::Test::HasFailure(); ++seed) {
    Dice dice(seed);
    const RandomColony drawn = random_colony(dice);
    SCOPED_TRACE("seed " + std::to_string(seed));
    colony::Records changed = drawn.records;
    change(dice, changed);
    const auto before = outcome_of(drawn.model, drawn.records);
    possible += std::holds_alternative<odds::ColonyOdds>(before) ? 1 : 0;
    expect_alike(before, outcome_of(drawn.model, changed), drawn.records.animals.size(), error);
  }
  EXPECT_GT(possible, colonies / 4);
}

TEST(Invariance, ARecordThatIsWithdrawnAtOnce) {
  expect_unchanged_by([](Dice& dice, colony::Records& records) {
    if (records.observations.empty()) return;
    colony::ObservationRecord again = dice.pick(records.observations);
    if (std::holds_alternative<colony::WithdrawalRecord>(again.what)) return;
    again.id = "slip";
    colony::ObservationRecord back;
    back.id = "slip taken back";
    back.what = colony::WithdrawalRecord{"slip", std::nullopt};
    records.observations.push_back(again);
    records.observations.push_back(back);
  });
}

// No kin, and nothing recorded of it.
TEST(Invariance, AStranger) {
  expect_unchanged_by([](Dice&, colony::Records& records) {
    colony::AnimalRecord stranger;
    stranger.id = "A stranger";
    records.animals.push_back(stranger);
  });
}

// Names only order things: with others nothing but rounding changes.
TEST(Invariance, NamesOfAnimals) {
  expect_unchanged_by(
      [](Dice&, colony::Records& records) {
        std::vector<std::pair<std::string, std::string>> names;
        for (std::size_t i = 0; i < records.animals.size(); ++i) {
          names.emplace_back(records.animals[i].id,
                             numbered("Z", records.animals.size() - i).append("x"));
        }
        const auto rename = [&](std::string& id) {
          for (const auto& [old, other] : names) {
            if (id == old) {
              id = other;
              return;
            }
          }
        };
        for (auto& animal : records.animals) rename(animal.id);
        for (auto& clutch : records.clutches) {
          if (clutch.dam) rename(*clutch.dam);
          for (auto& sire : clutch.sires) rename(sire.id);
        }
        for (auto& observation : records.observations) {
          std::visit(
              [&](auto& what) {
                if constexpr (requires { what.animal; }) rename(what.animal);
              },
              observation.what);
        }
      },
      1e-12);
}

// A reading that could not be made, of anyone.
TEST(Invariance, ALookThatSawNothing) {
  for (std::uint64_t seed = 1; seed <= colonies && !HasFailure(); ++seed) {
    Dice dice(seed);
    const RandomColony drawn = random_colony(dice);
    if (drawn.model->markers().empty()) continue;
    SCOPED_TRACE("seed " + std::to_string(seed));
    colony::Records changed = drawn.records;
    colony::ObservationRecord nothing;
    nothing.id = "nothing";
    nothing.what = colony::ScoreRecord{dice.pick(changed.animals).id,
                                       drawn.model->markers().front().id,
                                       std::nullopt,
                                       "stuck shed",
                                       std::nullopt,
                                       std::nullopt,
                                       std::nullopt};
    changed.observations.push_back(nothing);
    expect_alike(outcome_of(drawn.model, drawn.records), outcome_of(drawn.model, changed),
                 drawn.records.animals.size(), 1e-13);
  }
}

// Two colonies that do not touch, put in one book: ln P adds up, and the odds stay.
TEST(Invariance, ASecondColonyBesideTheFirst) {
  for (std::uint64_t seed = 1; seed <= colonies && !HasFailure(); ++seed) {
    Dice dice(seed);
    const RandomColony drawn = random_colony(dice);
    SCOPED_TRACE("seed " + std::to_string(seed));
    const auto alone = outcome_of(drawn.model, drawn.records);
    const auto* one = std::get_if<odds::ColonyOdds>(&alone);
    if (one == nullptr) continue;
    colony::Records both = drawn.records;
    const auto twin = [](const std::string& id) { return id + " twin"; };
    for (auto animal : drawn.records.animals) {
      animal.id = twin(animal.id);
      if (animal.clutch) animal.clutch = twin(*animal.clutch);
      both.animals.push_back(animal);
    }
    for (auto clutch : drawn.records.clutches) {
      clutch.id = twin(clutch.id);
      if (clutch.dam) clutch.dam = twin(*clutch.dam);
      for (auto& sire : clutch.sires) sire.id = twin(sire.id);
      both.clutches.push_back(clutch);
    }
    for (auto observation : drawn.records.observations) {
      observation.id = twin(observation.id);
      std::visit(
          [&](auto& what) {
            if constexpr (requires { what.animal; }) {
              what.animal = twin(what.animal);
            } else {
              what.of = twin(what.of);
            }
          },
          observation.what);
      both.observations.push_back(observation);
    }
    const auto together = outcome_of(drawn.model, both);
    const auto& two = std::get<odds::ColonyOdds>(together);
    EXPECT_NEAR(two.log_evidence, 2 * one->log_evidence, 1e-10);
    const std::size_t animals = drawn.records.animals.size();
    for (std::size_t a = 0; a < animals; ++a) {
      for (std::size_t l = 0; l < one->animals[a].loci.size(); ++l) {
        for (std::size_t g = 0; g < one->animals[a].loci[l].posterior.size(); ++g) {
          const double alone_p = one->animals[a].loci[l].posterior[g];
          EXPECT_NEAR(two.animals[a].loci[l].posterior[g], alone_p, 1e-12);
          EXPECT_NEAR(two.animals[animals + a].loci[l].posterior[g], alone_p, 1e-12);
        }
      }
    }
  }
}

// As of a day after all records is as of now, to the last bit.
TEST(Invariance, ALookBackFromTheFuture) {
  for (std::uint64_t seed = 1; seed <= colonies && !HasFailure(); ++seed) {
    Dice dice(seed);
    const RandomColony drawn = random_colony(dice);
    odds::Options options;
    options.draws = 0;
    options.surprises = false;
    const auto now = odds::compute(*drawn.colony, options);
    options.as_of = support::day("9999-12-31");
    expect_alike(now, odds::compute(*drawn.colony, options), drawn.records.animals.size(), 0);
  }
}

// Probabilities are probabilities: in [0, 1], summing to 1, and what the pedigree rules out no
// marker or result brings back.
TEST(Invariance, LayersOnlyNarrow) {
  for (std::uint64_t seed = 1; seed <= colonies && !HasFailure(); ++seed) {
    Dice dice(seed);
    const RandomColony drawn = random_colony(dice);
    const auto outcome = outcome_of(drawn.model, drawn.records);
    const auto* odds = std::get_if<odds::ColonyOdds>(&outcome);
    if (odds == nullptr) continue;
    SCOPED_TRACE("seed " + std::to_string(seed));
    for (const auto& animal : odds->animals) {
      for (const auto& locus : animal.loci) {
        double sums[3] = {0, 0, 0};
        for (std::size_t g = 0; g < locus.pedigree.size(); ++g) {
          EXPECT_GE(locus.posterior[g], 0);
          sums[0] += locus.pedigree[g];
          sums[1] += locus.scored[g];
          sums[2] += locus.posterior[g];
          if (locus.pedigree[g] == 0) {
            EXPECT_EQ(locus.scored[g], 0.0);
          }
          if (locus.scored[g] == 0) {
            EXPECT_EQ(locus.posterior[g], 0.0);
          }
        }
        for (const double sum : sums) EXPECT_NEAR(sum, 1, 1e-12);
      }
    }
  }
}

}  // namespace
}  // namespace likelihet::properties::invariance_test
