// Criss-cross inheritance of a sex-linked recessive, ZW and XY.
//
// Source: Morgan (1910, Science 32:120; 1916, A Critique of the Theory of Evolution), the crosses
// of white eyes; the ratios were read in the latter, in words. Z-linked crosses are their mirror
// image. The odds after n clear young are exact arithmetic, 1 / (1 + 2^n).
#include <string>
#include <vector>

#include "published/worked_colony.hpp"
#include <gtest/gtest.h>

namespace likelihet::published::criss_cross_test {
namespace {

// Young of each sex of a cross, none looked at.
Answer cross(const std::string& on, const Json& dam, const Json& sire) {
  WorkedColony colony(recessive_model(0, on));
  colony.founder("dam", dam).sex("dam", "female").founder("sire", sire).sex("sire", "male");
  colony.child("son", "dam", "sire", "male").child("daughter", "dam", "sire", "female");
  return colony.solve();
}

TEST(CrissCross, ZLinkedHetMaleToClearFemale) {
  const Answer young = cross("Z", surely("+/W"), surely("+/a"));
  EXPECT_NEAR(young.posterior("son", "+/+"), 0.5, 1e-12);
  EXPECT_NEAR(young.posterior("son", "+/a"), 0.5, 1e-12);
  EXPECT_NEAR(young.posterior("daughter", "+/W"), 0.5, 1e-12);
  EXPECT_NEAR(young.posterior("daughter", "a/W"), 0.5, 1e-12);
}

TEST(CrissCross, ZLinkedAffectedFemaleToClearMale) {
  const Answer young = cross("Z", surely("a/W"), surely("+/+"));
  EXPECT_NEAR(young.posterior("son", "+/a"), 1, 1e-12);
  EXPECT_NEAR(young.posterior("daughter", "+/W"), 1, 1e-12);
}

TEST(CrissCross, ZLinkedClearFemaleToAffectedMale) {
  const Answer young = cross("Z", surely("+/W"), surely("a/a"));
  EXPECT_NEAR(young.posterior("son", "+/a"), 1, 1e-12);
  EXPECT_NEAR(young.posterior("daughter", "a/W"), 1, 1e-12);
}

TEST(CrissCross, XLinkedWhiteFemaleToRedMale) {
  const Answer young = cross("X", surely("a/a"), surely("+/Y"));
  EXPECT_NEAR(young.posterior("son", "a/Y"), 1, 1e-12);
  EXPECT_NEAR(young.posterior("daughter", "+/a"), 1, 1e-12);
}

TEST(CrissCross, SecondGeneration) {
  // Red female x white male: all young red; bred together, 3 red : 1 white, every white one a male.
  WorkedColony colony(recessive_model(0, "X"));
  colony.founder("red", surely("+/+")).sex("red", "female");
  colony.founder("white", surely("a/Y")).sex("white", "male");
  colony.young({"first", "second"}, "red", "white");
  colony.child("young", "first", "second");
  const Answer answer = colony.solve();
  EXPECT_NEAR(answer.posterior("young", "a/Y"), 0.25, 1e-12);
  EXPECT_NEAR(answer.posterior("young", "a/a"), 0, 1e-12);
  EXPECT_NEAR(answer.posterior("young", "+/a"), 0.25, 1e-12);
}

TEST(CrissCross, MaleAfterClearDaughters) {
  const std::vector<double> expected = {1. / 2, 1. / 3, 1. / 5, 1. / 9, 1. / 17, 1. / 33, 1. / 65};
  for (std::size_t n = 0; n < expected.size(); ++n) {
    WorkedColony colony(recessive_model(0, "Z"));
    colony.founder("sire", either("+/+", 0.5, "+/a")).founder("dam");
    for (std::size_t k = 0; k < n; ++k) {
      const std::string id = numbered("daughter", k);
      colony.child(id, "dam", "sire", "female").shows(id, "clear");
    }
    colony.sex("sire", "male");
    EXPECT_NEAR(colony.solve().posterior("sire", "+/a"), expected[n], 1e-12) << n;
  }
}

}  // namespace
}  // namespace likelihet::published::criss_cross_test
