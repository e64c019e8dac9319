// Five readers of one sign who agree more than the truth explains: some cases are clearer than
// others, whichever way they are.
//
// Source: K. J. Beath, "randomLCA: an R package for latent class with random effects analysis",
// Journal of Statistical Software 81 (2017) number 13: five dentists' readings of 3869 X-rays
// (Espeland and Handelman, Biometrics 45 (1989) 587-599) by the probit model with one common
// loading of Qu, Tan and Kutner (Biometrics 52 (1996) 797-810). Counts and printed estimates were
// read in the package's manual. It maximises a lightly penalised likelihood, the values here the
// plain one: they agree to 2e-4 in probabilities and 0.005 in the log-likelihood. Exact values
// were recomputed with 61 points.
#include <cmath>

#include "published/taught.hpp"
#include <boost/math/special_functions/erf.hpp>
#include <gtest/gtest.h>

namespace likelihet::published::dentistry_test {
namespace {

constexpr int dentists = 5;
// Of each pattern, the first dentist's reading the highest bit.
constexpr int patterns[32] = {1880, 789, 43, 75, 23, 63, 8, 22, 188, 191, 17, 67, 15, 85, 8, 56,
                              22,   26,  6,  14, 1,  20, 2, 17, 2,   20,  6,  27, 3,  72, 1, 100};

std::string dentist(int number) {
  return numbered("dentist ", number);
}

colony::Colony radiographs() {
  // Prevalence is the square of the frequency of "a".
  Json model = recessive_model(0.45);
  model["origins"][0]["worth"] = hardly_any;
  Json group = {{"id", "clearness"}, {"loading", "common"}, {"spread", 1e6}};
  for (int d = 0; d < dentists; ++d) {
    add_test(model, dentist(d), 0.7, 0.1);
    group["markers"].push_back(dentist(d));
  }
  model["together"] = {group};
  Json animals = Json::array();
  Json observations = Json::array();
  for (int pattern = 0; pattern < 32; ++pattern) {
    for (int i = 0; i < patterns[pattern]; ++i) {
      const std::string id = numbered("tooth", animals.size());
      animals.push_back({{"id", id}, {"origin", "population"}});
      for (int d = 0; d < dentists; ++d) {
        const bool carious = (pattern >> (dentists - 1 - d)) % 2 == 1;
        observations.push_back({{"id", numbered("o", observations.size())},
                                {"kind", "score"},
                                {"animal", id},
                                {"marker", dentist(d)},
                                {"level", carious ? "positive" : "negative"}});
      }
    }
  }
  const Json colony = {{"format", "likelihet-colony"},
                       {"version", 1},
                       {"animals", animals},
                       {"clutches", Json::array()},
                       {"observations", observations}};
  return read(model.dump(), colony.dump());
}

// P(positive) of a case of middling clearness, from the average one.
double at_no_strength(double probability, double loading) {
  const double quantile = -std::sqrt(2.0) * boost::math::erfc_inv(2 * probability);
  return 0.5 * std::erfc(-std::sqrt(0.5) * std::sqrt(1 + loading * loading) * quantile);
}

TEST(Dentistry, OneLoadingForAll) {
  const Likeliest end = likeliest_with_height(radiographs());
  const double loading = end.tables.loadings[0][0];
  for (double one : end.tables.loadings[0]) EXPECT_EQ(one, loading);
  constexpr double printed = 2e-4;
  constexpr double exact = 2e-6;
  const double frequency = end.tables.origins[0][0][1];
  EXPECT_NEAR(frequency * frequency, .179, half_unit(3));
  EXPECT_NEAR(frequency * frequency, 0.17899769196126625, exact);
  EXPECT_NEAR(loading, .704419, printed);
  EXPECT_NEAR(loading, 0.7044741643726684, 1e-5);
  EXPECT_NEAR(end.log_likelihood, -7422.782, .005);
  EXPECT_NEAR(end.log_likelihood, -7422.7816906605185, 1e-6);
  constexpr double sensitivity[] = {.4017, .6464, .6243, .4179, .8561};
  constexpr double exact_sensitivity[] = {0.4016602843844261, 0.646342432536548, 0.6242949418911391,
                                          0.4178438286392472, 0.8561124095035734};
  constexpr double exact_specificity[] = {0.980783291563593, 0.8706218141884633, 0.9801594957978559,
                                          0.9441831265443495, 0.6690099055436618};
  constexpr double middling_sound[] = {.0057, .0836, .0059, .0258, .2964};
  constexpr double middling_carious[] = {.3804, .6770, .6508, .3999, .9033};
  for (std::size_t d = 0; d < dentists; ++d) {
    const auto& rows = end.tables.rows[d][0];
    EXPECT_NEAR(rows[0][1], sensitivity[d], printed) << d;
    EXPECT_NEAR(rows[0][1], exact_sensitivity[d], exact) << d;
    EXPECT_NEAR(rows[1][0], exact_specificity[d], exact) << d;
    EXPECT_NEAR(at_no_strength(rows[1][1], loading), middling_sound[d], printed) << d;
    EXPECT_NEAR(at_no_strength(rows[0][1], loading), middling_carious[d], printed) << d;
  }
}

}  // namespace
}  // namespace likelihet::published::dentistry_test
