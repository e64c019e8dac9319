// Verification bias: a test judged by the patients who were verified looks better than it is.
//
// Source: C. B. Begg and R. A. Greenes, "Assessment of diagnostic tests when disease verification
// is subject to selection bias", Biometrics 39 (1983) 207-215; the liver scans of Drum and
// Christacopoulos (J Nucl Med 13 (1972) 908-915), whose counts were read in an open copy of the
// data set. The corrected .84 and .74 are from memory; the exact values follow from the counts by
// the paper's formula and were recomputed.
#include "published/taught.hpp"
#include <gtest/gtest.h>

#include <likelihet/audit/verification.hpp>

namespace likelihet::published::begg_greenes_test {
namespace {

// A patient is an animal, diseased where it is a/a; verification is seeing what it shows.
class LiverScans {
 public:
  LiverScans() : model_(recessive_model(0.8)) {
    model_["origins"][0]["worth"] = hardly_any;
    add_test(model_, "scan", 0.8, 0.2);
  }

  odds::Tables tables(bool with_unverified) const {
    WorkedColony colony(model_);
    std::size_t next = 0;
    const auto add = [&](int count, const char* level, const char* shows) {
      for (int i = 0; i < count; ++i) {
        const std::string id = numbered("p", next++);
        colony.founder(id).score(id, "scan", level);
        if (shows != nullptr) colony.shows(id, shows);
      }
    };
    add(231, "positive", "affected");
    add(32, "positive", "clear");
    add(27, "negative", "affected");
    add(54, "negative", "clear");
    if (with_unverified) {
      add(166, "positive", nullptr);
      add(140, "negative", nullptr);
    }
    return likeliest(colony.colony());
  }

 private:
  Json model_;
};

TEST(BeggGreenes, UnverifiedPatientsCorrectSensitivityAndSpecificity) {
  const auto rows = LiverScans().tables(true).rows[0][0];
  EXPECT_NEAR(rows[0][1], .84, half_unit(2));
  EXPECT_NEAR(rows[1][0], .74, half_unit(2));
  EXPECT_NEAR(rows[0][1], 0.8364667154352596, 1e-6);
  EXPECT_NEAR(rows[1][0], 0.7383980181668042, 1e-6);
}

// What the verified alone would say, printed beside it as the error to avoid.
TEST(BeggGreenes, VerifiedPatientsAloneLookBetterAndWorse) {
  const auto rows = LiverScans().tables(false).rows[0][0];
  EXPECT_NEAR(rows[0][1], .90, half_unit(2));
  EXPECT_NEAR(rows[1][0], .63, half_unit(2));
}

// The closed form, with Zhou's (1993) variances and intervals on the logit scale, recomputed.
TEST(BeggGreenes, ClosedForm) {
  const auto found = audit::begg_greenes({{231, 32, 27, 54}, 166, 140});
  EXPECT_NEAR(found.sensitivity.value, .84, half_unit(2));
  EXPECT_NEAR(found.specificity.value, .74, half_unit(2));
  EXPECT_NEAR(found.sensitivity.value, 0.8364667154352596, 1e-12);
  EXPECT_NEAR(found.specificity.value, 0.7383980181668042, 1e-12);
  EXPECT_NEAR(found.sensitivity_error, 0.024498031263247712, 1e-12);
  EXPECT_NEAR(found.specificity_error, 0.03886267992253918, 1e-12);
  EXPECT_NEAR(found.sensitivity.interval.low, 0.782646518497574, 1e-9);
  EXPECT_NEAR(found.sensitivity.interval.high, 0.8790201900636532, 1e-9);
  EXPECT_NEAR(found.specificity.interval.low, 0.6555077130173668, 1e-9);
  EXPECT_NEAR(found.specificity.interval.high, 0.8072095168392743, 1e-9);
}

}  // namespace
}  // namespace likelihet::published::begg_greenes_test
