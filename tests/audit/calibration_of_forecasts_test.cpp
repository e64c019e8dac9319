// The whole of it over many simulated seasons: forecasts with tables learned as the season went are
// calibrated where the model is true, and the audit says so where it is not.
#include <cmath>

#include "audit/simulated_season.hpp"
#include <gtest/gtest.h>

#include <likelihet/audit/calibration.hpp>
#include <likelihet/audit/forecasts.hpp>
#include <likelihet/audit/score_table.hpp>
#include <likelihet/inference/random_bits.hpp>
#include <likelihet/odds/tables.hpp>

namespace likelihet::audit::calibration_of_forecasts_test {
namespace {

// Markers with rows that were drawn from what the model believes of them.
std::vector<SeasonMarker> markers_of_belief(std::uint64_t seed) {
  std::vector<SeasonMarker> markers(3);
  for (std::size_t m = 0; m < markers.size(); ++m) markers[m].id = "marker-" + std::to_string(m);
  inference::RandomBits random(seed);
  const auto tables = odds::drawn(*support::made(season_model(markers)), random);
  for (std::size_t m = 0; m < markers.size(); ++m) {
    const auto& rows = tables.rows[m][0];
    markers[m].shows = [carrier = rows[0], other = rows[1]](const Hatchling& h) {
      return h.carrier ? carrier : other;
    };
  }
  return markers;
}

struct Pooled {
  std::vector<Case> cases;
  double slopes = 0;  // sum of the books' own
  std::size_t with_slope = 0;
};

void pool(const Season& season, Scheme scheme, std::size_t book, Pooled& out) {
  const auto colony = season.colony();
  const auto found = forecasts(colony, {});
  auto cases = cases_of(colony, std::get<Forecasts>(found),
                        {Basis::scored, scheme, std::nullopt, std::nullopt});
  if (const auto fit = calibration_slope(cases)) {
    out.slopes += fit->slope;
    ++out.with_slope;
  }
  for (Case one : cases) {
    one.cluster += 1000 * book;
    out.cases.push_back(one);
  }
}

void record(const std::string& name, double value) {
  testing::Test::RecordProperty(name, std::to_string(value));
}

TEST(CalibrationOfForecasts, IsRightWhereTheModelIsTrue) {
  const std::size_t n = books(200, 40);
  Pooled as_it_stood;
  Pooled left_out;
  for (std::size_t book = 0; book < n; ++book) {
    SeasonSettings settings;
    settings.clutches = 16;
    settings.markers = markers_of_belief(900 + book);
    const Season season = simulated_season(settings, 70 + book);
    pool(season, Scheme::as_it_stood, book, as_it_stood);
    pool(season, Scheme::clutch_left_out, book, left_out);
  }
  // A share of the books has an error of its own: 3 standard errors where there are few.
  const bool whole = n >= 200;
  for (const Pooled* pooled : {&as_it_stood, &left_out}) {
    const auto fit = calibration_slope(pooled->cases);
    ASSERT_TRUE(fit);
    const double slope_error = std::sqrt(fit->covariance[3]);
    const double observed = *observed_expected(pooled->cases);
    const std::string name = pooled == &as_it_stood ? "as_it_stood_" : "left_out_";
    record(name + "slope", fit->slope);
    record(name + "slope_error", slope_error);
    record(name + "observed_expected", observed);
    record(name + "mean_of_slopes", pooled->slopes / static_cast<double>(pooled->with_slope));
    record(name + "cases", static_cast<double>(pooled->cases.size()));
    EXPECT_NEAR(fit->slope, 1, whole ? 0.05 : 0.05 + 3 * slope_error) << name;
    EXPECT_NEAR(observed, 1, whole ? 0.03 : 0.1) << name;
  }
}

// Three markers that are one: whoever multiplies them says too much, and the slope tells.
TEST(CalibrationOfForecasts, IsReportedWorseWhereMarkersRepeatEachOther) {
  const std::size_t n = books(200, 40);
  Pooled pooled;
  for (std::size_t book = 0; book < n; ++book) {
    SeasonSettings settings;
    settings.clutches = 16;
    settings.markers.resize(3);
    settings.markers[0] = {"marker-0", 3,
                           [](const Hatchling& h) {
                             return h.carrier ? std::vector<double>{0.3, 0.3, 0.4}
                                              : std::vector<double>{0.6, 0.25, 0.15};
                           },
                           false};
    for (std::size_t m : {1U, 2U}) {
      settings.markers[m] = {"marker-" + std::to_string(m), 3,
                             [](const Hatchling& h) {
                               std::vector<double> same(3, 0.025);
                               same[h.levels[0]] = 0.95;
                               return same;
                             },
                             false};
    }
    pool(simulated_season(settings, 7000 + book), Scheme::as_it_stood, book, pooled);
  }
  const auto fit = calibration_slope(pooled.cases);
  ASSERT_TRUE(fit);
  record("slope", fit->slope);
  EXPECT_LT(fit->slope, 0.8);
}

}  // namespace
}  // namespace likelihet::audit::calibration_of_forecasts_test
