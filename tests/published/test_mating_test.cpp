// How many clear young of a test mating show that an animal is no carrier.
//
// Source: the rule 1 - (1/2)^n, 1 - (3/4)^n, 1 - (7/8)^n of animal-breeding handbooks; the column
// of matings to known carriers was read in the genetics notes of North Dakota State University (n
// = 10.4 for 95 %, rounded to 10; 16 for 99 %); 5 and 7, 11 and 16, 23 and 35 are from memory.
// Where they differ: 16 matings to carriers detect with 98.998 %, so that the smallest n that
// reaches 99 % is 17 (the equation's solution is 16.008). We hold to "reaches", never round down.
#include <functional>
#include <string>

#include "published/worked_colony.hpp"
#include <gtest/gtest.h>

namespace likelihet::published::test_mating_test {
namespace {

// P(at least one affected | carrier), from the odds of a sire believed a carrier with 1/2: if all n
// are clear, the odds of a carrier are P(all clear | carrier).
double detection(const Answer& answer) {
  const double carrier = answer.posterior("sire", "+/a");
  return 1 - carrier / (1 - carrier);
}

WorkedColony with_sire() {
  WorkedColony colony(recessive_model());
  colony.founder("sire", either("+/+", 0.5, "+/a")).sex("sire", "male");
  return colony;
}

double to_partner(const std::string& partner, int n) {
  return detection(with_sire().brood("sire", partner, n).solve());
}

// One young from each of n of his daughters by clear dams.
double to_own_daughters(int n) {
  WorkedColony colony = with_sire();
  for (int k = 0; k < n; ++k) {
    const std::string number = std::to_string(k);
    colony.founder("dam" + number).child("daughter" + number, "dam" + number, "sire");
    colony.child("young" + number, "daughter" + number, "sire").shows("young" + number, "clear");
  }
  return detection(colony.solve());
}

int smallest(double confidence, const std::function<double(int)>& detected) {
  int n = 1;
  while (detected(n) < confidence) ++n;
  return n;
}

TEST(TestMating, ToAffected) {
  const auto detected = [](int n) { return to_partner("a/a", n); };
  EXPECT_EQ(smallest(0.95, detected), 5);
  EXPECT_EQ(smallest(0.99, detected), 7);
  EXPECT_NEAR(detected(5), 0.96875, 1e-12);
  EXPECT_NEAR(detected(4), 0.9375, 1e-12);
  EXPECT_NEAR(detected(7), 0.9921875, 1e-12);
}

TEST(TestMating, ToKnownCarriers) {
  const auto detected = [](int n) { return to_partner("+/a", n); };
  EXPECT_EQ(smallest(0.95, detected), 11);
  EXPECT_EQ(smallest(0.99, detected), 17);  // the handbooks' 16 is just short
  EXPECT_NEAR(detected(16), 0.9899774042423815, 1e-12);
  EXPECT_NEAR(detected(17), 0.9924830531817861, 1e-12);
  EXPECT_NEAR(detected(10), 0.9436864852905273, 1e-12);
}

TEST(TestMating, ToOwnDaughters) {
  EXPECT_NEAR(to_own_daughters(22), 0.9470120440637096, 1e-12);
  EXPECT_NEAR(to_own_daughters(23), 0.9536355385557459, 1e-12);
  EXPECT_NEAR(to_own_daughters(34), 0.9893273122680238, 1e-12);
  EXPECT_NEAR(to_own_daughters(35), 0.9906613982345208, 1e-12);
}

}  // namespace
}  // namespace likelihet::published::test_mating_test
