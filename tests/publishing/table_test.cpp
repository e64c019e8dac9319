// Tables and folded parts.
#include <gmock/gmock.h>
#include <publishing/samples.hpp>

#include <likelihet/publishing/table.hpp>

namespace likelihet::publishing::table_test {
namespace {

using testing::HasSubstr;
using testing::Not;

const Table small = {
    "Markers", {"marker", "animals", "remark"}, {{"a<b", "12", "none of them was seen"}}, 1, 2};

TEST(Table, NamesItsRowsAndColumns) {
  const auto html = html_table(small).str();
  EXPECT_THAT(html, HasSubstr("<caption>Markers</caption>"));
  EXPECT_THAT(html, HasSubstr("<th scope=\"col\">marker</th>"));
  EXPECT_THAT(html, HasSubstr("<th scope=\"col\" class=\"figure\">animals</th>"));
  EXPECT_THAT(html, HasSubstr("<th scope=\"row\" class=\"words short\"><bdi>a&lt;b</bdi></th>"));
}

TEST(Table, FiguresStayOnOneLineAndWordsBreak) {
  const auto html = html_table(small).str();
  EXPECT_THAT(html, HasSubstr("<td class=\"figure short\"><bdi>12</bdi></td>"));
  EXPECT_THAT(html, HasSubstr("<td class=\"words long\"><bdi>none of them was seen</bdi></td>"));
}

TEST(Table, AReasonInPlaceOfAFigureBreaks) {
  auto table = small;
  table.rows[0][1] = "needs both hets and others";
  EXPECT_THAT(html_table(table).str(), HasSubstr("<td class=\"figure long\">"));
}

TEST(Table, ScrollsInABoxThatTheKeyboardReaches) {
  EXPECT_THAT(
      html_table(small).str(),
      HasSubstr(
          "<div class=\"scroll\" tabindex=\"0\" role=\"group\" aria-label=\"Table: Markers\">"));
}

TEST(Table, WithoutRowsIsASentence) {
  auto table = small;
  table.rows.clear();
  const auto html = html_table(table).str();
  EXPECT_THAT(html, HasSubstr("Markers: nothing to list."));
  EXPECT_THAT(html, Not(HasSubstr("<table")));
}

TEST(Folded, IsClosedOrOpen) {
  EXPECT_THAT(folded("More & more", {small, small}, false).str(),
              HasSubstr("<details><summary>More &amp; more</summary>"));
  const auto open = folded("More", {small, small}, true).str();
  EXPECT_THAT(open, HasSubstr("<details open>"));
  EXPECT_EQ(times(open, "<table>"), 2U);
}

}  // namespace
}  // namespace likelihet::publishing::table_test
