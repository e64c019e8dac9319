// Supposed evidence against the same evidence recorded, on random colonies.
#include <cmath>
#include <limits>
#include <string>
#include <vector>

#include "properties/dice.hpp"
#include "properties/random_colony.hpp"
#include <gtest/gtest.h>
#include <support/solved_colony.hpp>
#include <support/supposed_told.hpp>

#include <likelihet/odds/evidence_result.hpp>
#include <likelihet/odds/supposed.hpp>

namespace likelihet::properties::supposed_random_test {
namespace {

using odds::ColonyOdds;
using odds::GenotypePlace;
using odds::result_likelihood;
using support::expect_close;
using support::prepared;
using support::told;

// A report supposed and a report recorded are one: every animal, on random colonies with loops,
// several sires, loci on sex chromosomes and viability.
TEST(Supposed, EqualsTheSameResultRecorded) {
  std::size_t compared = 0;
  for (std::uint64_t seed = 1; seed <= 400; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    Dice dice(seed);
    const auto drawn = random_colony(dice);
    if (drawn.model->assays().empty()) continue;
    const std::size_t animal = dice.roll(drawn.colony->animals().size());
    const std::size_t k = dice.roll(drawn.model->assays().size());
    const colony::Assay& assay = drawn.model->assays()[k];
    const std::size_t report = dice.roll(assay.reports.size());
    auto records = drawn.records;
    colony::ObservationRecord added;
    added.id = "added";
    added.what = colony::ResultRecord{drawn.colony->animals()[animal].id, assay.id,
                                      assay.reports[report], std::nullopt};
    records.observations.push_back(added);
    const auto with = support::colony_of(drawn.model, records);
    const auto expected = odds::compute(with, support::only_odds());
    const GenotypePlace place{animal, assay.locus};
    const auto ready = prepared(*drawn.colony, {place});
    if (ready->plan->impossible()) continue;
    const auto out = told(*drawn.colony, *ready, {{}, {{place, result_likelihood(assay, report)}}});
    const auto* after = std::get_if<ColonyOdds>(&expected);
    if (after == nullptr) {
      EXPECT_EQ(out.log_evidence[1], -std::numeric_limits<double>::infinity());
      continue;
    }
    ++compared;
    const std::size_t loci = drawn.model->loci().size();
    for (std::size_t a = 0; a < after->animals.size(); ++a) {
      for (std::size_t l = 0; l < loci; ++l) {
        expect_close(out.odds[1][a * loci + l], after->animals[a].loci[l].posterior);
      }
    }
    const auto before = odds::compute(*drawn.colony, support::only_odds());
    if (const auto* base = std::get_if<ColonyOdds>(&before)) {
      EXPECT_NEAR(out.log_evidence[1] - out.log_evidence[0],
                  after->log_evidence - base->log_evidence, 1e-11);
    }
  }
  EXPECT_GT(compared, 150U);
}

}  // namespace
}  // namespace likelihet::properties::supposed_random_test
