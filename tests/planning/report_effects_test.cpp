// What a report would change: by hand, and against the same report recorded.
#include <algorithm>
#include <cmath>
#include <memory>
#include <string>
#include <vector>

#include "planning/by_enumeration.hpp"
#include "planning/planned.hpp"
#include "properties/dice.hpp"
#include "properties/enumeration.hpp"
#include "properties/random_colony.hpp"
#include <gtest/gtest.h>
#include <support/solved_colony.hpp>

#include <likelihet/planning/report_effects.hpp>

namespace likelihet::planning::report_effects_test {
namespace {

using genetics::Sex;
using support::RecordsBuilder;

// A sure carrier out of nothing known: her offspring are 1/2 hets. A perfect test.
colony::ModelDescription perfect() {
  auto model = support::recessive_model();
  model.assays[0].rows = {{"+/+", {1, 0, 0, 0}}, {"+/e", {0, 1, 0, 0}}, {"e/e", {0, 0, 1, 0}}};
  model.assays[0].mix_up = 0;
  return model;
}

RecordsBuilder dam_and_offspring() {
  RecordsBuilder records;
  records.founder("D", Sex::female).bought_as("tarnbrook", {{"+/+", 0.5}, {"+/e", 0.5}});
  records.founder("S", Sex::male).clutch("C", "D", {"S"}).hatchling("H", "C").hatchling("I", "C");
  return records;
}

// H is a carrier with 1/4. Reported "carrier" (1/4), the dam is one, and I with 1/2. Reported clear
// (3/4): the dam with (1/4) / (3/4) = 1/3, I with 1/6.
TEST(ReportEffects, AreWorkedByHand) {
  const auto colony = support::colony_of(perfect(), dam_and_offspring());
  const Planned planned(colony);
  const std::size_t h = *colony.find_animal("H");
  const auto effects = std::get<std::vector<ReportEffect>>(
      report_effects(planned.ground, *planned.recorded, planned.candidate(h, 0)));
  ASSERT_EQ(effects.size(), 2U) << "affected cannot be reported";
  EXPECT_NEAR(effects[0].probability, 0.75, 1e-15);
  EXPECT_NEAR(effects[1].probability, 0.25, 1e-15);
  EXPECT_EQ(effects[1].reports, (std::vector<std::size_t>{1}));
  EXPECT_NEAR(effects[1].genotypes[1], 1, 1e-15);
  EXPECT_EQ(effects[1].moved, 2U);
  ASSERT_EQ(effects[1].largest.size(), 2U);
  EXPECT_EQ(effects[1].largest[0].animal, *colony.find_animal("D"));
  EXPECT_NEAR(effects[1].largest[0].before, 0.5, 1e-15);
  EXPECT_NEAR(effects[1].largest[0].after, 1, 1e-15);
  EXPECT_EQ(effects[1].largest[1].animal, *colony.find_animal("I"));
  EXPECT_NEAR(effects[1].largest[1].after, 0.5, 1e-15);
  EXPECT_NEAR(effects[0].largest[0].after, 1.0 / 3, 1e-15);
  EXPECT_NEAR(effects[0].largest[1].after, 1.0 / 6, 1e-15);
}

// Of a test of the dam, all offspring gain: H(1/4) each before; 1 bit each with 1/2, none with 1/2.
TEST(AloneGains, CountEveryAnimal) {
  const auto colony = support::colony_of(perfect(), dam_and_offspring());
  const Planned planned(colony);
  const std::size_t d = planned.position(*colony.find_animal("D"), 0);
  const auto gains =
      std::get<std::vector<AloneGain>>(alone_gains(planned.ground, *planned.recorded, {d}));
  const double quarter = 0.25 * 2 + 0.75 * std::log2(4.0 / 3);
  EXPECT_NEAR(gains[0].listing_bits, 1 + 2 * (quarter - 0.5), 1e-14);
}

// Kept for 300 if a carrier, sold for 100: each offspring is sold now (75 < 100). A carrier dam
// makes them worth 150 each, half the time: a rise of 25 each. The dam herself: 150 now, then 300
// or 100.
TEST(AloneGains, CountMoney) {
  const auto colony = support::colony_of(perfect(), dam_and_offspring());
  colony::Policy policy;
  policy.worth = {{"tarnbrook", {{"+/e", 300}}, 100}};
  const Planned planned(colony, policy);
  const std::size_t d = planned.position(*colony.find_animal("D"), 0);
  const auto gains =
      std::get<std::vector<AloneGain>>(alone_gains(planned.ground, *planned.recorded, {d}));
  EXPECT_NEAR(gains[0].worth, 50 + 2 * 25, 1e-12);
}

// A place alone, and all in one plan, tell the same.
TEST(AloneGains, DoNotDependOnTheCompany) {
  const auto colony = support::colony_of(support::recessive_model(), dam_and_offspring());
  const Planned planned(colony);
  std::vector<std::size_t> all;
  for (std::size_t c = 0; c < planned.candidates.size(); ++c) all.push_back(c);
  const auto together =
      std::get<std::vector<AloneGain>>(alone_gains(planned.ground, *planned.recorded, all));
  for (const std::size_t c : all) {
    const auto alone =
        std::get<std::vector<AloneGain>>(alone_gains(planned.ground, *planned.recorded, {c}));
    EXPECT_NEAR(alone[0].listing_bits, together[c].listing_bits, 1e-14);
  }
}

// Breeders that nothing is seen of stay out of the tree until something may be: with room for every
// report the plan of this inbred line is larger, and is made in halves where it does not fit.
TEST(AloneGains, AreWorkedOutInHalvesWhereMemoryIsShort) {
  RecordsBuilder records;
  records.founder("F0", Sex::female, "bought").founder("M0", Sex::male, "bought");
  for (int i = 0; i < 5; ++i) {
    const std::string now = std::to_string(i);
    const std::string next = std::to_string(i + 1);
    records.clutch("C" + now, "F" + now, {"M" + now});
    for (const char* kind : {"F", "M", "X", "Y"}) records.hatchling(kind + next, "C" + now);
  }
  for (int i = 0; i < 4; ++i) {
    const std::string id = "Z" + std::to_string(i);
    records.clutch("D" + id, "X" + std::to_string(i + 1), {"Y" + std::to_string(5 - i)});
    records.hatchling(id, "D" + id);
  }
  const auto colony = support::colony_of(support::recessive_model(), records);
  Planned planned(colony);
  std::vector<std::size_t> all;
  std::vector<odds::GenotypePlace> places;
  for (std::size_t c = 0; c < planned.candidates.size(); ++c) {
    all.push_back(c);
    places.push_back({planned.candidates[c].test.animal, 0});
  }
  const auto roomy =
      std::get<std::vector<AloneGain>>(alone_gains(planned.ground, *planned.recorded, all));
  std::size_t halved = 0;
  for (std::size_t bytes = 256; bytes < 200'000; bytes += bytes / 4) {
    planned.ground.question.memory_bytes = bytes;
    const auto whole = SupposedBook::make(colony, planned.ground.question, places, {0});
    const auto gains = alone_gains(planned.ground, *planned.recorded, all);
    const auto* tight = std::get_if<std::vector<AloneGain>>(&gains);
    if (tight == nullptr || !std::holds_alternative<odds::TooLarge>(whole)) continue;
    ++halved;
    for (const std::size_t c : all) {
      EXPECT_NEAR((*tight)[c].listing_bits, roomy[c].listing_bits, 1e-13);
    }
  }
  EXPECT_GT(halved, 0U);
}

// On random books: probability and everyone's odds are those of the report recorded, and the gains
// those that enumeration gives.
TEST(ReportEffects, EqualEnumerationOnRandomBooks) {
  std::size_t compared = 0;
  for (std::uint64_t seed = 1; compared < 100; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    properties::Dice dice(seed);
    const auto drawn = properties::random_colony(dice);
    if (drawn.model->assays().empty()) continue;
    if (properties::enumeration_size(*drawn.colony) > 2000) continue;
    ByEnumeration slow(drawn.model, drawn.records);
    if (!slow.possible()) continue;
    ++compared;
    colony::Policy policy;
    const std::size_t locus = dice.roll(drawn.model->loci().size());
    policy.worth.push_back({drawn.model->loci()[locus].id(), {}, 40});
    for (std::size_t g = 0; g < drawn.model->loci()[locus].size(); ++g) {
      policy.worth[0].kept.emplace_back(drawn.model->loci()[locus].key(g), 100 * dice.unit());
    }
    const Planned planned(*drawn.colony, policy);
    const std::size_t c = dice.roll(planned.candidates.size());
    const TestCandidate& candidate = planned.candidates[c];
    const auto gains =
        std::get<std::vector<AloneGain>>(alone_gains(planned.ground, *planned.recorded, {c}));
    EXPECT_NEAR(gains[0].listing_bits, slow.listing_gain({candidate.test}, candidate.locus), 1e-10);
    if (candidate.locus == locus) {
      const double rise = slow.expected_rise(
          {candidate.test}, locus,
          [&](const std::vector<double>& odds) { return planned.worth.of(locus, odds); });
      EXPECT_NEAR(gains[0].worth, rise, 1e-9);
    }
    const auto effects = std::get<std::vector<ReportEffect>>(
        report_effects(planned.ground, *planned.recorded, candidate));
    double sum = 0;
    for (const ReportEffect& effect : effects) {
      sum += effect.probability;
      auto records = drawn.records;
      const colony::Assay& assay = drawn.model->assays()[candidate.test.assay];
      colony::ObservationRecord record;
      record.id = "added";
      record.what =
          colony::ResultRecord{drawn.colony->animals()[candidate.test.animal].id, assay.id,
                               assay.reports[effect.reports.front()], std::nullopt};
      records.observations.push_back(record);
      const auto after =
          properties::enumerate(support::colony_of(drawn.model, records), std::nullopt);
      ASSERT_FALSE(after.contradiction);
      const auto& own = after.animals[candidate.test.animal][candidate.locus].posterior;
      support::expect_close(effect.genotypes, own);
      for (const OddsMove& move : effect.largest) {
        EXPECT_NEAR(move.after, after.animals[move.animal][candidate.locus].het[move.allele - 1],
                    1e-12);
        EXPECT_GT(std::abs(move.after - move.before), counts_as_moved);
      }
    }
    EXPECT_NEAR(sum, 1, 1e-12);
  }
}

}  // namespace
}  // namespace likelihet::planning::report_effects_test
