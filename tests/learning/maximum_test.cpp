// Climbs end at the mode, never go down, and tell when there is more than one.
#include <cmath>

#include "learning/learning_colony.hpp"

#include <likelihet/inference/random_bits.hpp>
#include <likelihet/learning/maximum.hpp>

namespace likelihet::learning::maximum_test {
namespace {

using support::recessive_model;
using support::RecordsBuilder;

// Ten visual animals (e/e) and ten proven others, each scored for sure: rows are in proportion to
// worth x expect + counts, by hand.
TEST(Climb, KnownGenotypesNeedOneStep) {
  const Ready ready(recessive_model(), ten_visuals());
  Expecting expecting(ready.prepared(), ready.model());
  const auto end = climb(expecting, ready.model(), ready.believed());
  ASSERT_TRUE(end && end->converged);
  // Worth 4 of 0.2, 0.3, 0.5, and 4 absent, 6 clear.
  EXPECT_NEAR(end->tables.rows[0][0][0][0], (0.8 + 4) / 14, 1e-9);
  EXPECT_NEAR(end->tables.rows[0][0][0][1], 1.2 / 14, 1e-9);
  EXPECT_NEAR(end->tables.rows[0][0][0][2], (2.0 + 6) / 14, 1e-9);
  // 20 alleles of e beside 49 and 1 believed.
  EXPECT_NEAR(end->tables.origins[0][0][1], 21.0 / 70, 1e-9);
}

// A pedigree with a loop, unsure readings, a weight, a claim and a lethal: each step is no lower.
TEST(Climb, NeverGoesDown) {
  auto description = recessive_model();
  description.markers[0].weight = 0.7;
  description.loci[0].viability = {{"e/e", 0.5}};
  RecordsBuilder records;
  records.founder("A", genetics::Sex::female, "bought")
      .bought_as("tarnbrook", {{"+/e", 0.66}, {"+/+", 0.34}}, 0.9);
  records.founder("B", genetics::Sex::male, "bought").clutch("C1", "A", {"B"});
  records.hatchling("C", "C1", genetics::Sex::female).hatchling("D", "C1", genetics::Sex::male);
  records.clutch("C2", "C", {"D"}).clutch("C3", "A", {"D", "B"});
  const char* levels[3] = {"absent", "faint", "strong"};
  for (int i = 0; i < 24; ++i) {
    const std::string id = "H" + std::to_string(i);
    records.hatchling(id, i % 2 == 0 ? "C2" : "C3");
    records.score(id, "crown-fleck", levels[(i * 7) % 3], "ana");
    if (i % 5 == 0) records.result(id, "shed-pcr", i % 10 == 0 ? "carrier" : "clear");
  }
  const Ready ready(description, records.records);
  Expecting expecting(ready.prepared(), ready.model());
  inference::RandomBits random(3);
  for (int start = 0; start < 4; ++start) {
    const auto end = climb(expecting, ready.model(),
                           start == 0 ? ready.believed() : odds::drawn(ready.model(), random));
    ASSERT_TRUE(end && end->converged);
    for (std::size_t i = 1; i < end->trace.size(); ++i) {
      EXPECT_GE(end->trace[i], end->trace[i - 1] - 1e-9) << "step " << i;
    }
  }
}

// Three markers and no verified animal, started from rows that are alike: hets may be either of
// two classes, and both explanations are found and told.
TEST(Modes, TwoNamesForTheSameClassesAreBothFound) {
  auto description = recessive_model();
  description.loci[0].appearance = {{"default", {{"plain", 1.0}}}};
  description.origins = {{"bought", {{"tarnbrook", {{"e", 0.5}}}}, 1000.0}};
  description.markers.clear();
  for (const char* id : {"one", "two", "three"}) {
    colony::MarkerDescription marker;
    marker.id = id;
    marker.levels = {"no", "yes"};
    marker.rows = {{{{"tarnbrook", "+/e"}}, {0.5, 0.5}, 1.0}, {{}, {0.5, 0.5}, 1.0}};
    description.markers.push_back(marker);
  }
  RecordsBuilder records;
  for (int i = 0; i < 60; ++i) {
    const std::string id = "F" + std::to_string(i);
    records.founder(id, std::nullopt, "bought");
    for (const char* marker : {"one", "two", "three"}) {
      records.score(id, marker, i % 2 == 0 ? "yes" : "no");
    }
  }
  const Ready ready(description, records.records);
  Expecting expecting(ready.prepared(), ready.model());
  const auto all = modes(expecting, ready.model(), 8, 5);
  ASSERT_TRUE(all);
  ASSERT_GE(all->found.size(), 2U);
  const auto& first = all->found[0].tables.rows[0][0];
  const auto& second = all->found[1].tables.rows[0][0];
  EXPECT_NEAR(all->found[0].log_posterior, all->found[1].log_posterior, 1e-6);
  EXPECT_NEAR(first[0][1], second[1][1], 1e-6);  // the rows changed places
  EXPECT_NEAR(first[1][1], second[0][1], 1e-6);
}

TEST(Modes, OneExplanationIsOneMode) {
  RecordsBuilder records;
  for (int i = 0; i < 8; ++i) {
    const std::string id = "V" + std::to_string(i);
    records.founder(id, std::nullopt, "bought").shows(id, "tarnbrook", "tarnbrook");
    records.score(id, "crown-fleck", "strong");
  }
  const Ready ready(recessive_model(), records.records);
  Expecting expecting(ready.prepared(), ready.model());
  const auto all = modes(expecting, ready.model(), 4, 1);
  ASSERT_EQ(all->found.size(), 1U);
  EXPECT_EQ(all->found[0].starts, 5U);
}

}  // namespace
}  // namespace likelihet::learning::maximum_test
