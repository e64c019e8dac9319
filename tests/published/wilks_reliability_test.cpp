// A reliability table of twelve forecast probabilities, and its three parts.
//
// Source: D. S. Wilks, Statistical Methods in the Atmospheric Sciences (1995), Table 7.3; the
// decomposition is that of A. H. Murphy, J Appl Meteorol 12 (1973) 595-600. Inputs and the overall
// frequency .162 were read in the help of the R package verification, which prints .245 and .203
// for the shares of the forecasts .8 and 1: .0245 and .0203 make the sum 1 and stand here for .7
// and 1 (the columns below). The parts are recomputed and in no source.
#include <array>

#include "published/worked_colony.hpp"
#include <gtest/gtest.h>

#include <likelihet/audit/reliability.hpp>

namespace likelihet::published::wilks_reliability_test {
namespace {

constexpr std::array forecasts = {0.0, 0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.0};
constexpr std::array observed = {0.006, 0.019, 0.059, 0.15,  0.277, 0.377,
                                 0.511, 0.587, 0.723, 0.779, 0.934, 0.933};
constexpr std::array share = {0.4112, 0.0671, 0.1833, 0.0986, 0.0616, 0.0366,
                              0.0303, 0.0275, 0.0245, 0.022,  0.017,  0.0203};

TEST(Wilks, ReliabilityResolutionUncertainty) {
  std::vector<audit::ReliabilityGroup> groups;
  double mean = 0;
  double brier = 0;
  for (std::size_t k = 0; k < forecasts.size(); ++k) {
    groups.push_back({forecasts[k], observed[k], share[k], {}});
    mean += share[k] * observed[k];
    const double p = forecasts[k];
    brier += share[k] * (observed[k] * (1 - p) * (1 - p) + (1 - observed[k]) * p * p);
  }
  EXPECT_NEAR(mean, .162, half_unit(3));
  const auto parts = audit::murphy_decomposition(groups);
  EXPECT_NEAR(parts.reliability, 0.0008276164, 1e-12);
  EXPECT_NEAR(parts.resolution, 0.06278662818844, 1e-12);
  EXPECT_NEAR(parts.uncertainty, 0.13542005178844002, 1e-12);
  EXPECT_NEAR(parts.reliability - parts.resolution + parts.uncertainty, brier, 1e-15);
  EXPECT_NEAR(brier, 0.07346104, 1e-12);
}

}  // namespace
}  // namespace likelihet::published::wilks_reliability_test
