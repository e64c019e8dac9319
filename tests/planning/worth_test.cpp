// Kept or sold, by hand.
#include <vector>

#include <gtest/gtest.h>
#include <support/small_model.hpp>

#include <likelihet/planning/worth.hpp>

namespace likelihet::planning::worth_test {
namespace {

TEST(Worth, IsTheBetterOfKeepingAndSelling) {
  const auto model = support::made(support::masked_model());
  colony::Policy policy;
  policy.worth = {{"tarnbrook", {{"+/e", 300}, {"e/e", 500}}, 100}};
  const Worth worth(policy, *model);
  EXPECT_TRUE(worth.given());
  EXPECT_TRUE(worth.given(0));
  EXPECT_FALSE(worth.given(1));
  EXPECT_EQ(worth.of(0, std::vector<double>{1, 0, 0}), 100);
  EXPECT_EQ(worth.of(0, std::vector<double>{0.5, 0.5, 0}), 150);
  EXPECT_EQ(worth.of(0, std::vector<double>{0.75, 0.25, 0}), 100);
  EXPECT_EQ(worth.of(0, std::vector<double>{0.25, 0.5, 0.25}), 275);
  EXPECT_EQ(worth.of(1, std::vector<double>{0.25, 0.5, 0.25}), 0);
}

TEST(Worth, MayNotBeGiven) {
  const Worth worth(colony::Policy{}, *support::made(support::recessive_model()));
  EXPECT_FALSE(worth.given());
  EXPECT_EQ(worth.of(0, std::vector<double>{0.25, 0.5, 0.25}), 0);
}

}  // namespace
}  // namespace likelihet::planning::worth_test
