// A woman who may carry an X-linked recessive, and her unaffected sons.
//
// Source: Gelman et al., Bayesian Data Analysis, 3rd ed., section 1.4 (p. 9). Inputs and printed
// results (0.20 after two sons, 0.111 after three) were read in texts that quote the example with
// its numbers; the other rows are exact arithmetic, 1 / (1 + 2^n).
#include <string>
#include <vector>

#include "published/worked_colony.hpp"
#include <gtest/gtest.h>

namespace likelihet::published::gelman_xlinked_sons_test {
namespace {

double carrier_after(int sons) {
  WorkedColony colony(recessive_model(0, "X"));
  colony.founder("woman", either("+/+", 0.5, "+/a")).founder("husband");
  colony.sex("woman", "female").sex("husband", "male").shows("husband", "clear");
  for (int k = 0; k < sons; ++k) {
    const std::string id = numbered("son", k);
    colony.child(id, "woman", "husband", "male").shows(id, "clear");
  }
  return colony.solve().posterior("woman", "+/a");
}

TEST(XLinkedSons, ExactForUpToSixSons) {
  const std::vector<double> expected = {1. / 2, 1. / 3, 1. / 5, 1. / 9, 1. / 17, 1. / 33, 1. / 65};
  for (int sons = 0; sons < 7; ++sons) {
    EXPECT_NEAR(carrier_after(sons), expected[static_cast<std::size_t>(sons)], 1e-12);
  }
}

TEST(XLinkedSons, AsPrinted) {
  EXPECT_NEAR(carrier_after(2), 0.20, half_unit(2));
  EXPECT_NEAR(carrier_after(3), 0.111, half_unit(3));
}

TEST(XLinkedSons, OneAffectedSonProvesHer) {
  WorkedColony colony(recessive_model(0, "X"));
  colony.founder("woman", either("+/+", 0.5, "+/a")).founder("husband");
  colony.young({"son", "brother"}, "woman", "husband", "male");
  const Answer answer = colony.shows("son", "affected").shows("brother", "clear").solve();
  EXPECT_NEAR(answer.posterior("woman", "+/a"), 1.0, 1e-12);
  EXPECT_NEAR(answer.log_evidence(), std::log(0.5 * 0.25), 1e-12);
}

}  // namespace
}  // namespace likelihet::published::gelman_xlinked_sons_test
