// What became of every animal.
#include <numeric>

#include "audit/hand_made.hpp"
#include "audit/simulated_season.hpp"
#include <gtest/gtest.h>

#include <likelihet/audit/flow.hpp>
#include <likelihet/audit/forecasts.hpp>

namespace likelihet::audit::flow_test {
namespace {

using support::RecordsBuilder;

std::vector<Flow> flows_of(const colony::Colony& colony) {
  const TruthSettings settings;
  const auto all = std::get<Forecasts>(forecasts(colony, settings));
  const auto background = marker_background(colony, all.truths, settings);
  return flows(colony, all, std::get<MarkerBackground>(background), std::nullopt);
}

template <std::size_t n>
std::size_t sum(const std::size_t (&parts)[n]) {
  return std::accumulate(parts, parts + n, std::size_t{0});
}

void expect_each_animal_in_one_place(const Flow& flow) {
  EXPECT_EQ(flow.forecast + sum(flow.left_out) + flow.not_known, flow.animals);
  EXPECT_EQ(sum(flow.known), flow.forecast);
  EXPECT_LE(flow.open_after_result, flow.not_known);
}

TEST(Flow, PutsEveryAnimalInExactlyOnePlace) {
  SeasonSettings settings;
  settings.clutches = 3;
  settings.hatchlings = 4;
  settings.other_trait = settings.other_tested = true;
  settings.markers = {
      {"crown-fleck", 2,
       [](const Hatchling& h) {
         return h.carrier ? std::vector<double>{0.3, 0.7} : std::vector<double>{0.8, 0.2};
       },
       false}};
  for (std::uint64_t seed = 1; seed <= 3; ++seed) {
    const auto found = flows_of(simulated_season(settings, seed).colony());
    ASSERT_EQ(found.size(), 2U);
    for (std::size_t locus = 0; locus < 2; ++locus) {
      EXPECT_EQ(found[locus].locus, locus);
      EXPECT_EQ(found[locus].animals, 18U);  // two parents and four offspring, three times
      EXPECT_EQ(found[locus].hatched, 12U);
      expect_each_animal_in_one_place(found[locus]);
    }
    EXPECT_GT(found[0].forecast, 0U);
    EXPECT_GT(found[0].left_out[static_cast<std::size_t>(Refusal::known_from_the_start)], 0U);
  }
}

// An assay that errs in three of ten: P(carrier | so reported) = 0.5 x 0.7 / (0.5 x 0.7 + 0.5 x
// 0.3) = 0.7 of a hatchling, and 0.3 where it reports "clear". Two reports alike tell more: 0.49 /
// (0.49 + 0.09), which is open as well.
TEST(Flow, AnAssayThatErrsLeavesAnimalsOpen) {
  auto model = hand_model();
  auto swab = support::shed_pcr();
  swab.id = "tail-swab";
  swab.reports = {"clear", "carrier"};
  swab.rows = {{"+/+", {0.7, 0.3}}, {"+/e", {0.3, 0.7}}, {"e/e", {0.3, 0.7}}};
  swab.mix_up = 0;
  auto exact = swab;
  exact.id = "tarnbrook-test";
  exact.rows = {{"+/+", {0.999, 0.001}}, {"+/e", {0.001, 0.999}}, {"e/e", {0.001, 0.999}}};
  model.assays = {swab, exact};
  RecordsBuilder records;
  records.founder("F", genetics::Sex::female, "bought").bought_as("tarnbrook", {{"+/e", 1.0}}, 1.0);
  records.founder("M", genetics::Sex::male).clutch("C", "F", {"M"});
  for (const char* id : {"H1", "H2", "H3", "H4", "H5"}) records.hatchling(id, "C");
  records.result("H1", "tail-swab", "carrier").on("2026-08-01");
  records.result("H2", "tail-swab", "clear").on("2026-08-01");
  records.result("H3", "tail-swab", "carrier").on("2026-08-01");
  records.result("H3", "tail-swab", "carrier").on("2026-08-02");
  records.result("H4", "tarnbrook-test", "carrier").on("2026-08-01");
  records.score("H1", "crown-fleck", "faint").on("2026-07-01");
  const auto colony = support::colony_of(support::made(model), records.records);
  const auto tarnbrook = flows_of(colony).at(0);
  expect_each_animal_in_one_place(tarnbrook);
  EXPECT_EQ(tarnbrook.open_after_result, 3U);
  EXPECT_NEAR(tarnbrook.open_carriers, 0.7 + 0.3 + 0.49 / 0.58, 1e-12);
  EXPECT_EQ(tarnbrook.not_known, 4U);  // they and H5, which was not tested
  EXPECT_EQ(tarnbrook.known[static_cast<std::size_t>(Kind::test)], 1U);
  EXPECT_EQ(tarnbrook.left_out[static_cast<std::size_t>(Refusal::known_from_the_start)], 2U);
  EXPECT_EQ(tarnbrook.scored, 1U);
}

// Forecasts by hand: of four known truths at tarnbrook one was refused, and one at brackmoor is
// another matter; each truth has forecasts on two bases, of which one counts.
TEST(Flow, CountsKindsAndRefusalsAsItStood) {
  const std::vector<HandAnimal> animals(6, {{0.5, 0.5, 0}, {0, 0, 1}});
  auto records = hand_records(animals);
  records.clutch("C", "A0", {"A1"}).hatchling("H", "C");
  const auto colony = hand_colony(records);
  Forecasts all;
  all.scored = {true, false, true, false, false, false, true};
  const std::tuple<std::size_t, std::size_t, Kind> truths[] = {{0, 0, Kind::breeding},
                                                               {1, 0, Kind::visual},
                                                               {2, 0, Kind::relatives},
                                                               {3, 0, Kind::breeding},
                                                               {3, 1, Kind::test}};
  for (const auto& [animal, locus, kind] : truths) {
    const std::size_t truth = all.truths.size();
    all.truths.push_back({{animal, locus, 1}, 1, std::nullopt, kind});
    for (const Scheme scheme : {Scheme::as_it_stood, Scheme::clutch_left_out}) {
      if (truth == 3 && scheme == Scheme::as_it_stood) continue;
      all.forecasts.push_back({truth, Basis::pedigree, scheme, 0.5});
      all.forecasts.push_back({truth, Basis::scored, scheme, 0.5});
    }
  }
  all.refused = {{3, Scheme::as_it_stood, Refusal::known_before_hatching},
                 {0, Scheme::clutch_left_out, Refusal::others_tell}};
  auto with_offspring = animals;
  with_offspring.push_back(animals[0]);
  const MarkerBackground background{{}, hand_table(colony, with_offspring)};
  const auto found = flows(colony, all, background, std::nullopt);
  ASSERT_EQ(found.size(), 2U);
  expect_each_animal_in_one_place(found[0]);
  EXPECT_EQ(found[0].animals, 7U);
  EXPECT_EQ(found[0].hatched, 1U);
  EXPECT_EQ(found[0].scored, 3U);
  EXPECT_EQ(found[0].forecast, 3U);
  const std::size_t known[] = {0, 1, 1, 1};  // test, breeding, visual, relatives
  const std::size_t left_out[] = {0, 1, 0};  // what the other scheme refused is not in it
  for (std::size_t k = 0; k < 4; ++k) EXPECT_EQ(found[0].known[k], known[k]) << k;
  for (std::size_t r = 0; r < 3; ++r) EXPECT_EQ(found[0].left_out[r], left_out[r]) << r;
  EXPECT_EQ(found[0].not_known, 3U);
  EXPECT_EQ(found[1].known[0], 1U);
  EXPECT_EQ(found[1].not_known, 6U);
}

// Only animals with a result that counts are open after one, and only between the thresholds.
TEST(Flow, OpenAfterAResultIsBetweenTheThresholds) {
  const std::vector<HandAnimal> animals = {{{0.2, 0.8, 0}},   {{0.01, 0.99, 0}}, {{0.99, 0.01, 0}},
                                           {{0.7, 0.2, 0.1}}, {{0.5, 0.5, 0}},   {{0, 0, 1}}};
  auto records = hand_records(animals);
  for (std::size_t a = 0; a < 6; ++a) {
    if (a != 4) records.result("A" + std::to_string(a), "shed-pcr", "no-call").on("2026-08-01");
  }
  records.observation().on = support::day("2026-09-01");
  const auto open = [&] {
    const auto colony = hand_colony(records);
    Forecasts none;
    none.scored.assign(6, false);
    const MarkerBackground background{{}, hand_table(colony, animals)};
    return flows(colony, none, background, support::day("2026-08-31"));
  };
  EXPECT_EQ(open().at(0).open_after_result, 2U);
  EXPECT_DOUBLE_EQ(open().at(0).open_carriers, 1.0);  // 0.8 + 0.2
  EXPECT_EQ(open().at(1).open_after_result, 0U);      // no result is of brackmoor
  records.withdraw("o1").on("2026-08-02");
  EXPECT_EQ(open().at(0).open_after_result, 1U);
}

}  // namespace
}  // namespace likelihet::audit::flow_test
