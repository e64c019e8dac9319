// Mean clutches and numbers of clutches.
#include "support/small_model.hpp"
#include <gtest/gtest.h>

#include <likelihet/planning/clutch_size.hpp>

namespace likelihet::planning::clutch_size_test {
namespace {

TEST(ClutchSize, MeanOfClutchesWithOffspring) {
  support::RecordsBuilder builder;
  const auto model = support::made(support::recessive_model());
  EXPECT_FALSE(mean_offspring(support::colony_of(model, builder.records)));
  builder.founder("F", genetics::Sex::female).founder("M", genetics::Sex::male);
  builder.clutch("empty", "F", {"M"}).clutch("C", "F", {"M"}).clutch("D", "F", {"M"});
  EXPECT_FALSE(mean_offspring(support::colony_of(model, builder.records)));
  builder.hatchling("H1", "C").hatchling("H2", "C").hatchling("H3", "D");
  EXPECT_EQ(mean_offspring(support::colony_of(model, builder.records)), 1.5);
}

TEST(ClutchSize, ClutchesAreRoundedUp) {
  EXPECT_EQ(clutches_for(0, std::nullopt), 0.0);
  EXPECT_EQ(clutches_for(6, 6.0), 1.0);
  EXPECT_EQ(clutches_for(7, 6.0), 2.0);
  EXPECT_EQ(clutches_for(3, 1.5), 2.0);
  EXPECT_FALSE(clutches_for(3, std::nullopt));
}

}  // namespace
}  // namespace likelihet::planning::clutch_size_test
