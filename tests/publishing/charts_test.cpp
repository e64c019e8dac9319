// The charts of an audit as specifications.
#include <algorithm>

#include <gmock/gmock.h>
#include <publishing/samples.hpp>

#include <likelihet/publishing/charts.hpp>

namespace likelihet::publishing::charts_test {
namespace {

using testing::HasSubstr;
using testing::SizeIs;

std::vector<Chart> all_charts(const json& audit) {
  std::vector<Chart> all;
  for (const auto& make : {reliability_charts, roc_charts, net_benefit_charts, drift_charts,
                           listing_charts, forest_charts, agreement_charts, waterfall_charts}) {
    for (auto& chart : make(audit)) all.push_back(std::move(chart));
  }
  return all;
}

TEST(Charts, EachKindIsDrawnOfAFullAudit) {
  const auto audit = sample("full");
  EXPECT_THAT(reliability_charts(audit), SizeIs(4));
  EXPECT_THAT(roc_charts(audit), SizeIs(2));
  EXPECT_THAT(net_benefit_charts(audit), SizeIs(2));
  EXPECT_THAT(drift_charts(audit), SizeIs(2));
  EXPECT_THAT(listing_charts(audit), SizeIs(2));  // called, and published
  EXPECT_THAT(forest_charts(audit), SizeIs(1));
  EXPECT_THAT(agreement_charts(audit), SizeIs(1));
  EXPECT_THAT(waterfall_charts(audit), SizeIs(2));
}

TEST(Charts, NoneIsDrawnOfNothing) {
  EXPECT_THAT(all_charts(sample("empty")), SizeIs(0));
  EXPECT_THAT(all_charts(json()), SizeIs(0));
}

TEST(Charts, EachSaysWhatItShowsAndHasATable) {
  std::vector<std::string> ids;
  for (const auto& name : {"full", "one", "only_positive"}) {
    for (const Chart& chart : all_charts(sample(name))) {
      SCOPED_TRACE(chart.id);
      EXPECT_FALSE(chart.title.empty());
      EXPECT_FALSE(chart.caption.empty());
      ASSERT_FALSE(chart.tables.empty());
      EXPECT_FALSE(chart.tables.front().rows.empty());
      for (const Table& table : chart.tables) {
        for (const auto& row : table.rows) EXPECT_THAT(row, SizeIs(table.columns.size()));
      }
      for (const Drawing& drawing : chart.drawings) {
        EXPECT_FALSE(drawing.description.empty());
        EXPECT_EQ(drawing.specification["$schema"],
                  "https://vega.github.io/schema/vega-lite/v5.json");
        EXPECT_TRUE(drawing.specification.contains("usermeta"));
      }
    }
  }
}

TEST(Charts, IdsAreUnique) {
  std::vector<std::string> ids;
  for (const Chart& chart : all_charts(sample("full"))) ids.push_back(chart.id);
  std::sort(ids.begin(), ids.end());
  EXPECT_EQ(std::adjacent_find(ids.begin(), ids.end()), ids.end());
}

TEST(Reliability, SquareWithGroupsOverAHistogram) {
  const auto charts = reliability_charts(sample("only_positive"));
  const auto& drawings = charts.at(1).drawings;
  ASSERT_THAT(drawings, SizeIs(2));
  const auto& diagram = drawings[0].specification;
  EXPECT_EQ(diagram["width"], diagram["height"]);
  EXPECT_TRUE(diagram["usermeta"]["square"]);
  EXPECT_EQ(drawings[1].specification["data"]["values"].size(), 5U);
}

TEST(Reliability, AThinCurveIsGreyAndSaysSo) {
  auto audit = sample("one");
  const auto thin = reliability_charts(audit).at(0).drawings[0];
  EXPECT_THAT(thin.specification.dump(), HasSubstr("under 50 outcomes"));
  EXPECT_EQ(thin.specification["layer"][2]["mark"]["color"], "#767676");
  EXPECT_THAT(thin.description, HasSubstr("too few outcomes"));
  for (auto& each : audit["reliability"]) each["thin"] = false;
  const auto full = reliability_charts(audit).at(0).drawings[0];
  EXPECT_EQ(full.specification["layer"][2]["mark"]["color"], "#0072B2");
}

TEST(Reliability, ForecastsOfAnimalsWithoutAMarkAreInTheHistogramToo) {
  auto audit = sample("one");
  for (auto& each : audit["forecasts"]) each["scored"] = false;
  EXPECT_FALSE(reliability_charts(audit).at(0).drawings[1].specification["data"]["values"].empty());
}

TEST(Forest, RatiosOfZeroAndInfinityStayOnTheAxis) {
  auto audit = sample("full");
  audit["markers"][0]["cuts"][0]["odds_ratio"]["pooled"] = {{"value", 0}, {"interval", {0, 1e300}}};
  const auto row = forest_charts(audit).at(0).drawings[0].specification["data"]["values"][0];
  EXPECT_EQ(row["value"], 0.01);
  EXPECT_EQ(row["low"], 0.01);
  EXPECT_EQ(row["high"], 1000);
}

TEST(Forest, WithoutAnyRatioHasItsTableAlone) {
  const auto chart = forest_charts(sample("one")).at(0);
  EXPECT_THAT(chart.drawings, SizeIs(0));
  EXPECT_EQ(chart.caption, "No ratio can be given yet.");
  EXPECT_THAT(chart.tables[0].rows, SizeIs(1));
}

TEST(Agreement, UndefinedIsWrittenOut) {
  const auto chart = agreement_charts(sample("full")).at(0);
  EXPECT_THAT(chart.drawings[0].specification.dump(), HasSubstr("weighted kappa: undefined"));
  EXPECT_EQ(chart.tables[0].rows.back()[4], "undefined, all scored none");
}

TEST(Waterfall, EachStepStartsWhereTheLastEnded) {
  const auto rows =
      waterfall_charts(sample("full")).at(0).drawings[0].specification["data"]["values"];
  EXPECT_EQ(rows[0]["direction"], "start");
  for (std::size_t step = 1; step < rows.size(); ++step) {
    EXPECT_EQ(rows[step]["before"], rows[step - 1]["after"]);
  }
  EXPECT_EQ(rows[2]["direction"], "against");
}

// Names are broken at some twenty characters; a step is as high as the name of most lines.
TEST(Waterfall, AStepHasRoomForTheLongestName) {
  const auto audit = sample("full");
  const auto first = waterfall_charts(audit).at(0).drawings[0].specification;
  const auto second = waterfall_charts(audit).at(1).drawings[0].specification;
  const auto step = [](const auto& chart) {
    return chart["height"].template get<std::size_t>() / chart["data"]["values"].size();
  };
  EXPECT_EQ(step(first), 64U)
      << "four lines: \"4. MO scored bar-break: three-or-more (90 % sure)\"";
  EXPECT_EQ(step(second), 46U);
  EXPECT_THAT(first["data"].dump(), Not(HasSubstr("90\\n%")));
}

TEST(Listings, SayHowManyOfHowMany) {
  const auto chart = listing_charts(sample("one")).at(0);
  EXPECT_EQ(chart.tables[0].rows[0],
            (std::vector<std::string>{"80.0\u00A0% – 90.0\u00A0%", "1", "1", "21 – 100 %"}));
  EXPECT_EQ(chart.drawings[0].specification["data"]["values"][0]["words"], "1 of 1");
}

}  // namespace
}  // namespace likelihet::publishing::charts_test
