// Escaping, in pages and in scripts.
#include <gmock/gmock.h>
#include <nlohmann/json.hpp>
#include <rapidcheck/gtest.h>

#include <likelihet/publishing/markup.hpp>
#include <likelihet/publishing/script.hpp>

namespace likelihet::publishing::markup_test {
namespace {

using testing::HasSubstr;
using testing::Not;

TEST(Markup, EscapesWhatHtmlReads) {
  EXPECT_EQ(escaped("a<b>&\"c'").str(), "a&lt;b&gt;&amp;&quot;c&#39;");
  EXPECT_EQ(escaped("</script><script>").str(), "&lt;/script&gt;&lt;script&gt;");
}

TEST(Markup, LeavesOtherTextAlone) {
  EXPECT_EQ(escaped("25-C8-07 × äñ漢 \n\t").str(), "25-C8-07 × äñ漢 \n\t");
}

TEST(Markup, ShowsControlCharactersAsUnknown) {
  EXPECT_EQ(escaped(std::string_view("a\0b\x1B\x7F", 5)).str(), "a\uFFFDb\uFFFD\uFFFD");
}

TEST(Markup, FillsTextEscapedAndMarkupAsItIs) {
  EXPECT_EQ(filled("<p title=\"{}\">{}</p>", {"\"<", name("x<y")}).str(),
            "<p title=\"&quot;&lt;\"><bdi>x&lt;y</bdi></p>");
}

TEST(Markup, FillingIsNotFilledAgain) {
  EXPECT_EQ(filled("{}-{}", {"{}", "b"}).str(), "{}-b");
}

TEST(Markup, RefusesAWrongNumberOfFillings) {
  EXPECT_THROW(filled("{}", {"a", "b"}), std::logic_error);
  EXPECT_THROW(filled("{}{}", {"a"}), std::logic_error);
}

TEST(Script, DataCantEndItsElement) {
  const auto data = Script::data({{"id", "</script><!--<script>&amp;"}}).str();
  EXPECT_THAT(data, Not(HasSubstr("<")));
  EXPECT_THAT(data, Not(HasSubstr("&")));
  EXPECT_EQ(nlohmann::json::parse(data)["id"], "</script><!--<script>&amp;");
}

TEST(Script, DataHasNoLineSeparators) {
  EXPECT_EQ(Script::data("\u2028\u2029\u202E").str(), "\"\\u2028\\u2029\\u202e\"");
}

TEST(Script, ProgramsCantEndTheirElement) {
  EXPECT_EQ(Script::program("a='</script>'; b='<!--'").str(), "a='<\\/script>'; b='<\\!--'");
  EXPECT_EQ(Script::program("'</SCRIPT>'; '</ScRiPt>'").str(), "'<\\/SCRIPT>'; '<\\/ScRiPt>'");
}

RC_GTEST_PROP(Markup, EscapedTextHoldsNothingThatHtmlReads, ()) {
  const auto text =
      *rc::gen::container<std::string>(rc::gen::elementOf(std::string("<>&\"'/!-ab=; \n\x01")));
  const auto html = escaped(text).str();
  RC_ASSERT(html.find_first_of("<>\"'") == std::string::npos);
  for (auto at = html.find('&'); at != std::string::npos; at = html.find('&', at + 1)) {
    const auto reference = html.substr(at, html.find(';', at) + 1 - at);
    RC_ASSERT(reference == "&amp;" || reference == "&lt;" || reference == "&gt;" ||
              reference == "&quot;" || reference == "&#39;");
  }
}

RC_GTEST_PROP(Script, DataReadsBackAsItWas, ()) {
  const auto text =
      *rc::gen::container<std::string>(rc::gen::elementOf(std::string("<>&\"'\\/!-ab=; \n\x01")));
  const auto data = Script::data(text).str();
  RC_ASSERT(data.find_first_of("<>&") == std::string::npos);
  RC_ASSERT(nlohmann::json::parse(data).get<std::string>() == text);
}

}  // namespace
}  // namespace likelihet::publishing::markup_test
