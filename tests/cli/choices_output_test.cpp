// What next-test and holdbacks print where a transcript of the demo does not go: several alleles,
// money, draws, sexes.
#include <string>

#include "holdbacks_output.hpp"
#include "next_test_output.hpp"
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>
#include <support/keeper.hpp>
#include <support/small_model.hpp>

namespace likelihet::cli::choices_output_test {
namespace {

using genetics::Sex;
using nlohmann::json;
using support::RecordsBuilder;
using testing::HasSubstr;

colony::ModelDescription series() {
  auto model = support::recessive_model();
  model.loci[0].alleles = {"+", "e", "p"};
  model.markers.clear();
  model.assays[0].mix_up = 0;
  model.assays[0].rows = {{"+/+", {1, 0, 0, 0}}, {"+/e", {0, 1, 0, 0}}, {"+/p", {0, 1, 0, 0}},
                          {"e/e", {0, 0, 1, 0}}, {"e/p", {0, 0, 1, 0}}, {"p/p", {0, 0, 1, 0}}};
  return model;
}

struct Planned {
  colony::Colony colony;
  colony::Policy policy;
  planning::TestQuestion question;
  planning::TestPlan plan;

  Planned(colony::Colony of, colony::Policy by, planning::TestQuestion asked)
      : colony(std::move(of)), policy(std::move(by)), question(std::move(asked)) {
    plan = std::get<planning::TestPlan>(planning::next_test(colony, policy, question));
  }
  [[nodiscard]] std::string text() const {
    return next_test_text({&colony, &policy, &question, &plan}, Terminal::plain(1000));
  }
  [[nodiscard]] json document() const {
    return json::parse(next_test_json({&colony, &policy, &question, &plan}));
  }
};

RecordsBuilder family() {
  RecordsBuilder records;
  records.founder("D", Sex::female)
      .bought_as("tarnbrook", {{"+/+", 0.5}, {"+/e", 0.25}, {"+/p", 0.25}});
  records.founder("S", Sex::male).clutch("C", "D", {"S"}).hatchling("H", "C");
  return records;
}

colony::Colony colony_with(const colony::ModelDescription& model, const RecordsBuilder& records) {
  return support::colony_of(support::made(model), records.records);
}

TEST(NextTestOutput, NamesAllelesWhereThereAreSeveral) {
  planning::TestQuestion question;
  question.tests = 1;
  const Planned planned(colony_with(series(), family()), {}, question);
  // Reported "carries": one copy of e or of p, even odds; the offspring one carries each with 1/4.
  EXPECT_THAT(planned.text(), HasSubstr("e 50.0 %, p 50.0 %"));
  EXPECT_THAT(planned.text(), HasSubstr("H e 12.5 % to 25.0 %"));
  EXPECT_EQ(planned.document()["chosen"][0]["animal"], "D");
}

TEST(NextTestOutput, TellsMoneyInThePolicysCurrency) {
  colony::Policy policy;
  policy.currency = "crowns";
  policy.worth = {{"tarnbrook", {{"+/e", 300}, {"+/p", 300}}, 100}};
  planning::TestQuestion question;
  question.tests = 1;
  const Planned planned(colony_with(series(), family()), policy, question);
  // D: 150 kept now; 300 or 100 then: +50. H: sold at 100 either way, or 150 if D carries: +25.
  EXPECT_THAT(planned.text(), HasSubstr("less its price"));
  EXPECT_THAT(planned.text(), HasSubstr("are worth 75.00 crowns on average"));
  EXPECT_THAT(planned.text(), HasSubstr("30.00 crowns"));
  EXPECT_NEAR(planned.document()["worth"].get<double>(), 75, 1e-9);
}

TEST(NextTestOutput, CallsDrawnFiguresEstimates) {
  planning::TestQuestion question;
  question.limits = {1, 64};
  question.tests = 2;
  question.seed = 5;
  const Planned planned(colony_with(series(), family()), {}, question);
  EXPECT_THAT(planned.text(), HasSubstr("estimates: the tests may come back in more than 1 ways"));
  EXPECT_THAT(planned.text(), HasSubstr("64 were drawn (seed 5)"));
  EXPECT_EQ(planned.document()["draws"], 64);
  EXPECT_TRUE(planned.document()["chosen"][1].contains("bits_standard_error"));
}

TEST(NextTestOutput, SaysWhyThereIsNothing) {
  RecordsBuilder certain;
  certain.founder("S", Sex::male);
  EXPECT_THAT(Planned(colony_with(series(), certain), {}, {}).text(),
              HasSubstr("every animal asked for is certain"));
  planning::TestQuestion poor;
  poor.budget = 1;
  EXPECT_THAT(Planned(colony_with(series(), family()), {}, poor).text(),
              HasSubstr("No sample fits the budget"));
  auto priceless = series();
  priceless.assays[0].price = std::nullopt;
  EXPECT_THAT(Planned(colony_with(priceless, family()), {}, poor).text(),
              HasSubstr("3 possible samples without a price left out"));
  planning::TestQuestion one;
  one.tests = 1;
  EXPECT_THAT(Planned(colony_with(priceless, family()), {}, one).text(),
              HasSubstr("and 1 sample without a price"));
}

struct Kept {
  colony::Colony colony;
  planning::HoldbackQuestion question;
  planning::Holdbacks found;

  Kept(colony::Colony of, planning::HoldbackQuestion asked)
      : colony(std::move(of)), question(std::move(asked)) {
    question.goal = std::get<planning::KeepGoal>(
        planning::keep_goal_named(colony.model().loci()[0], 0, "carries"));
    found = std::get<planning::Holdbacks>(planning::holdbacks(colony, question));
  }
  [[nodiscard]] std::string text() const {
    return holdbacks_text({&colony, &question, &found}, Terminal::plain(1000));
  }
  [[nodiscard]] json document() const {
    return json::parse(holdbacks_json({&colony, &question, &found}));
  }
};

RecordsBuilder clutch() {
  RecordsBuilder records;
  records.founder("D", Sex::female).bought_as("tarnbrook", {{"+/+", 0.5}, {"+/e", 0.5}});
  records.founder("S", Sex::male).clutch("C", "D", {"S"});
  records.hatchling("H1", "C", Sex::female).hatchling("H2", "C", Sex::male).hatchling("H3", "C");
  return records;
}

TEST(HoldbacksOutput, TellsWhatMultiplyingWouldSay) {
  planning::HoldbackQuestion question;
  question.keep = 2;
  const Kept kept(colony_with(support::recessive_model(), clutch()), question);
  EXPECT_THAT(kept.text(), HasSubstr("37.5 %"));
  EXPECT_THAT(kept.text(), HasSubstr("43.8 %"));
  EXPECT_NEAR(kept.document()["sizes"][1]["chance"].get<double>(), 0.375, 1e-14);
  EXPECT_NEAR(kept.document()["sizes"][1]["if_independent"].get<double>(), 0.4375, 1e-14);
  EXPECT_EQ(kept.document()["genotypes"], json({"+/e", "e/e"}));
  EXPECT_FALSE(kept.document()["hatchlings"][2].contains("sex"));
}

TEST(HoldbacksOutput, TellsOfSexes) {
  planning::HoldbackQuestion question;
  question.keep = 2;
  question.females = 1;
  question.males = 1;
  const Kept kept(colony_with(support::recessive_model(), clutch()), question);
  EXPECT_THAT(kept.text(), HasSubstr("one of each sex"));
  EXPECT_THAT(kept.text(), HasSubstr("1 hatchling of unknown sex can't count"));
  EXPECT_NEAR(kept.document()["sizes"][0]["chance"].get<double>(), 0.125, 1e-14);
  question.females = 2;
  question.males = 0;
  const Kept none(colony_with(support::recessive_model(), clutch()), question);
  EXPECT_THAT(none.text(), HasSubstr("too few hatchlings"));
  EXPECT_TRUE(none.document()["sizes"].empty());
}

TEST(HoldbacksOutput, SaysWhereItWasGreedy) {
  planning::HoldbackQuestion question;
  question.keep = 3;
  question.exact = 0;
  const Kept kept(colony_with(support::recessive_model(), clutch()), question);
  EXPECT_THAT(kept.text(), HasSubstr("is at least 63.2 % of the best"));
  EXPECT_FALSE(kept.document()["sizes"][0]["searched"].get<bool>());
}

}  // namespace
}  // namespace likelihet::cli::choices_output_test
