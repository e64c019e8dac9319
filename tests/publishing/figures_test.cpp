// Figures in words.
#include <gtest/gtest.h>

#include <likelihet/publishing/figures.hpp>

namespace likelihet::publishing::figures_test {
namespace {

TEST(Figures, Percentages) {
  EXPECT_EQ(percent_text({0.667, std::pair(0.51, 0.7921), ""}),
            "66.7\u00A0% (51.0\u00A0–\u00A079.2\u00A0%)");
  EXPECT_EQ(percent_text({0.667, std::nullopt, ""}), "66.7\u00A0%");
  EXPECT_EQ(percent_text({std::nullopt, std::nullopt, ""}), "–");
  EXPECT_EQ(percent_text({std::nullopt, std::nullopt, "all absent"}), "all absent");
  EXPECT_EQ(percent_text({1.0, std::pair(0.206, 1.0), ""}),
            "100\u00A0% (20.6\u00A0–\u00A0100\u00A0%)");
}

TEST(Figures, Decimals) {
  EXPECT_EQ(decimal_text({0.1416, std::pair(-0.2, 0.19), ""}, 2), "0.14 (-0.20\u00A0–\u00A00.19)");
  EXPECT_EQ(decimal_text({std::nullopt, std::nullopt, "one clutch"}, 2), "one clutch");
}

TEST(Figures, Ratios) {
  EXPECT_EQ(ratio_text({3.2444, std::pair(1.1, 9.62), ""}), "×3.24 (1.1\u00A0–\u00A09.62)");
  EXPECT_EQ(ratio_text({std::nullopt, std::nullopt, ""}), "–");
}

TEST(Figures, PValues) {
  const auto tests = json::parse(R"({"small": 0.00021, "some": 0.0314, "none": null})");
  EXPECT_EQ(p_text(tests, "small"), "<0.001");
  EXPECT_EQ(p_text(tests, "some"), "0.031");
  EXPECT_EQ(p_text(tests, "none"), "–");
}

TEST(Figures, Counts) {
  EXPECT_EQ(counted(1, "forecast", "forecasts"), "1 forecast");
  EXPECT_EQ(counted(0, "forecast", "forecasts"), "0 forecasts");
  EXPECT_EQ(count_text(json::parse(R"({"n": 41})"), "n"), "41");
  EXPECT_EQ(count_text(json::object(), "n"), "–");
}

TEST(Figures, NamesOfMarkersAreTheirOwn) {
  auto audit = json::parse(R"({"markers": [{"marker": "bar", "locus": "a", "context": null},
                                           {"marker": "bar", "locus": "a", "context": 0}]})");
  EXPECT_EQ(marker_name(audit, audit["markers"][0]), "bar");
  EXPECT_EQ(marker_name(audit, audit["markers"][1]), "bar, context 0");
  audit["markers"][1]["locus"] = "b";
  EXPECT_EQ(marker_name(audit, audit["markers"][0]), "bar at a");
  EXPECT_EQ(marker_name(audit, audit["markers"][1]), "bar at b, context 0");
}

TEST(Figures, CodesInWords) {
  EXPECT_EQ(basis_words("scored"), "with markers");
  EXPECT_EQ(scheme_words("clutch-left-out"), "its own clutch left out");
  EXPECT_EQ(kind_words("visual"), "looks");
  EXPECT_EQ(kind_words("breeding"), "breeding");
}

}  // namespace
}  // namespace likelihet::publishing::figures_test
