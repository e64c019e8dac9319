// Reading a document whatever is in it.
#include <gmock/gmock.h>

#include <likelihet/publishing/fields.hpp>

namespace likelihet::publishing::fields_test {
namespace {

using testing::ElementsAre;

const json document = json::parse(R"({"word": "x", "n": 3, "part": 0.25, "yes": true, "gone": null,
  "list": [{"basis": "scored", "k": 1}, {"basis": "pedigree", "k": 2}, {"basis": "scored", "k": 3}, 7]})");

TEST(Fields, ReadsWhatIsThere) {
  EXPECT_EQ(text(document, "word"), "x");
  EXPECT_EQ(number(document, "part"), 0.25);
  EXPECT_EQ(count(document, "n"), 3);
  EXPECT_TRUE(flag(document, "yes"));
  EXPECT_EQ(entries(document, "list").size(), 4U);
}

TEST(Fields, ReadsNothingWhereThereIsNothing) {
  for (const auto* name : {"gone", "absent", "list"}) {
    EXPECT_EQ(text(document, name), "");
    EXPECT_EQ(number(document, name), std::nullopt);
    EXPECT_EQ(count(document, name), 0);
    EXPECT_FALSE(flag(document, name));
  }
  EXPECT_TRUE(entries(document, "word").empty());
  EXPECT_TRUE(field(json(3), "any").is_null());
}

TEST(Fields, ReadsEstimates) {
  const auto whole = estimate(json::parse(R"({"value": 2, "interval": [1, 4]})"));
  EXPECT_EQ(whole.value, 2);
  EXPECT_EQ(whole.interval, (std::pair(1.0, 4.0)));
  const auto undefined = estimate(json::parse(R"({"value": null, "interval": null, "why": "no"})"));
  EXPECT_EQ(undefined.value, std::nullopt);
  EXPECT_EQ(undefined.interval, std::nullopt);
  EXPECT_EQ(undefined.why, "no");
  EXPECT_EQ(estimate(json::parse(R"({"value": 2, "interval": [1]})")).interval, std::nullopt);
  EXPECT_EQ(estimate(json::parse(R"({"n": 2, "interval": [1, "x"]})"), "n").value, 2);
}

TEST(Fields, FindsEntries) {
  const auto& list = entries(document, "list");
  const auto scored = having(list, {{"basis", "scored"}});
  ASSERT_EQ(scored.size(), 2U);
  EXPECT_EQ(count(*scored[1], "k"), 3);
  EXPECT_TRUE(having(list, {{"basis", "scored"}, {"k", "1"}}).empty());
  EXPECT_THAT(different(list, "basis"), ElementsAre("scored", "pedigree", ""));
}

}  // namespace
}  // namespace likelihet::publishing::fields_test
