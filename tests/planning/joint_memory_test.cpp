// What a joint would take is known before it is taken.
#include "support/small_model.hpp"
#include <gtest/gtest.h>

#include <likelihet/odds/joint.hpp>

namespace likelihet::planning::joint_memory_test {
namespace {

using genetics::Sex;

odds::Scenario held(const colony::Colony& colony, std::size_t animals) {
  odds::Scenario out = odds::scenario(colony, std::nullopt);
  for (std::size_t a = 0; a < animals; ++a) out.held.push_back({a, 0});
  return out;
}

// Twelve siblings of two founders out of a population: 3^12 = 531441 cells.
colony::Colony sibs() {
  support::RecordsBuilder builder;
  builder.founder("F", Sex::female, "bought").founder("M", Sex::male, "bought");
  builder.clutch("C", "F", {"M"});
  for (int k = 0; k < 12; ++k) builder.hatchling("H" + std::to_string(k), "C");
  return support::colony_of(support::made(support::recessive_model()), builder.records);
}

TEST(JointMemory, TooManyCellsAreRefused) {
  const auto colony = sibs();
  odds::Options options;
  options.memory_bytes = std::size_t{1} << 20;
  auto made = odds::JointBeliefs::make(held(colony, 14), options);
  auto& beliefs = *std::get<std::unique_ptr<odds::JointBeliefs>>(made);
  std::vector<std::size_t> all;
  for (std::size_t k = 0; k < 14; ++k) all.push_back(k);
  const auto refused = beliefs.joint(all);
  const auto& large = std::get<odds::TooLarge>(refused);
  EXPECT_GT(large.bytes, 1 << 20);
  EXPECT_EQ(large.clique.size(), 14u);
  EXPECT_NE(large.what.find("--memory"), std::string::npos);
  const std::vector<std::size_t> few = {0, 1, 2};
  EXPECT_TRUE(std::holds_alternative<odds::JointTable>(beliefs.joint(few)));
}

TEST(JointMemory, APlanThatDoesNotFit) {
  const auto colony = sibs();
  odds::Options options;
  options.memory_bytes = 64;
  EXPECT_TRUE(
      std::holds_alternative<odds::TooLarge>(odds::JointBeliefs::make(held(colony, 14), options)));
}

// Settled genotypes cost nothing, however many there are.
TEST(JointMemory, SettledGenotypes) {
  support::RecordsBuilder builder;
  for (int k = 0; k < 60; ++k) builder.founder("A" + std::to_string(k));
  const auto colony =
      support::colony_of(support::made(support::recessive_model()), builder.records);
  auto made = odds::JointBeliefs::make(held(colony, 60), {});
  auto& beliefs = *std::get<std::unique_ptr<odds::JointBeliefs>>(made);
  std::vector<std::size_t> all;
  for (std::size_t k = 0; k < 60; ++k) all.push_back(k);
  const auto joint = std::get<odds::JointTable>(beliefs.joint(all));
  EXPECT_EQ(joint.cells(), 1u);
  EXPECT_EQ(joint.probability[0], 1.0);
}

TEST(JointMemory, ContradictionsAreExplained) {
  support::RecordsBuilder builder;
  builder.founder("F", Sex::female).shows("F", "tarnbrook", "tarnbrook");
  const auto colony =
      support::colony_of(support::made(support::recessive_model()), builder.records);
  const auto made = odds::JointBeliefs::make(held(colony, 1), {});
  EXPECT_EQ(std::get<odds::Contradiction>(made).observations, (std::vector<std::size_t>{0}));
}

}  // namespace
}  // namespace likelihet::planning::joint_memory_test
