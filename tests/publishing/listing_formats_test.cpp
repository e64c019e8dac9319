// The forms of a listing: all say the same, and none lets a word of the book act.
#include <gmock/gmock.h>
#include <nlohmann/json.hpp>
#include <publishing/listed.hpp>
#include <rapidcheck/gtest.h>

#include <likelihet/publishing/listing_document.hpp>
#include <likelihet/publishing/listing_html.hpp>
#include <likelihet/publishing/listing_markdown.hpp>
#include <likelihet/publishing/listing_sections.hpp>

namespace likelihet::publishing::listing_formats_test {
namespace {

using nlohmann::json;
using testing::AllOf;
using testing::HasSubstr;
using testing::Not;

// Everything that the keeper may name, named badly.
constexpr const char* hostile =
    "</script><script>alert(1)</script><img src=x onerror=alert(1)> & \" ' ]]> <!-- # *_`[x](y)";

support::RecordsBuilder hostile_records() {
  support::RecordsBuilder records;
  records.founder(std::string("F") + hostile, genetics::Sex::female)
      .bought_as(hostile, {{"+/e", 1.0}});
  records.founder(std::string("M") + hostile, genetics::Sex::male);
  records.clutch(hostile, std::string("F") + hostile, {std::string("M") + hostile});
  records.hatchling(hostile, hostile).shows(hostile, hostile, hostile);
  records.result(hostile, hostile, hostile).on("2026-07-02");
  records.observation().id = hostile;
  records.score(hostile, hostile, hostile);
  return records;
}

colony::ModelDescription hostile_model() {
  auto model = support::recessive_model();
  auto& locus = model.loci[0];
  locus.id = hostile;
  locus.appearance = {{"default", {{hostile, 1.0}}}, {"e/e", {{"tarnbrook", 1.0}}}};
  locus.caution = hostile;
  model.origins.clear();
  auto& marker = model.markers[0];
  marker.id = hostile;
  marker.levels = {hostile, "faint", "strong"};
  marker.rows = {{{{hostile, "+/e"}}, {0.2, 0.3, 0.5}, 4.0}, {{}, {0.8, 0.15, 0.05}, 8.0}};
  auto& assay = model.assays[0];
  assay.id = assay.locus = hostile;
  assay.reports[1] = hostile;
  return model;
}

colony::Policy hostile_policy() {
  colony::Policy policy;
  policy.health = {{hostile, hostile, colony::Grade::study, hostile}};
  return policy;
}

std::string data_of(const std::string& page) {
  const std::string start = "<script type=\"application/ld+json\">";
  const auto from = page.find(start) + start.size();
  return page.substr(from, page.find("</script>", from) - from);
}

std::size_t count_of(const std::string& text, const std::string& part) {
  std::size_t count = 0;
  for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++count;
  return count;
}

TEST(ListingHtml, NothingOfTheBookBecomesATag) {
  const Listed listed(hostile_model(), hostile_records(), hostile_policy());
  const std::string page = listing_html(listed.colony(), listed.all_of({hostile}));
  EXPECT_EQ(count_of(page, "<script"), 1U);
  EXPECT_EQ(count_of(page, "</script"), 1U);
  EXPECT_THAT(page, AllOf(Not(HasSubstr("<img")), Not(HasSubstr("<!-- #")),
                          HasSubstr("&lt;img src=x onerror=alert(1)&gt;")));
}

TEST(ListingHtml, TheDataBlockHoldsTheWordsUnharmed) {
  const Listed listed(hostile_model(), hostile_records(), hostile_policy());
  const std::string data = data_of(listing_html(listed.colony(), listed.all_of({hostile})));
  EXPECT_THAT(data, AllOf(Not(HasSubstr("<")), Not(HasSubstr("&")), Not(HasSubstr(">"))));
  const json parsed = json::parse(data);
  EXPECT_EQ(parsed["mainEntity"][0]["name"], hostile);
}

TEST(ListingHtml, IsOneStaticFileOfItsOwn) {
  const Listed listed(hostile_model(), hostile_records());
  const std::string page = listing_html(listed.colony(), listed.all_of({hostile}));
  EXPECT_THAT(page, AllOf(HasSubstr("default-src 'none'"), Not(HasSubstr("script-src")),
                          Not(HasSubstr("<link")), Not(HasSubstr(" src=\"")),
                          Not(HasSubstr("url(")), HasSubstr("<html lang=\"en\">")));
}

// For what a Product, a PropertyValue and dateModified mean: schema.org's own definitions.
TEST(ListingHtml, CarriesTheFiguresForPrograms) {
  auto records = pair_sold_as(1, 1);
  records.hatchling("H", "C").shows("H", "tarnbrook", "plain").on("2026-06-01");
  Listed listed(support::recessive_model(), records);
  listed.ground().as_of = support::day("2026-07-01");
  const json data = json::parse(data_of(listing_html(listed.colony(), listed.all_of({"H"}))));
  EXPECT_EQ(data["@context"], "https://schema.org");
  EXPECT_EQ(data["dateModified"], "2026-07-01");
  const json& product = data["mainEntity"][0];
  EXPECT_EQ(product["@type"], "Product");
  const json& value = product["additionalProperty"][0];
  EXPECT_EQ(value["@type"], "PropertyValue");
  EXPECT_EQ(value["value"], 66.0);
  EXPECT_EQ(value["name"], "chance of exactly one copy for tarnbrook");
  EXPECT_THAT(value["description"].get<std::string>(),
              AllOf(HasSubstr("66 % possible het"), HasSubstr("not a guarantee")));
}

TEST(ListingHtml, WordsThatTurnTheWritingAreShownAsReplaced) {
  const std::string turning = "a\xE2\x80\xAE% 001\xE2\x81\xA6";
  support::RecordsBuilder records;
  records.founder(turning);
  const Listed listed(support::recessive_model(), records);
  for (const std::string& text : {listing_html(listed.colony(), listed.all_of({turning})),
                                  listing_markdown(listed.colony(), listed.all_of({turning}))}) {
    EXPECT_THAT(text, AllOf(Not(HasSubstr("\xE2\x80\xAE")), Not(HasSubstr("\xE2\x81\xA6")),
                            HasSubstr("\xEF\xBF\xBD% 001\xEF\xBF\xBD")));
  }
}

TEST(MarkdownText, EscapesWhatMarkdownReads) {
  EXPECT_EQ(markdown_text("*a* _b_ `c` [d](e) <f> &amp; g|h ~i~ \\j"),
            "\\*a\\* \\_b\\_ \\`c\\` \\[d\\](e) \\<f\\> \\&amp; g\\|h \\~i\\~ \\\\j");
  EXPECT_EQ(markdown_text("# no heading"), "\\# no heading");
  EXPECT_EQ(markdown_text("- no list"), "\\- no list");
  EXPECT_EQ(markdown_text("12. no list"), "12\\. no list");
  EXPECT_EQ(markdown_text("1) no list"), "1\\) no list");
  EXPECT_EQ(markdown_text("    no code"), "no code");
  EXPECT_EQ(markdown_text("http://x.example www.x.example a@x.example"),
            "http\\://x.example www\\.x.example a\\@x.example");
  EXPECT_EQ(markdown_text("two\nlines\r\n# three"), "two lines  # three");
}

TEST(MarkdownText, LeavesIdsAndFiguresAlone) {
  EXPECT_EQ(markdown_text("25-C8-07: 66 % possible het for tarnbrook (see 1.5)."),
            "25-C8-07: 66 % possible het for tarnbrook (see 1.5).");
}

RC_GTEST_PROP(MarkdownText, IsOneLineThatReadsBackWithoutItsBackslashes, ()) {
  const auto text = *rc::gen::container<std::string>(
      rc::gen::element('a', ' ', '*', '_', '<', '#', '\\', '.', '1', 'w', ':', '/', '@', '\n'));
  const std::string written = markdown_text(text);
  RC_ASSERT(written.find('\n') == std::string::npos);
  std::string back;
  for (std::size_t at = 0; at < written.size(); ++at) {
    if (written[at] == '\\') ++at;
    back += written[at];
  }
  std::string expected = text;
  std::replace(expected.begin(), expected.end(), '\n', ' ');
  expected.erase(0, std::min(expected.find_first_not_of(' '), expected.size()));
  RC_ASSERT(back == expected);
}

TEST(ListingMarkdown, HasAHeadingForEachAnimalAndNothingLoose) {
  const Listed listed(hostile_model(), hostile_records(), hostile_policy());
  const std::string text = listing_markdown(listed.colony(), listed.all_of({hostile}));
  EXPECT_THAT(text, AllOf(testing::StartsWith("# \\</script\\>"), HasSubstr("\n## Cautions\n")));
  for (std::size_t at = 0; at < text.size(); ++at) {
    const bool acts = std::string_view("<[*_`&|").find(text[at]) != std::string_view::npos;
    EXPECT_TRUE(!acts || text[at - 1] == '\\') << text.substr(at, 20);
  }
}

TEST(ListingDocument, HoldsTheNumbersToTheirLastDigit) {
  auto records = pair_sold_as(1, 1);
  records.hatchling("H", "C").shows("H", "tarnbrook", "plain");
  const Listed listed(support::recessive_model(), records);
  const auto made = listed.all_of({"H", "F"});
  const json document = json::parse(listing_document(listed.colony(), made).dump());
  EXPECT_EQ(document["format"], "likelihet-listing");
  EXPECT_EQ(document["version"], 1);
  EXPECT_TRUE(document["day"].is_null());
  const json& statement = document["listings"][0]["statements"][0];
  EXPECT_EQ(statement["markerless"].get<double>(), made[0].statements[0].markerless);
  EXPECT_EQ(statement["published"]["high"], 0.66);
  EXPECT_EQ(statement["label"], "possible");
  EXPECT_EQ(statement["rests_on"], json({"o1"}));
  EXPECT_TRUE(statement["marked"].is_null());
  EXPECT_EQ(document["listings"][1]["animal"], "F");
}

TEST(ListingDocument, OfNoAnimalsIsEmpty) {
  const Listed listed(support::recessive_model(), pair_sold_as(1, 1));
  EXPECT_EQ(listing_document(listed.colony(), {})["listings"].size(), 0U);
}

TEST(ListingSections, SayTheSameInEveryForm) {
  const Listed listed(support::recessive_model(),
                      pair_sold_as(1, 1).hatchling("H", "C").shows("H", "tarnbrook", "plain"));
  const auto made = listed.all_of({"H"});
  const std::string page = listing_html(listed.colony(), made);
  const std::string markdown = listing_markdown(listed.colony(), made);
  for (const ListingSection& section : sections_of(listed.colony(), made[0])) {
    EXPECT_THAT(markdown, HasSubstr(markdown_text(section.heading)));
    for (const std::string& line : section.lines) {
      EXPECT_THAT(markdown, HasSubstr("- " + markdown_text(line) + "\n"));
    }
  }
  EXPECT_THAT(page, HasSubstr("<h3>66 % possible het for tarnbrook</h3>"));
}

TEST(ListingSections, WhatIsNotCarriedIsOneSection) {
  support::RecordsBuilder records;
  records.founder("F", genetics::Sex::female);
  const Listed listed(support::masked_model(), records);
  const auto sections = sections_of(listed.colony(), listed.of("F"));
  EXPECT_EQ(sections[0].heading, "Not carried, by the records");
  EXPECT_EQ(sections[0].lines.size(), 2U);
}

}  // namespace
}  // namespace likelihet::publishing::listing_formats_test
