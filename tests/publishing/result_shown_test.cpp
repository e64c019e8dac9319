// How often a test errs, by hand from the rows of an assay.
#include <gmock/gmock.h>
#include <publishing/listed.hpp>

#include <likelihet/publishing/result_shown.hpp>

namespace likelihet::publishing::result_shown_test {
namespace {

using support::RecordsBuilder;
using testing::HasSubstr;
using testing::Not;

RecordsBuilder tested(const std::string& report) {
  RecordsBuilder records;
  records.founder("A", std::nullopt, "bought").result("A", "shed-pcr", report).on("2026-07-02");
  return records;
}

TEST(ResultShown, CountsMixUpsIntoBothErrors) {
  const Listed listed(support::recessive_model(), tested("carrier"));
  const ResultShown result = listed.of("A").results.at(0);
  // Others get "carrier" in 0.996 x 0.003 + 0.004 x (0.003 + 0.985 + 0.003)/3.
  EXPECT_NEAR(result.false_report, 0.996 * 0.003 + 0.004 * 0.991 / 3, 1e-15);
  // Hets get "clear" or "affected": 0.996 x 0.005 + 0.004 x (0.99 + 0.989)/3. No call is no
  // error.
  EXPECT_NEAR(result.missed, 0.996 * 0.005 + 0.004 * 1.979 / 3, 1e-15);
  EXPECT_TRUE(result.tells);
  EXPECT_EQ(result.assay, "shed-pcr");
  EXPECT_EQ(result.report, "carrier");
  EXPECT_EQ(result.on, support::day("2026-07-02"));
}

TEST(ResultShown, NoCallTellsNothing) {
  const Listed listed(support::recessive_model(), tested("no-call"));
  const ResultShown result = listed.of("A").results.at(0);
  EXPECT_FALSE(result.tells);
  EXPECT_EQ(result.false_report, 0);
  EXPECT_THAT(in_words(listed.colony(), result), HasSubstr("tells nothing"));
  EXPECT_EQ(listed.at("A").basis, Basis::pedigree);
}

TEST(ResultShown, SaysThatItSeesOneVariantOnly) {
  const Listed listed(support::recessive_model(), tested("clear"));
  const std::string words = in_words(listed.colony(), listed.of("A").results.at(0));
  EXPECT_THAT(words, HasSubstr("shed-pcr for tarnbrook came back clear on 2026-07-02"));
  EXPECT_THAT(words, HasSubstr("one variant only"));
  EXPECT_THAT(words, HasSubstr("up to 0.5 %"));
}

TEST(ResultShown, NamesNoLaboratoryButTheKeepersWord) {
  const Listed listed(support::recessive_model(), tested("clear"));
  EXPECT_THAT(in_words(listed.colony(), listed.of("A").results.at(0)),
              Not(HasSubstr("laboratory")));
}

TEST(ResultShown, StandsByDayWithdrawnOnesLeftOut) {
  RecordsBuilder records;
  records.founder("A", std::nullopt, "bought");
  records.result("A", "shed-pcr", "carrier").on("2026-08-02");
  records.result("A", "shed-pcr", "clear").on("2026-07-02");
  records.result("A", "shed-pcr", "no-call").on("2026-06-02").withdraw("o3");
  const Listed listed(support::recessive_model(), records);
  const auto results = listed.of("A").results;
  ASSERT_EQ(results.size(), 2U);
  EXPECT_EQ(results[0].report, "clear");
  EXPECT_EQ(results[1].report, "carrier");
}

TEST(ResultShown, AnExactTestErrsInMixUpsAlone) {
  auto model = support::recessive_model();
  model.assays[0].rows = {{"+/+", {1, 0, 0, 0}}, {"+/e", {0, 1, 0, 0}}, {"e/e", {0, 0, 1, 0}}};
  model.assays[0].mix_up = 0;
  const Listed exact(model, tested("carrier"));
  EXPECT_EQ(exact.of("A").results.at(0).false_report, 0);
  EXPECT_EQ(exact.of("A").results.at(0).missed, 0);
  // A result that cannot err makes it certain, and not proven.
  EXPECT_EQ(exact.at("A").label, Label::certain);
  EXPECT_EQ(exact.at("A").basis, Basis::results);
  EXPECT_THAT(exact.at("A").headline, HasSubstr("100 % het for tarnbrook by results"));
}

}  // namespace
}  // namespace likelihet::publishing::result_shown_test
