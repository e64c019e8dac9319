// A pedigree prior times two noisy measurements: carriers of an X-linked bleeding disorder.
//
// Source: Johnson and Wichern, Applied Multivariate Statistical Analysis, examples 11.3 and 11.4
// (data of Bouma et al. 1975). Inputs and printed values are from memory; six printed intermediates
// agree with each other. One does not: y0 is remembered as -6.62 and comes out as -6.6257, so that
// the printed w of -2.01 is -2.02 unrounded. The unrounded value is the oracle here.
#include <cmath>

#include "published/worked_colony.hpp"
#include <Eigen/Dense>
#include <gtest/gtest.h>

namespace likelihet::published::johnson_wichern_test {
namespace {

struct Discriminant {
  Eigen::Vector2d a;
  double normal_mean;
  double carrier_mean;
  double midpoint;
  double score;  // of the woman measured

  [[nodiscard]] double log_ratio_for_normal() const { return score - midpoint; }
};

Discriminant discriminant() {
  Eigen::Matrix2d inverse_covariance;
  inverse_covariance << 131.158, -90.423, -90.423, 108.147;
  const Eigen::Vector2d normal(-0.0065, -0.0390);
  const Eigen::Vector2d carrier(-0.2483, 0.0262);
  const Eigen::Vector2d woman(-0.210, -0.044);
  Discriminant out;
  out.a = inverse_covariance * (normal - carrier);
  out.normal_mean = out.a.dot(normal);
  out.carrier_mean = out.a.dot(carrier);
  out.midpoint = (out.normal_mean + out.carrier_mean) / 2;
  out.score = out.a.dot(woman);
  return out;
}

// The two measurements together are one marker, read at the level that was measured; only the ratio
// of its probabilities counts.
Json with_measurement(double ratio_for_carrier) {
  Json model = recessive_model(0, "X");
  const double carrier = 0.08 * ratio_for_carrier;
  model["markers"].push_back(
      {{"id", "activity and antigen"},
       {"levels", {"elsewhere", "as measured"}},
       {"rows", Json::array({{{"at", {{"trait", "+/a"}}}, {"expect", {1 - carrier, carrier}}},
                             {{"at", Json::object()}, {"expect", {0.92, 0.08}}}})}});
  return model;
}

TEST(JohnsonWichern, PrintedIntermediates) {
  const Discriminant found = discriminant();
  EXPECT_NEAR(found.a[0], 37.61, half_unit(2));
  EXPECT_NEAR(found.a[1], -28.92, half_unit(2));
  EXPECT_NEAR(found.normal_mean, 0.88, half_unit(2));
  EXPECT_NEAR(found.carrier_mean, -10.10, half_unit(2));
  EXPECT_NEAR(found.midpoint, -4.61, half_unit(2));
  EXPECT_NEAR(found.score, -6.625732144799999, 1e-12);
}

TEST(JohnsonWichern, PriorOfAQuarterFromHerPedigree) {
  // Her grandmother is a carrier for certain: her mother with 1/2, she herself with 1/4.
  WorkedColony colony(with_measurement(std::exp(-discriminant().log_ratio_for_normal())));
  colony.founder("grandmother", surely("+/a")).sex("grandmother", "female");
  colony.founder("grandfather").founder("father");
  colony.child("mother", "grandmother", "grandfather", "female");
  colony.child("woman", "mother", "father", "female")
      .score("woman", "activity and antigen", "as measured");
  const Answer answer = colony.solve();
  EXPECT_NEAR(answer.pedigree("woman", "+/a"), 0.25, 1e-12);
  EXPECT_NEAR(answer.scored("woman", "+/a"), 0.715188347082128, 1e-12);
  EXPECT_NEAR(std::log(answer.pedigree("woman", "+/a") / answer.pedigree("woman", "+/+")), -1.10,
              half_unit(2));
}

TEST(JohnsonWichern, PriorOfOneHalf) {
  WorkedColony colony(with_measurement(std::exp(-discriminant().log_ratio_for_normal())));
  colony.founder("mother", surely("+/a")).sex("mother", "female").founder("father");
  const Answer answer = colony.child("woman", "mother", "father", "female")
                            .score("woman", "activity and antigen", "as measured")
                            .solve();
  EXPECT_NEAR(answer.posterior("woman", "+/a"), 0.8828117247825192, 1e-12);
}

}  // namespace
}  // namespace likelihet::published::johnson_wichern_test
