// Accounts and histories for people and for programs.
#include <cmath>
#include <string>

#include "history_output.hpp"
#include "why_output.hpp"
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>
#include <support/solved_colony.hpp>

namespace likelihet::cli::account_output_test {
namespace {

using nlohmann::json;
using support::RecordsBuilder;

colony::Colony colony_with(const RecordsBuilder& records) {
  auto model = support::recessive_model();
  model.assays[0].mix_up = 0;
  return support::colony_of(model, records);
}

RecordsBuilder family() {
  RecordsBuilder records;
  records.founder("D").bought_as("tarnbrook", {{"+/+", 0.5}, {"+/e", 0.5}});
  records.founder("S", std::nullopt, "bought").clutch("C", "D", {"S"});
  records.hatchling("H", "C").hatchling("I", "C");
  return records;
}

std::vector<Answer> answer_of(const colony::Colony& colony, const std::string& animal) {
  const odds::Question question{*colony.find_animal(animal), 0, 1};
  auto outcome = odds::why(colony, question, support::only_odds());
  return {{question, std::get<odds::Account>(std::move(outcome))}};
}

std::string why_of(const RecordsBuilder& records, const std::string& animal) {
  const auto colony = colony_with(records);
  return why_text(colony, answer_of(colony, animal), std::nullopt, Terminal::plain(120));
}

// 1 : 1, the marker x 8, the report x 0.003/0.985: 10 log10 is +9.0 and -25.2.
TEST(WhyText, MultipliesTheStepsOut) {
  RecordsBuilder records = family();
  records.score("D", "crown-fleck", "strong").on("2024-05-01");
  records.result("D", "shed-pcr", "clear").on("2024-05-02");
  EXPECT_EQ(why_of(records, "D"),
            "D: chance of exactly one copy of e at tarnbrook\n"
            "  start, from founders, clutches and sexes: 50.0 % (1 : 1)\n"
            "  date        from    factor     dB  before   after  evidence\n"
            "  2024-05-01  own         ×8   +9.0  50.0 %  88.9 %  crown-fleck: strong\n"
            "  2024-05-02  own   ×0.00305  -25.2  88.9 %   2.4 %  shed-pcr: clear\n"
            "  own evidence -16.1 dB, relatives' evidence +0.0 dB\n"
            "  start 1 : 1 ×0.0244 = 1 : 41, that is 2.4 %\n"
            "\n"
            "A factor above 1 speaks for one copy, below 1 against it; 10 dB is a factor of ten. "
            "Markers are not proof.\n");
}

TEST(WhyText, OfNothingSaysSo) {
  const std::string text = why_of(family(), "D");
  EXPECT_NE(text.find("nothing recorded weighs on it"), std::string::npos);
  EXPECT_NE(text.find("start 1 : 1 ×1 = 1 : 1, that is 50.0 %"), std::string::npos) << text;
}

TEST(WhyText, CountsWhatWeighsNothing) {
  RecordsBuilder records = family();
  records.shows("D", "tarnbrook", "plain").shows("D", "tarnbrook", "plain");
  EXPECT_NE(why_of(records, "D").find("not listed: 2 steps that weigh less than 0.05 dB"),
            std::string::npos);
}

TEST(WhyText, SaysWhatProves) {
  RecordsBuilder records = family();
  records.shows("H", "tarnbrook", "tarnbrook").on("2024-05-01");
  const std::string text = why_of(records, "D");
  EXPECT_NE(text.find("proves it"), std::string::npos) << text;
  EXPECT_NE(text.find("own evidence +0.0 dB, relatives' evidence decides"), std::string::npos);
  EXPECT_NE(text.find("the evidence settles it: certain, that is 100 %"), std::string::npos);
  EXPECT_NE(text.find("H: looks tarnbrook (tarnbrook)"), std::string::npos)
      << "whose record it was";
}

// 1e-50 of doubt is doubt: no proof, no 100 %.
TEST(WhyText, DoesNotSayCertainOfWhatIsNot) {
  RecordsBuilder records = family();
  for (int i = 0; i < 20; ++i) records.result("D", "shed-pcr", "carrier");
  const std::string text = why_of(records, "D");
  EXPECT_EQ(text.find("100 %"), std::string::npos) << text;
  EXPECT_EQ(text.find("certain"), std::string::npos) << text;
  EXPECT_NE(text.find(": 1, that is >99.9 %"), std::string::npos) << text;
}

TEST(WhyText, SumsManyRelativesUp) {
  RecordsBuilder records = family();
  for (const char* id : {"K1", "K2", "K3", "K4", "K5"}) {
    records.hatchling(id, "C").score(id, "crown-fleck", "strong").on("2024-05-01");
  }
  EXPECT_NE(why_of(records, "D").find("5 observations of K1, K2, K3 and 2 more animals"),
            std::string::npos);
}

TEST(WhyJson, HasEveryStep) {
  RecordsBuilder records = family();
  records.shows("D", "tarnbrook", "plain").score("D", "crown-fleck", "strong").on("2024-05-01");
  records.shows("H", "tarnbrook", "tarnbrook").on("2024-05-02");
  const auto colony = colony_with(records);
  const auto answers = answer_of(colony, "D");
  const json document = json::parse(why_json(colony, answers, support::day("2024-12-31")));
  EXPECT_EQ(document["format"], "likelihet-why");
  EXPECT_EQ(document["as_of"], "2024-12-31");
  EXPECT_EQ(document["animal"], "D");
  const json& account = document["accounts"][0];
  EXPECT_EQ(account["locus"], "tarnbrook");
  EXPECT_EQ(account["allele"], "e");
  EXPECT_EQ(account["start"].get<double>(), answers[0].account.start);
  EXPECT_EQ(account["end"].get<double>(), answers[0].account.end);
  ASSERT_EQ(account["steps"].size(), 3U);
  EXPECT_TRUE(account["steps"][0]["on"].is_null());
  EXPECT_EQ(account["steps"][0]["factor"].get<double>(), 1.0);
  EXPECT_EQ(account["steps"][1]["own"], true);
  EXPECT_EQ(account["steps"][1]["observations"], (json{"o2"}));
  EXPECT_EQ(account["steps"][2]["own"], false);
  EXPECT_EQ(account["steps"][2]["factor"], "infinity");
  EXPECT_EQ(account["relatives_decibans"], "infinity");
}

TEST(HistoryText, HasALineADay) {
  RecordsBuilder records = family();
  records.records.animals[1].origin.reset();
  records.score("H", "crown-fleck", "strong").on("2024-05-01");
  records.score("I", "crown-fleck", "strong").on("2024-05-02");
  const auto colony = colony_with(records);
  Lens lens = lens_of_all(colony);
  lens.animals = {*colony.find_animal("H")};
  const auto outcome = odds::history(colony, lens.animals[0], support::only_odds());
  const auto& moments = std::get<std::vector<odds::Moment>>(outcome);
  // H 1 : 3 x 8 = 8/11. Then I's marker, 0.225 with a carrier dam, 0.05 without: H carries with
  // 1/4 x 0.4 x 0.225 against 1/4 x 0.05 x 0.225 + 1/2 x 0.05 x 0.05, that is 0.0225 : 0.0040625.
  EXPECT_EQ(history_text(colony, moments, lens, std::nullopt, Terminal::plain(100)),
            "H: chance of exactly one copy, after each day\n"
            "  day         tarnbrook e  recorded of the animal itself\n"
            "  before           25.0 %\n"
            "  2024-05-01       72.7 %  crown-fleck: strong\n"
            "  2024-05-02       84.7 %\n");
  const json document = json::parse(history_json(colony, moments, lens, std::nullopt));
  EXPECT_EQ(document["format"], "likelihet-history");
  EXPECT_EQ(document["animal"], "H");
  ASSERT_EQ(document["moments"].size(), 3U);
  EXPECT_TRUE(document["moments"][0]["day"].is_null());
  EXPECT_EQ(document["moments"][1]["observations"], (json{"o1"}));
  EXPECT_TRUE(document["moments"][2]["observations"].empty());
  EXPECT_EQ(document["moments"][2]["loci"]["tarnbrook"]["het"]["e"].get<double>(),
            moments[2].odds.loci[0].het[0].mean);
}

// A day whose records clash must not look like any other.
TEST(HistoryText, MarksADayThatClashes) {
  RecordsBuilder records = family();
  records.shows("H", "tarnbrook", "plain").on("2024-05-01").shows("H", "tarnbrook", "tarnbrook");
  records.on("2024-05-02");
  const auto colony = colony_with(records);
  Lens lens = lens_of_all(colony);
  lens.animals = {*colony.find_animal("H")};
  const auto outcome = odds::history(colony, lens.animals[0], support::only_odds());
  const auto& moments = std::get<std::vector<odds::Moment>>(outcome);
  const std::string text = history_text(colony, moments, lens, std::nullopt, Terminal::plain(120));
  EXPECT_NE(text.find("contradict"), std::string::npos) << text;
  const json document = json::parse(history_json(colony, moments, lens, std::nullopt));
  EXPECT_NE(document["moments"][1], document["moments"][2]);
}

}  // namespace
}  // namespace likelihet::cli::account_output_test
