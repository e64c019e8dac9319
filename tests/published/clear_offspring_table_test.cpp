// A carrier's odds after n clear young: exact fractions for two priors and three kinds of mate.
//
// Source: a computed table (Bayes' theorem with exact fractions); no single published source.
#include <string>
#include <vector>

#include "published/worked_colony.hpp"
#include <gtest/gtest.h>

namespace likelihet::published::clear_young_table_test {
namespace {

struct Row {
  int young;
  double to_affected;
  double to_carrier;
  double to_own_daughters;  // of clear dams, one young of each daughter
};

const std::vector<Row> from_half = {
    {0, 1. / 2, 1. / 2, 1. / 2},
    {1, 1. / 3, 3. / 7, 7. / 15},
    {2, 1. / 5, 9. / 25, 49. / 113},
    {3, 1. / 9, 27. / 91, 343. / 855},
    {4, 1. / 17, 81. / 337, 2401. / 6497},
    {5, 1. / 33, 243. / 1267, 16807. / 49575},
    {6, 1. / 65, 729. / 4825, 117649. / 379793},
    {7, 1. / 129, 2187. / 18571, 823543. / 2920695},
    {8, 1. / 257, 6561. / 72097, 5764801. / 22542017},
    {10, 1. / 1025, 59049. / 1107625, 282475249. / 1356217073},
    {11, 1. / 2049, 177147. / 4371451, 1977326743. / 10567261335},
    {16, 1. / 65537, 43046721. / 4338014017, 33232930569601. / 314707907280257},
    {17, 1. / 131073, 129140163. / 17309009347, 0.0936353543088276},
    {23, 1. / 8388609, 94143178827. / 70462887356491, 0.04431004984655069},
    {35, 1. / 34359738369, 4.237657125099922e-05, 0.009252199162049848},
};

const std::vector<Row> from_two_thirds = {
    {0, 2. / 3, 2. / 3, 2. / 3},
    {1, 1. / 2, 3. / 5, 7. / 11},
    {2, 1. / 3, 9. / 17, 49. / 81},
    {3, 1. / 5, 27. / 59, 343. / 599},
    {4, 1. / 9, 81. / 209, 2401. / 4449},
    {5, 1. / 17, 243. / 755, 16807. / 33191},
    {6, 1. / 33, 729. / 2777, 117649. / 248721},
    {7, 1. / 65, 2187. / 10379, 823543. / 1872119},
    {8, 1. / 129, 6561. / 39329, 5764801. / 14153409},
    {10, 1. / 513, 59049. / 583337, 282475249. / 819346161},
    {11, 1. / 1025, 177147. / 2274299, 1977326743. / 6272294039},
    {16, 1. / 32769, 43046721. / 2190530369, 33232930569601. / 173970418924929},
    {17, 1. / 65537, 129140163. / 8719074755, 0.17123688245796465},
    {23, 1. / 4194305, 94143178827. / 35278515267659, 0.08485995103285952},
    {35, 1. / 17179869185, 8.474955110660748e-05, 0.01833476145948784},
};

Answer of_brood(const Json& claim, const std::string& partner, int young) {
  WorkedColony colony(recessive_model());
  return colony.founder("sire", claim).brood("sire", partner, young).solve();
}

Answer of_own_daughters(const Json& claim, int young) {
  WorkedColony colony(recessive_model());
  colony.founder("sire", claim);
  for (int k = 0; k < young; ++k) {
    const std::string number = std::to_string(k);
    colony.founder("dam" + number).child("daughter" + number, "dam" + number, "sire");
    colony.child("young" + number, "daughter" + number, "sire").shows("young" + number, "clear");
  }
  return colony.solve();
}

void check(const Json& claim, const std::vector<Row>& table) {
  for (const Row& row : table) {
    if (row.young > 0) {
      EXPECT_NEAR(of_brood(claim, "a/a", row.young).posterior("sire", "+/a"), row.to_affected,
                  1e-12)
          << row.young;
      EXPECT_NEAR(of_brood(claim, "+/a", row.young).posterior("sire", "+/a"), row.to_carrier, 1e-12)
          << row.young;
    }
    EXPECT_NEAR(of_own_daughters(claim, row.young).posterior("sire", "+/a"), row.to_own_daughters,
                1e-12)
        << row.young;
  }
}

TEST(ClearYoung, FromOneHalf) {
  check(either("+/+", 0.5, "+/a"), from_half);
}

TEST(ClearYoung, FromTwoThirds) {
  check(either("+/a", 2.0 / 3, "+/+"), from_two_thirds);
}

}  // namespace
}  // namespace likelihet::published::clear_young_table_test
