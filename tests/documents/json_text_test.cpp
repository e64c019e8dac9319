// Strict JSON: RFC 8259, RFC 6901, and the limits that keep a hostile text from doing harm.
#include <documents/samples.hpp>

#include <likelihet/documents/json_text.hpp>
#include <likelihet/documents/model_document.hpp>

namespace likelihet::documents::json_text_test {
namespace {

colony::Faults faults_in(const std::string& text) {
  FaultList faults;
  const std::optional<Json> value = parse_json(text, faults);
  EXPECT_TRUE(value || !faults.empty());
  return faults.take();
}

std::string only_fault(const std::string& text) {
  const colony::Faults faults = faults_in(text);
  EXPECT_EQ(faults.size(), 1U);
  return faults.empty() ? "" : faults.front().place + ": " + faults.front().what;
}

// RFC 8259 section 13, both examples, and the three texts of one value.
TEST(JsonText, ReadsTheExamplesOfRfc8259) {
  const std::vector<std::string> examples = {
      R"({"Image":{"Width":800,"Height":600,"Title":"View from 15th Floor","Thumbnail":{"Url":
         "http://www.example.com/image/481989943","Height":125,"Width":100},"Animated":false,
         "IDs":[116,943,234,38793]}})",
      R"([{"precision":"zip","Latitude":37.7668,"Longitude":-122.3959,"Address":"","City":
         "SAN FRANCISCO","State":"CA","Zip":"94107","Country":"US"},{"precision":"zip","Latitude":
         37.371991,"Longitude":-122.026020,"Address":"","City":"SUNNYVALE","State":"CA","Zip":
         "94085","Country":"US"}])",
      R"("Hello world!")", "42", "true"};
  for (const std::string& text : examples) {
    FaultList faults;
    const std::optional<Json> value = parse_json(text, faults);
    ASSERT_TRUE(value);
    EXPECT_TRUE(faults.empty());
    EXPECT_EQ(*value, Json::parse(text));
  }
}

// RFC 8259 section 7: "\uD834\uDD1E" is the G clef; every escape there is read.
TEST(JsonText, ReadsEscapes) {
  FaultList faults;
  const auto value = parse_json(R"(["\uD834\uDD1E","\"\\\/\b\f\n\r\t"])", faults);
  ASSERT_TRUE(value);
  EXPECT_EQ((*value)[0], "\xF0\x9D\x84\x9E");
  EXPECT_EQ((*value)[1], "\"\\/\b\f\n\r\t");
}

// RFC 8259 section 8.1: a parser may ignore a byte-order mark.
TEST(JsonText, IgnoresAByteOrderMark) {
  EXPECT_EQ(faults_in("\xEF\xBB\xBF{}"), colony::Faults{});
}

TEST(JsonText, SaysThatATextIsEmpty) {
  const colony::Faults empty{{"", "the text is empty", "give a JSON document (RFC 8259)"}};
  EXPECT_EQ(faults_in(""), empty);
  EXPECT_EQ(faults_in(" \n\t\r\n"), empty);
  EXPECT_EQ(faults_in("\xEF\xBB\xBF"), empty);
}

TEST(JsonText, NamesLineAndColumnOfASyntaxError) {
  EXPECT_EQ(
      faults_in("{\n  \"a\": 1,\n  b\n}"),
      (colony::Faults{
          {"", "not JSON at line 3 column 3: object key - invalid literal; expected string literal",
           "write it as RFC 8259 says, in UTF-8; a file cut short must be fetched again"}}));
  // Columns count characters, not bytes.
  EXPECT_EQ(only_fault("[\"\xC3\xA4\xC3\xB6\", x]"),
            ": not JSON at line 1 column 8: value - invalid literal");
}

// RFC 8259 sections 2 to 7: what the grammar has no place for.
TEST(JsonText, RefusesWhatRfc8259DoesNotAllow) {
  const std::vector<std::string> texts = {
      "{",          "[",       "[1,",      "{\"a\"",      "{\"a\":",   "\"a",       "[1,]",
      "{\"a\":1,}", "{} {}",   "[] x",     "01",          "1.",        ".5",        "+1",
      "-",          "1e",      "0x1F",     "NaN",         "Infinity",  "-Infinity", "nul",
      "True",       "'a'",     "{a:1}",    "[1 2]",       "{\"a\" 1}", "\"\\x\"",   "\"\\u12\"",
      "\"\t\"",     "// x\n1", "/* x */1", "\"\\uD800\"", "]",         "}",         ":",
      ",",          "[1}",     "\x01",     "\"\n\""};
  for (const std::string& text : texts) {
    const std::string fault = only_fault(text);
    EXPECT_EQ(fault.substr(0, 16), ": not JSON at li") << text << " gave " << fault;
  }
}

// The table of RFC 3629 section 4: overlong forms, surrogates, values too large, broken sequences.
TEST(JsonText, RefusesIllFormedUtf8) {
  for (const std::string bytes :
       {"\x80", "\xC0\xAF", "\xE0\x80\x80", "\xED\xA0\x80", "\xF4\x90\x80\x80", "\xFF", "\xC3"}) {
    const std::string fault = only_fault("[\"" + bytes + "\"]");
    EXPECT_NE(fault.find("ill-formed UTF-8"), std::string::npos) << fault;
  }
}

TEST(JsonText, SaysWhereATextIsCutShort) {
  EXPECT_EQ(only_fault("{\"loci\": [\n  {\"id\": \"emb"),
            ": not JSON at line 2 column 14: value - invalid string: missing closing quote");
  EXPECT_EQ(
      only_fault("{\"loci\": ["),
      ": not JSON at line 1 column 11: value - unexpected end of input; expected '[', '{', or a "
      "literal");
}

TEST(JsonText, RefusesNumbersBeyondADoubleAtTheirPlace) {
  EXPECT_EQ(
      faults_in(R"({"loci":[{"worth":[1,-1e999]}]})"),
      (colony::Faults{{"/loci/0/worth/1", "at line 1 column 27: a number too large for a double",
                       "write a number within ±1.7e308"}}));
  EXPECT_EQ(only_fault("1e999"), ": at line 1 column 5: a number too large for a double");
  EXPECT_EQ(only_fault(R"({"a":{"b":1e400}})").substr(0, 5), "/a/b:");
  EXPECT_EQ(faults_in("[1.7976931348623157e308, 5e-324, 1e-999, 18446744073709551616]"),
            colony::Faults{});
}

TEST(JsonText, ReportsEveryRepeatedKeyAndReadsOn) {
  EXPECT_EQ(faults_in(R"({"a":1,"b":{"c":1,"c":2},"a":3,"d":[{"e":0,"e":0}]})"),
            (colony::Faults{{"/b", "the field 'c' is given twice", "keep one of the two"},
                            {"", "the field 'a' is given twice", "keep one of the two"},
                            {"/d/0", "the field 'e' is given twice", "keep one of the two"}}));
}

// RFC 8259 section 4: names are compared after their escapes are read.
TEST(JsonText, ReportsARepeatedKeyWrittenWithAnEscape) {
  EXPECT_EQ(only_fault(R"({"id":1,"\u0069d":2})"), ": the field 'id' is given twice");
}

TEST(JsonText, ReportsRepeatedKeysOfLargeObjects) {
  std::string text = "{";
  for (int i = 0; i < 5000; ++i) text += "\"k" + std::to_string(i) + "\":0,";
  EXPECT_EQ(faults_in(text + "\"last\":0}"), colony::Faults{});
  EXPECT_EQ(only_fault(text + "\"k3\":0}"), ": the field 'k3' is given twice");
  EXPECT_EQ(only_fault(text + "\"k4999\":0}"), ": the field 'k4999' is given twice");
}

TEST(JsonText, RefusesNestingOver64Levels) {
  const std::string open(64, '[');
  const std::string close(64, ']');
  EXPECT_EQ(faults_in(open + close), colony::Faults{});
  const colony::Faults faults = faults_in("[" + open + close + "]");
  ASSERT_EQ(faults.size(), 1U);
  EXPECT_EQ(faults[0].what, "nested deeper than 64 levels");
  EXPECT_EQ(faults[0].place.size(), 2U * 64U);  // "/0" a level
  EXPECT_EQ(faults_in(std::string(1'000'000, '[')).size(), 1U);
  std::string objects;
  for (int i = 0; i < 100'000; ++i) objects += "{\"a\":";
  EXPECT_EQ(only_fault(objects).substr(0, 6), "/a/a/a");
}

// The examples of RFC 6901 section 5: the pointer of each member of its document.
TEST(JsonPointer, WritesTheExamplesOfRfc6901) {
  const std::vector<std::pair<std::string, std::string>> examples = {
      {"foo", "/foo"}, {"", "/"},         {"a/b", "/a~1b"},  {"c%d", "/c%d"}, {"e^f", "/e^f"},
      {"g|h", "/g|h"}, {"i\\j", "/i\\j"}, {"k\"l", "/k\"l"}, {" ", "/ "},     {"m~n", "/m~0n"}};
  for (const auto& [key, pointer] : examples) EXPECT_EQ(pointer_token(key), pointer);
}

TEST(FaultList, KeepsAThousandAndCountsTheRest) {
  const auto with_unknown_fields = [](int count) {
    std::string text = R"({"format":"likelihet-model","version":1,"loci":[])";
    for (int i = 0; i < count; ++i) text += ",\"x" + std::to_string(i) + "\":0";
    return faults_of(read_model(text + "}"));
  };
  EXPECT_EQ(with_unknown_fields(1000).size(), 1000U);
  EXPECT_EQ(with_unknown_fields(1000).back().place, "/x999");
  const colony::Faults faults = with_unknown_fields(5000);
  ASSERT_EQ(faults.size(), 1001U);
  EXPECT_EQ(faults[998].place, "/x998");
  EXPECT_EQ(faults[1000].what, "4000 more faults were found");
}

TEST(JsonText, MessagesStayShort) {
  const std::string huge(5'000'000, 'x');
  for (const std::string& text :
       {"[\"" + huge, "[" + huge, "{\"" + huge + "\":1,\"" + huge + "\":2}"}) {
    const colony::Faults faults = faults_in(text);
    ASSERT_EQ(faults.size(), 1U);
    EXPECT_LT(faults[0].what.size(), 400U);
  }
}

}  // namespace
}  // namespace likelihet::documents::json_text_test
