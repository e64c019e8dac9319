// Which samples could be sent.
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <support/solved_colony.hpp>

#include <likelihet/planning/test_candidates.hpp>

namespace likelihet::planning::test_candidates_test {
namespace {

using support::day;
using support::RecordsBuilder;

colony::ModelDescription two_assays() {
  auto model = support::masked_model();
  auto other = model.assays[0];
  other.id = "a-second";
  other.locus = "brackmoor";
  other.rows[0].at = "+/+";
  other.rows[1].at = "+/s";
  other.rows[2].at = "s/s";
  other.price = std::nullopt;
  model.assays.push_back(other);
  return model;
}

// Recorded out of order, tested in May and June; the second result was taken back.
colony::Colony herd() {
  RecordsBuilder records;
  records.founder("B").founder("A").founder("C");
  records.result("B", "shed-pcr", "clear").on("2024-05-01");
  records.result("C", "shed-pcr", "clear").on("2024-06-01").withdraw("o2").on("2024-07-01");
  return support::colony_of(two_assays(), records);
}

std::vector<std::string> told(const colony::Colony& colony,
                              const std::vector<TestCandidate>& candidates) {
  std::vector<std::string> out;
  for (const TestCandidate& of : candidates) {
    out.push_back(colony.animals()[of.test.animal].id + " " +
                  colony.model().assays()[of.test.assay].id + (of.tested ? " again" : ""));
  }
  return out;
}

using Told = std::vector<std::string>;

TEST(TestCandidates, AreEveryAnimalWithEveryAssayById) {
  const auto colony = herd();
  EXPECT_EQ(told(colony, test_candidates(colony, {}, {}, std::nullopt)),
            (Told{"A a-second", "A shed-pcr", "B a-second", "B shed-pcr again", "C a-second",
                  "C shed-pcr"}));
}

TEST(TestCandidates, AreThoseAskedFor) {
  const auto colony = herd();
  const TestsAsked animals{{2, 1, 2}, {}, std::nullopt};
  EXPECT_EQ(told(colony, test_candidates(colony, {}, animals, std::nullopt)),
            (Told{"A a-second", "A shed-pcr", "C a-second", "C shed-pcr"}));
  const TestsAsked locus{{1}, {}, 0};
  EXPECT_EQ(told(colony, test_candidates(colony, {}, locus, std::nullopt)), (Told{"A shed-pcr"}));
  const TestsAsked nothing{{1}, {1}, 0};
  EXPECT_TRUE(test_candidates(colony, {}, nothing, std::nullopt).empty());
}

TEST(TestCandidates, WereTestedByTheDay) {
  const auto colony = herd();
  const TestsAsked asked{{}, {0}, std::nullopt};
  EXPECT_EQ(told(colony, test_candidates(colony, {}, asked, day("2024-04-30"))),
            (Told{"A shed-pcr", "B shed-pcr", "C shed-pcr"}));
  EXPECT_EQ(told(colony, test_candidates(colony, {}, asked, day("2024-06-30"))),
            (Told{"A shed-pcr", "B shed-pcr again", "C shed-pcr again"}));
}

TEST(TestCandidates, HaveThePolicysPrice) {
  const auto colony = herd();
  colony::Policy policy;
  const auto without = test_candidates(colony, policy, {{1}, {}, std::nullopt}, std::nullopt);
  EXPECT_FALSE(without[0].price);
  EXPECT_EQ(without[1].price, 45);
  policy.prices = {{"shed-pcr", 30}, {"a-second", 0}};
  const auto with = test_candidates(colony, policy, {{1}, {}, std::nullopt}, std::nullopt);
  EXPECT_EQ(with[0].price, 0);
  EXPECT_EQ(with[1].price, 30);
}

}  // namespace
}  // namespace likelihet::planning::test_candidates_test
