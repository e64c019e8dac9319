// A test mating to mates of two kinds.
//
// Source: a question of an online genetics course: a polled bull to two horned cows and three known
// carriers, all five calves polled. The question was read, its keyed answer was not shown; 27/256
// is exact arithmetic: (1/2)^2 (3/4)^3.
#include <cmath>
#include <string>

#include "published/worked_colony.hpp"
#include <gtest/gtest.h>

namespace likelihet::published::mixed_mates_test {
namespace {

WorkedColony with_bull() {
  WorkedColony colony(recessive_model());
  colony.founder("bull", either("+/+", 0.5, "+/a")).sex("bull", "male");
  return colony;
}

TEST(MixedMates, CountedAsBroods) {
  const Answer answer = with_bull().brood("bull", "a/a", 2).brood("bull", "+/a", 3).solve();
  const double carrier = answer.posterior("bull", "+/a");
  EXPECT_NEAR(carrier / (1 - carrier), 27.0 / 256, 1e-12);
  EXPECT_NEAR(carrier, 0.09540636042402827, 1e-12);
  EXPECT_NEAR(answer.log_evidence(), std::log((1 + 27.0 / 256) / 2), 1e-12);
}

TEST(MixedMates, RecordedAsAnimals) {
  WorkedColony colony = with_bull();
  for (int k = 0; k < 5; ++k) {
    const std::string number = std::to_string(k);
    colony.founder("cow" + number, k < 2 ? surely("a/a") : surely("+/a"));
    colony.child("calf" + number, "cow" + number, "bull").shows("calf" + number, "clear");
  }
  EXPECT_NEAR(colony.solve().posterior("bull", "+/a"), 27.0 / 283, 1e-12);
}

}  // namespace
}  // namespace likelihet::published::mixed_mates_test
