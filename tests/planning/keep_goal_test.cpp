// Which genotypes a goal takes.
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <support/small_model.hpp>

#include <likelihet/planning/keep_goal.hpp>

namespace likelihet::planning::keep_goal_test {
namespace {

std::vector<bool> meets(const colony::Model& model, const std::string& name) {
  return std::get<KeepGoal>(keep_goal_named(model.loci()[0], 0, name)).meets;
}

using Genotypes = std::vector<bool>;

TEST(KeepGoal, OfARecessive) {
  const auto model = support::made(support::recessive_model());
  EXPECT_EQ(meets(*model, "carries"), (Genotypes{false, true, true}));
  EXPECT_EQ(meets(*model, "visual"), (Genotypes{false, false, true}));
  EXPECT_EQ(meets(*model, "+/e"), (Genotypes{false, true, false}));
  EXPECT_EQ(meets(*model, "+/+"), (Genotypes{true, false, false}));
}

// +/+ +/e e/e +/W e/W: a female has one copy.
TEST(KeepGoal, OfASexLinkedRecessive) {
  const auto model = support::made(support::sex_linked_model(genetics::Chromosome::z));
  EXPECT_EQ(meets(*model, "carries"), (Genotypes{false, true, true, false, true}));
  EXPECT_EQ(meets(*model, "visual"), (Genotypes{false, false, true, false, true}));
}

// Where the plain look is the rare one in a carrier, the likeliest look decides.
TEST(KeepGoal, GoesByTheLikeliestLook) {
  auto description = support::recessive_model();
  description.loci[0].appearance = {{"default", {{"plain", 1.0}}},
                                    {"+/e", {{"tarnbrook", 0.8}, {"plain", 0.2}}},
                                    {"e/e", {{"tarnbrook", 0.4}, {"plain", 0.6}}}};
  EXPECT_EQ(meets(*support::made(description), "visual"), (Genotypes{false, true, false}));
}

TEST(KeepGoal, NamesTheNearestWord) {
  const auto model = support::made(support::recessive_model());
  const auto fault = std::get<colony::Fault>(keep_goal_named(model->loci()[0], 0, "carier"));
  EXPECT_EQ(fault.place, "--goal");
  EXPECT_EQ(fault.what, "trait tarnbrook has no genotype 'carier'");
  EXPECT_EQ(fault.mend, "did you mean 'carries'?");
}

}  // namespace
}  // namespace likelihet::planning::keep_goal_test
