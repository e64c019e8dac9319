// Whatever a document says, it stays text: in the page, in attributes and in the data of charts.
#include <set>

#include <gmock/gmock.h>
#include <publishing/samples.hpp>
#include <rapidcheck/gtest.h>

#include <likelihet/publishing/audit_report.hpp>

namespace likelihet::publishing::hostile_documents_test {
namespace {

using nlohmann::json;

/// Every tag of the page outside scripts and the style, by its name.
std::set<std::string> tags(const std::string& page) {
  std::set<std::string> found;
  bool in_text = false;
  for (auto at = page.find('<'); at != std::string::npos; at = page.find('<', at + 1)) {
    const auto end = page.find_first_of(" >", at);
    auto name = page.substr(at + 1, end - at - 1);
    if (in_text && name != "/script" && name != "/style") continue;
    in_text = name == "script" || name == "style";
    found.insert(name.starts_with("/") ? name.substr(1) : name);
  }
  return found;
}

/// All attributes of the page's tags, by name.
std::set<std::string> attributes(const std::string& page) {
  std::set<std::string> found;
  std::string rest = page;
  for (const auto& tag : between(page, "<", ">")) {
    for (auto at = tag.find("=\""); at != std::string::npos; at = tag.find("=\"", at)) {
      const auto start = tag.find_last_of(' ', at);
      found.insert(tag.substr(start + 1, at - start - 1));
      at = tag.find('"', at + 2);
      if (at == std::string::npos) break;
    }
  }
  return found;
}

/// Puts the text in the place of every text of the document that is not one of its code words.
void spoil(json& value, const std::string& text) {
  static const std::set<std::string> code_words = {
      "basis", "scheme", "outcomes", "score", "reason", "code", "format", "by", "verdict", "kind"};
  if (value.is_string()) value = text;
  if (value.is_array()) {
    for (json& each : value) spoil(each, text);
  }
  if (value.is_object()) {
    for (auto& [name, each] : value.items()) {
      if (!code_words.contains(name)) spoil(each, text);
    }
  }
}

const std::vector<std::string>& hostile_texts() {
  static const std::vector<std::string> texts = {"</script><script>alert(1)</script>",
                                                 "\"><img src=x onerror=alert(1)>",
                                                 "' onmouseover='alert(1)",
                                                 "</style></title></textarea><svg onload=alert(1)>",
                                                 "<!-- --> ]]> <![CDATA[",
                                                 "a\nb\r\nc\td",
                                                 "\u202Egnp.exe\u202C \u2066x\u2069",
                                                 "\u2028\u2029",
                                                 "&lt;b&gt; &amp; &#60;",
                                                 "{}{}{{0}}",
                                                 "javascript:alert(1)",
                                                 std::string("nul\0here", 8),
                                                 "\xFF\xFE no UTF-8 \xC3"};
  return texts;
}

TEST(HostileDocuments, AddNoTagAndNoAttribute) {
  for (const auto* name : {"full", "one"}) {
    auto tame = sample(name);
    spoil(tame, "tame");
    const auto tame_page = audit_report(tame, {"draw();"});
    for (const auto& text : hostile_texts()) {
      SCOPED_TRACE(text);
      auto audit = sample(name);
      spoil(audit, text);
      const auto page = audit_report(audit, {"draw();"});
      EXPECT_EQ(tags(page), tags(tame_page));
      EXPECT_EQ(attributes(page), attributes(tame_page));
      EXPECT_EQ(times(page, "<script"), times(tame_page, "<script"));
      EXPECT_EQ(times(page, "</script"), times(tame_page, "</script"));
    }
  }
}

TEST(HostileDocuments, ChartsGetTheTextAsItIs) {
  for (const auto& text : {hostile_texts()[0], hostile_texts()[1], hostile_texts()[6]}) {
    auto audit = sample("full");
    for (auto& marker : audit["markers"]) marker["marker"] = text;
    bool found = false;
    for (const auto& specification : specifications(audit_report(audit, {"draw();"}))) {
      for (const auto& row : specification.value("/data/values"_json_pointer, json::array())) {
        found = found || row.value("marker", "").starts_with(text + "\nfrom ");
      }
    }
    EXPECT_TRUE(found);
  }
}

TEST(HostileDocuments, NamesAreKeptFromTurningTheLine) {
  auto audit = sample("full");
  audit["worst"][0]["animal"] = "\u202Eabc";
  EXPECT_THAT(audit_report(audit, {}), testing::HasSubstr("<bdi>\u202Eabc</bdi>"));
}

/// Any JSON at all, deeper down with less in it.
json anything(int depth) {
  const int kind = *rc::gen::inRange(0, depth > 0 ? 8 : 6);
  switch (kind) {
    case 0:
      return nullptr;
    case 1:
      return *rc::gen::arbitrary<bool>();
    case 2:
      return *rc::gen::inRange(-5, 1000);
    case 3:
      return *rc::gen::inRange(0, 1001) / 1000.0;
    case 4:
      return 1e308;
    case 5:
      return *rc::gen::elementOf(hostile_texts());
    case 6: {
      json list = json::array();
      for (int left = *rc::gen::inRange(0, 3); left > 0; --left)
        list.push_back(anything(depth - 1));
      return list;
    }
    default:
      return {{"value", anything(depth - 1)}, {"interval", anything(depth - 1)}};
  }
}

/// Changes some places of the document to anything.
void disturb(json& value, int one_in) {
  if (*rc::gen::inRange(0, one_in) == 0) {
    value = anything(2);
  } else if (value.is_structured()) {
    for (json& each : value) disturb(each, one_in);
  }
}

RC_GTEST_PROP(HostileDocuments, APageIsMadeOfAnythingAndNothingGetsOut, ()) {
  static const std::set<std::string> known_tags = tags(audit_report(sample("full"), {"draw();"}));
  auto audit = sample(*rc::gen::element<std::string>("one", "only_positive", "empty"));
  disturb(audit, *rc::gen::inRange(5, 60));
  const auto page = audit_report(audit, {"draw();"});
  for (const auto& tag : tags(page)) RC_ASSERT(known_tags.contains(tag));
  RC_ASSERT(specifications(page).size() == times(page, "class=\"drawing\""));
  RC_ASSERT(page.ends_with("</html>\n"));
}

TEST(HostileDocuments, NoDocumentAtAll) {
  for (const auto& document : {json(), json(3), json("x"), json::array(), json::object()}) {
    EXPECT_THAT(audit_report(document, {}), testing::HasSubstr("No forecast can be checked yet"));
  }
}

}  // namespace
}  // namespace likelihet::publishing::hostile_documents_test
