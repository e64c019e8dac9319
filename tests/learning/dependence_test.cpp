// Whether markers that repeat each other are told from markers that do not.
#include "learning/learning_colony.hpp"

#include <likelihet/inference/random_bits.hpp>
#include <likelihet/learning/dependence.hpp>
#include <likelihet/learning/simulate.hpp>

namespace likelihet::learning::dependence_test {
namespace {

using support::recessive_model;
using support::RecordsBuilder;

// Two markers of "no" and "yes", both half and half among visuals, and all but known.
colony::ModelDescription two_markers() {
  auto description = recessive_model();
  description.markers.clear();
  for (const char* id : {"one", "two"}) {
    colony::MarkerDescription marker;
    marker.id = id;
    marker.levels = {"no", "yes"};
    marker.rows = {{{{"tarnbrook", "e/e"}}, {0.5, 0.5}, 1e9}, {{}, {0.5, 0.5}, 1e9}};
    description.markers.push_back(marker);
  }
  return description;
}

// `alike` of 40 visuals read the same for both markers, the others not.
colony::Records visuals(int alike) {
  RecordsBuilder records;
  for (int i = 0; i < 40; ++i) {
    const std::string id = "V" + std::to_string(i);
    records.founder(id, std::nullopt, "bought").shows(id, "tarnbrook", "tarnbrook");
    const bool first = i % 2 == 0;
    const bool second = i < alike ? first : !first;
    records.score(id, "one", first ? "yes" : "no").score(id, "two", second ? "yes" : "no");
  }
  return records.records;
}

std::vector<Dependence> checked(const Ready& ready, int draws = 400) {
  DependenceCheck check(ready.prepared(), ready.model());
  Chain chain(ready.prepared(), ready.model(), ready.believed(), 1, 0);
  inference::RandomBits random(2);
  for (int i = 0; i < draws; ++i) {
    chain.step();
    check.add(chain, random);
  }
  return check.result();
}

// Levels are -1 and 1 in standard deviations: 30 alike and 10 not give (30 - 10)/40. Of 40 fair
// coins 30 or more, or 10 or fewer, fall alike with 2 P(X >= 30) = 0.0022 (binomial).
TEST(Dependence, CorrelationAndItsChanceByHand) {
  const auto found = checked(Ready(two_markers(), visuals(30)), 20'000);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].animals, 40U);
  EXPECT_NEAR(found[0].correlation, 0.5, 1e-3);
  EXPECT_NEAR(found[0].p, 0.0022, 0.0012);
}

TEST(Dependence, AsManyAlikeAsNotIsNone) {
  const auto found = checked(Ready(two_markers(), visuals(20)));
  EXPECT_NEAR(found[0].correlation, 0, 1e-3);
  EXPECT_GT(found[0].p, 0.9);  // 1 but where both products are 0 within the rows' own spread
}

TEST(Dependence, MarkersThatShutEachOtherOutAreFoundToo) {
  const auto found = checked(Ready(two_markers(), visuals(0)));
  EXPECT_NEAR(found[0].correlation, -1, 1e-3);
  EXPECT_LT(found[0].p, 0.003);  // no draw is as far: only what was seen itself
}

TEST(Dependence, FewAnimalsAreNoPair) {
  RecordsBuilder records;
  for (int i = 0; i < 19; ++i) {
    const std::string id = "V" + std::to_string(i);
    records.founder(id).score(id, "one", "yes").score(id, "two", "yes");
  }
  const Ready ready(two_markers(), records.records);
  EXPECT_TRUE(DependenceCheck(ready.prepared(), ready.model()).empty());
}

// Markers of unverified animals in books that the model wrote are independent: of 60 books few have
// a small p, though hets and others differ in both markers.
TEST(Dependence, GenotypesAreNoDependence) {
  auto description = two_markers();
  description.origins = {{"bought", {{"tarnbrook", {{"e", 0.4}}}}, 50.0}};
  for (auto& marker : description.markers) {
    marker.rows = {{{{"tarnbrook", "+/e"}}, {0.2, 0.8}, 20.0}, {{}, {0.8, 0.2}, 20.0}};
  }
  RecordsBuilder like;
  for (int i = 0; i < 40; ++i) {
    const std::string id = "F" + std::to_string(i);
    like.founder(id, std::nullopt, "bought").score(id, "one", "no").score(id, "two", "no");
  }
  const Ready ready(description, like.records);
  int small = 0;
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    const auto book = std::get<Simulated>(simulate(ready.colony(), like.records, seed));
    small += checked(Ready(description, book.records)).front().p < 0.05 ? 1 : 0;
  }
  // Posterior predictive p-values shy away from the ends; 3 are expected at most.
  EXPECT_LE(small, 6);
}

}  // namespace
}  // namespace likelihet::learning::dependence_test
