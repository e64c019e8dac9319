// The whole page.
#include <gmock/gmock.h>
#include <publishing/samples.hpp>

#include <likelihet/publishing/audit_report.hpp>

namespace likelihet::publishing::audit_report_test {
namespace {

using testing::HasSubstr;
using testing::Not;

std::string page(const std::string& name) {
  return audit_report(sample(name), {"draw();"});
}

TEST(AuditReport, EveryChartHasItsTable) {
  const auto html = page("full");
  const auto figures = between(html, "<figure class=\"chart\"", "</figure>");
  EXPECT_EQ(figures.size(), 16U);
  for (const auto& figure : figures) {
    EXPECT_GE(times(figure, "<table>"), 1U) << figure.substr(0, 80);
    EXPECT_GE(times(figure, "class=\"drawing\" role=\"img\" aria-label=\""), 1U);
    EXPECT_GE(times(figure, "<figcaption>"), 1U);
  }
  EXPECT_EQ(specifications(html).size(), times(html, "class=\"drawing\""));
}

TEST(AuditReport, FetchesNothing) {
  const auto html = page("full");
  EXPECT_THAT(html, HasSubstr("default-src 'none'"));
  EXPECT_THAT(html, Not(HasSubstr(" src=")));
  EXPECT_THAT(html, Not(HasSubstr("url(")));
  EXPECT_EQ(times(html, "https://"), specifications(html).size());  // names of schemas
}

TEST(AuditReport, HeadingsAreInOrder) {
  const auto html = page("full");
  EXPECT_EQ(times(html, "<h1>"), 1U);
  EXPECT_EQ(times(html, "<h2 "), 10U);
  EXPECT_LT(html.find("<h1>"), html.find("<h2 "));
  EXPECT_LT(html.find("<h2 "), html.find("<h3>"));
  EXPECT_EQ(times(html, "<h4"), 0U);
  EXPECT_THAT(html, HasSubstr("<html lang=\"en\">"));
  EXPECT_THAT(html, HasSubstr("href=\"#content\""));
}

TEST(AuditReport, LinksOfTheContentsLeadSomewhere) {
  const auto html = page("full");
  for (const auto& id : between(html, "<a href=\"#", "\"")) {
    EXPECT_EQ(times(html, "<section id=\"" + id + "\""), 1U) << id;
  }
}

TEST(AuditReport, OpensWithTheWarnings) {
  const auto html = page("full");
  const auto warning = html.find("Tested animals have louder markers");
  ASSERT_NE(warning, std::string::npos);
  EXPECT_LT(warning, html.find("can be checked against what came out"));
}

TEST(AuditReport, SaysWhetherMarkersEarnedTheirPlace) {
  auto audit = sample("full");
  const auto say = [&](double low, double high) {
    for (auto& score : audit["scores"]) {
      if (score["score"] == "skill") score["interval"] = {low, high};
    }
    return audit_report(audit, {});
  };
  EXPECT_THAT(say(0.05, 0.4), HasSubstr("The markers earned their place"));
  EXPECT_THAT(say(-0.05, 0.4), HasSubstr("It is not shown that the markers earned their place"));
  EXPECT_THAT(say(-0.4, -0.05), HasSubstr("The markers did harm"));
}

TEST(AuditReport, WithoutTheScriptSaysSoAndShowsTheTables) {
  const auto html = audit_report(sample("full"), {});
  EXPECT_THAT(html, HasSubstr("built without its chart script"));
  EXPECT_EQ(times(html, "class=\"drawing\""), 0U);
  for (const auto& figure : between(html, "<figure class=\"chart\"", "</figure>")) {
    EXPECT_THAT(figure, HasSubstr("<details open>"));
  }
}

TEST(AuditReport, CarriesTheScript) {
  EXPECT_THAT(page("one"), HasSubstr("<script>draw();</script>"));
  EXPECT_THAT(page("one"), Not(HasSubstr("built without")));
}

TEST(AuditReport, AnEmptyAuditSaysSo) {
  const auto html = page("empty");
  EXPECT_THAT(html, HasSubstr("No forecast can be checked yet"));
  EXPECT_THAT(html, HasSubstr("No markers were recorded"));
  EXPECT_EQ(times(html, "<figure"), 0U);
  EXPECT_THAT(html, HasSubstr("Limits and cautions"));
}

TEST(AuditReport, OneOutcomeIsCounted) {
  EXPECT_THAT(page("one"), HasSubstr("1 forecast can be checked against what came out: 1 animal "
                                     "turned out het, 0 did not"));
}

TEST(AuditReport, OfCarriersAloneWhatCantBeGivenHasItsReason) {
  EXPECT_THAT(page("only_positive"), HasSubstr("needs both hets and others"));
}

TEST(AuditReport, ManyForecastsAreListedInPart) {
  auto audit = sample("one");
  const auto first = audit["forecasts"][0];
  for (int animal = 0; animal < 700; ++animal) {
    audit["forecasts"].push_back(first);
    audit["forecasts"].back()["animal"] = "x" + std::to_string(animal);
  }
  const auto html = audit_report(audit, {});
  EXPECT_THAT(html, HasSubstr("Every forecast, as it stood on the day (701): the first 500"));
  EXPECT_THAT(html, Not(HasSubstr("x600")));
}

TEST(AuditReport, AnswersTheReportingItems) {
  const auto html = page("full");
  const auto tables = between(html, "<caption>", "</table>");
  const auto rows_of = [&](std::string_view caption) {
    for (const auto& table : tables) {
      if (table.starts_with(caption)) return times(table, "<tr>") - 1;
    }
    return std::size_t{0};
  };
  EXPECT_EQ(rows_of("STARD 2015"), 34U);  // 30 items, four of them in two parts
  EXPECT_EQ(rows_of("TRIPOD+AI"), 27U);
  EXPECT_THAT(html, HasSubstr("not recorded by the program"));
}

}  // namespace
}  // namespace likelihet::publishing::audit_report_test
