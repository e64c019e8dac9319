// Two tests in two populations, none of them a gold standard.
//
// Source: S. L. Hui and S. D. Walter, "Estimating the error rates of diagnostic tests", Biometrics
// 36 (1980) 167-171: the Mantoux and Tine tests for tuberculosis. Counts and printed estimates are
// from memory; the counts give back all six printed four-digit numbers.
#include "published/taught.hpp"
#include <gtest/gtest.h>

namespace likelihet::published::hui_walter_test {
namespace {

// Prevalence is the square of the frequency of "a".
TEST(HuiWalter, BothTestsAndBothPrevalences) {
  Json model = recessive_model(0.3);
  model["origins"][0]["worth"] = hardly_any;
  Json other = model["origins"][0];
  other["id"] = "second";
  other["frequencies"]["trait"]["a"] = 0.8;
  model["origins"].push_back(other);
  add_test(model, "mantoux", 0.9, 0.1);
  add_test(model, "tine", 0.9, 0.1);
  Json animals = Json::array();
  Json observations = Json::array();
  const auto add = [&](const char* origin, int count, const char* mantoux, const char* tine) {
    for (int i = 0; i < count; ++i) {
      const std::string id = numbered("p", animals.size());
      animals.push_back({{"id", id}, {"origin", origin}});
      for (const auto& [marker, level] : {std::pair("mantoux", mantoux), std::pair("tine", tine)}) {
        observations.push_back({{"id", numbered("o", observations.size())},
                                {"kind", "score"},
                                {"animal", id},
                                {"marker", marker},
                                {"level", level}});
      }
    }
  };
  const char* yes = "positive";
  const char* no = "negative";
  add("population", 14, yes, yes);
  add("population", 4, yes, no);
  add("population", 9, no, yes);
  add("population", 528, no, no);
  add("second", 887, yes, yes);
  add("second", 31, yes, no);
  add("second", 37, no, yes);
  add("second", 367, no, no);
  const Json colony = {{"format", "likelihet-colony"},
                       {"version", 1},
                       {"animals", animals},
                       {"clutches", Json::array()},
                       {"observations", observations}};
  const odds::Tables tables = likeliest(read(model.dump(), colony.dump()));
  const auto prevalence = [&](std::size_t origin) {
    return tables.origins[origin][0][1] * tables.origins[origin][0][1];
  };
  EXPECT_NEAR(prevalence(0), .0268, half_unit(4));
  EXPECT_NEAR(prevalence(1), .7168, half_unit(4));
  EXPECT_NEAR(tables.rows[0][0][0][1], .9661, half_unit(4));
  EXPECT_NEAR(tables.rows[1][0][0][1], .9688, half_unit(4));
  EXPECT_NEAR(tables.rows[0][0][1][0], .9933, half_unit(4));
  EXPECT_NEAR(tables.rows[1][0][1][0], .9841, half_unit(4));
}

}  // namespace
}  // namespace likelihet::published::hui_walter_test
