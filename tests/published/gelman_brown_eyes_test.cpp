// A parent of unknown status bred to a known heterozygote: n clear young and a grandchild.
//
// Source: Gelman et al., Bayesian Data Analysis, 3rd ed., exercise 1.3 (after Lindley 1965). The
// exercise with its answer 2p / (1 + 2p) was read in stored solutions; the formula for n children
// is from memory of the published solution, verified by enumerating the pedigree. Fractions
// recomputed.
#include <string>
#include <vector>

#include "published/worked_colony.hpp"
#include <gtest/gtest.h>

namespace likelihet::published::gelman_brown_eyes_test {
namespace {

// Judy and her parents are clear, her mate is a known heterozygote, their n children are clear; the
// first child has a child with a mate out of the population.
Answer judy(double p, int children) {
  WorkedColony colony(recessive_model(p));
  colony.founder("her mother").founder("her father").child("Judy", "her mother", "her father");
  for (const char* id : {"her mother", "her father", "Judy"}) colony.shows(id, "clear");
  colony.founder("mate", surely("+/a"));
  for (int k = 0; k < children; ++k) {
    const std::string id = numbered("child", k);
    colony.child(id, "Judy", "mate").shows(id, "clear");
  }
  if (children > 0) {
    colony.founder("spouse").child("grandchild", "spouse", "child0");
  }
  return colony.solve();
}

struct Row {
  double p;
  int children;
  double het;
  double grandchild;  // probability that it is affected; 0 where no table gives it
};

TEST(BrownEyes, Exact) {
  const std::vector<Row> table = {
      {0.2, 0, 2. / 7, 0},
      {0.2, 1, 3. / 13, 7. / 130},
      {0.2, 3, 27. / 187, 49. / 935},
      {0.2, 5, 243. / 2803, 721. / 14015},
      {0.2, 11, 177147. / 10662907, 0},
      {0.1, 0, 1. / 6, 0},
      {0.1, 1, 3. / 23, 3. / 115},
      {0.1, 3, 27. / 347, 89. / 3470},
      {0.1, 5, 243. / 5363, 1361. / 53630},
      {0.1, 11, 177147. / 21148667, 0},
      {0.01, 0, 1. / 51, 0},
      {0.01, 1, 3. / 203, 0},
      {0.01, 3, 27. / 3227, 0},
      {0.01, 5, 243. / 51443, 0},
      {0.01, 11, 177147. / 209892347, 0},
  };
  for (const Row& row : table) {
    const Answer answer = judy(row.p, row.children);
    EXPECT_NEAR(answer.posterior("Judy", "+/a"), row.het, 1e-12) << row.p << ' ' << row.children;
    if (row.grandchild > 0) {
      EXPECT_NEAR(answer.posterior("grandchild", "a/a"), row.grandchild, 1e-12)
          << row.p << ' ' << row.children;
    }
  }
}

TEST(BrownEyes, PrintedPriorFormula) {
  for (double p : {0.01, 0.1, 0.2, 0.45}) {
    EXPECT_NEAR(judy(p, 0).posterior("Judy", "+/a"), 2 * p / (1 + 2 * p), 1e-12);
  }
}

}  // namespace
}  // namespace likelihet::published::gelman_brown_eyes_test
