// Children of cousins: one grandparent's allele made homozygous, and q^2 + F q (1 - q).
//
// Source: Wright (1922, American Naturalist 56) and Haldane, as teaching texts give it. The 1/64
// for one heterozygous common grandparent, and for the child of a known carrier and a half first
// cousin, were read in teaching texts; the rest recomputed by enumeration with fractions.
#include <utility>
#include <vector>

#include "published/worked_colony.hpp"
#include <gtest/gtest.h>

namespace likelihet::published::first_cousins_test {
namespace {

void add_sure_assay(Json& model) {
  add_assay(model, "sure", {"0", "1", "2"}, {"+/+", "+/a", "a/a"},
            {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}});
}

// "her" and "his" are first cousins; one of the common grandparents may be told apart.
WorkedColony first_cousins(double q, const Json& grandmother = nullptr) {
  Json model = recessive_model(q);
  add_sure_assay(model);
  WorkedColony colony(model);
  colony.founder("grandmother", grandmother).founder("grandfather");
  colony.child("aunt", "grandmother", "grandfather").child("uncle", "grandmother", "grandfather");
  colony.founder("aunt's mate").founder("uncle's mate");
  colony.child("her", "aunt", "aunt's mate").child("his", "uncle's mate", "uncle");
  colony.child("child", "her", "his");
  return colony;
}

TEST(FirstCousins, OneHeterozygousGrandparent) {
  const Answer answer = first_cousins(0, surely("+/a")).solve();
  EXPECT_NEAR(answer.posterior("child", "a/a"), 1.0 / 64, 1e-12);  // printed and exact
  EXPECT_NEAR(answer.posterior("child", "+/a"), 7.0 / 32, 1e-12);
  EXPECT_NEAR(answer.posterior("her", "+/a"), 1.0 / 4, 1e-12);
}

TEST(FirstCousins, WrightsFormula) {
  const std::vector<std::pair<double, double>> table = {
      {0.01, 23.0 / 32000}, {0.02, 13.0 / 8000}, {0.1, 1.0 / 64}, {0.005, 43.0 / 128000}};
  for (const auto& [q, affected] : table) {
    EXPECT_NEAR(first_cousins(q).solve().posterior("child", "a/a"), affected, 1e-12) << q;
  }
}

TEST(FirstCousins, OfAKnownCarrier) {
  const Answer answer = first_cousins(1e-7).result("her", "sure", "1").solve();
  EXPECT_NEAR(answer.posterior("his", "+/a"), 0.125000149999985, 1e-12);
  EXPECT_NEAR(answer.posterior("child", "a/a"), 0.03125004375, 1e-12);
}

TEST(FirstCousins, HalfCousinOfAKnownCarrier) {
  Json model = recessive_model(1e-7);
  add_sure_assay(model);
  WorkedColony colony(model);
  colony.founder("grandmother").founder("first").founder("second");
  colony.child("aunt", "grandmother", "first").child("uncle", "grandmother", "second");
  colony.founder("aunt's mate").founder("uncle's mate");
  colony.child("her", "aunt", "aunt's mate").child("his", "uncle's mate", "uncle");
  const Answer answer = colony.child("child", "her", "his").result("her", "sure", "1").solve();
  EXPECT_NEAR(answer.posterior("his", "+/a"), 0.0625001749999825, 1e-12);
  EXPECT_NEAR(answer.posterior("child", "a/a"), 0.015625046875, 1e-12);
  EXPECT_NEAR(answer.posterior("child", "a/a"), 0.015625, half_unit(6));  // printed: 1/64
}

}  // namespace
}  // namespace likelihet::published::first_cousins_test
