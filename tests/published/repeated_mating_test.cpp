// Inbreeding over generations of brother by sister, and of daughters to one sire.
//
// Source: the table of coefficients under continued full-sib mating (Wright 1921, Genetics 6:111;
// Falconer, Introduction to Quantitative Genetics), from memory, to three places; exact fractions
// by F(t + 2) = (1 + 2 F(t + 1) + F(t)) / 4. Daughters to one sire who is not inbred: F = (1 -
// 2^(1-n)) / 2, by hand.
#include <cmath>
#include <string>
#include <vector>

#include "published/worked_colony.hpp"
#include <gtest/gtest.h>

#include <likelihet/planning/kinship.hpp>

namespace likelihet::published::repeated_mating_test {
namespace {

TEST(RepeatedMating, FullSibs) {
  constexpr int generations = 20;
  WorkedColony colony(recessive_model());
  colony.founder("f0").sex("f0", "female").founder("m0").sex("m0", "male");
  for (int t = 1; t <= generations; ++t) {
    const auto dam = numbered("f", t - 1), sire = numbered("m", t - 1);
    colony.child(numbered("f", t), dam, sire, "female").child(numbered("m", t), dam, sire, "male");
  }
  const auto built = colony.colony();
  const std::vector<double> printed = {0, .25, .375, .5, .594, .672, .734, .785, .826, .859, .886};
  double before = 0, now = 0;
  for (int t = 1; t <= generations; ++t) {
    const std::vector<std::size_t> animal = {*built.find_animal(numbered("f", t))};
    const double f = planning::Kinship(built, animal).inbreeding(animal[0]);
    if (t <= 11) {
      EXPECT_NEAR(f, printed[static_cast<std::size_t>(t - 1)], half_unit(3)) << t;
    }
    EXPECT_NEAR(f, now, 1e-12) << t;
    const double next = t == 1 ? 0.25 : (1 + 2 * now + before) / 4;
    before = now;
    now = next;
  }
  EXPECT_NEAR(before, 0.9831094741821289, 1e-12);
}

TEST(RepeatedMating, DaughtersToOneSire) {
  WorkedColony colony(recessive_model());
  colony.founder("f0").sex("f0", "female").founder("sire").sex("sire", "male");
  for (int n = 1; n <= 8; ++n) {
    colony.child(numbered("f", n), numbered("f", n - 1), "sire", "female");
  }
  const auto built = colony.colony();
  const std::vector<double> expected = {0,       0.25,     0.375,     0.4375,
                                        0.46875, 0.484375, 0.4921875, 0.49609375};
  for (int n = 1; n <= 8; ++n) {
    const std::vector<std::size_t> animal = {*built.find_animal(numbered("f", n))};
    EXPECT_NEAR(planning::Kinship(built, animal).inbreeding(animal[0]),
                expected[static_cast<std::size_t>(n - 1)], 1e-12);
  }
}

}  // namespace
}  // namespace likelihet::published::repeated_mating_test
