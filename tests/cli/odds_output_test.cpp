// The odds for people and for programs: groups, layers, copies, surprises, cautions, numbers that
// read back.
#include "odds_output.hpp"

#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>
#include <support/solved_colony.hpp>

namespace likelihet::cli::odds_output_test {
namespace {

using genetics::Sex;
using nlohmann::json;
using support::RecordsBuilder;
using support::SolvedColony;

// D carries with 1/2; H and I are hers, H read "strong": 8/11 after 1/4, I 4.5/11.
RecordsBuilder family() {
  RecordsBuilder records;
  records.founder("D", Sex::female).bought_as("tarnbrook", {{"+/+", 0.5}, {"+/e", 0.5}});
  records.founder("S", Sex::male).clutch("C03", "D", {"S"});
  records.clutch_record().hatched = support::day("2024-06-01");
  records.hatchling("H", "C03").hatchling("I", "C03", Sex::male);
  records.score("H", "crown-fleck", "strong").on("2024-06-11");
  return records;
}

std::string text_of(const SolvedColony& solved, std::size_t width = 100) {
  return odds_text(solved.colony(), solved.odds(), lens_of_all(solved.colony()), std::nullopt,
                   TablesUsed::belief, Terminal::plain(width));
}

json json_of(const SolvedColony& solved) {
  return json::parse(odds_json(solved.colony(), solved.odds(), lens_of_all(solved.colony()),
                               std::nullopt, TablesUsed::belief));
}

TEST(OddsText, HasATableAGroup) {
  const std::string text = text_of(SolvedColony(support::recessive_model(), family()));
  EXPECT_EQ(
      text,
      "Founders\n"
      "  tarnbrook: one copy of e  sex     pedigree  with markers  with results  95 % interval\n"
      "  D                         female    50.0 %        81.8 %        81.8 %         81.8 %\n"
      "  S                         male         0 %           0 %           0 %            0 %\n"
      "\n"
      "Clutch C03: D × S, hatched 2024-06-01\n"
      "  tarnbrook: one copy of e  sex   pedigree  with markers  with results  95 % interval\n"
      "  H                         ?       25.0 %        72.7 %        72.7 %         72.7 %\n"
      "  I                         male    25.0 %        40.9 %        40.9 %         40.9 %\n"
      "\n"
      "These are estimates from the records and tables of markers (as assumed); markers are not "
      "proof.\n");
}

TEST(OddsText, SaysWhatIsAlikeOnce) {
  RecordsBuilder records = family();
  records.records.observations.clear();
  const std::string text = text_of(SolvedColony(support::recessive_model(), records), 140);
  EXPECT_NE(
      text.find("  tarnbrook: one copy of e: pedigree 25.0 %, with markers 25.0 %, with results "
                "25.0 % (25.0 %) for all 2\n"),
      std::string::npos)
      << text;
}

// Where some may have two copies they get a column of their own.
TEST(OddsText, TellsTwoCopiesWhereTheyMayBe) {
  RecordsBuilder records = family();
  records.records.animals[1].bought_as = {{"tarnbrook", {{"+/e", 1.0}}, 1.0}};
  const std::string text = text_of(SolvedColony(support::recessive_model(), records));
  EXPECT_NE(text.find("two copies"), std::string::npos);
  EXPECT_EQ(text.find("two copies"), text.rfind("two copies")) << "founders have none";
}

TEST(OddsText, NamesUnknownAndSeveralParents) {
  RecordsBuilder records;
  records.founder("A").founder("B");
  records.clutch("C1", std::nullopt, {"A", "B"}).hatchling("H", "C1");
  records.clutch("C2", std::nullopt, {}).hatchling("I", "C2");
  records.clutch_record().laid = support::day("2024-04-01");
  const std::string text = text_of(SolvedColony(support::recessive_model(), records));
  EXPECT_NE(text.find("Clutch C1: unknown dam × A or B\n"), std::string::npos) << text;
  EXPECT_NE(text.find("Clutch C2: unknown dam × unknown sire, laid 2024-04-01\n"),
            std::string::npos)
      << text;
}

// Clutches by day, those without a day first.
TEST(OddsText, HasTheNewestClutchLast) {
  RecordsBuilder records;
  records.founder("A").founder("B");
  for (const char* day : {"2025-01-01", "2023-01-01", "2024-01-01"}) {
    const std::string id = day;
    records.clutch(id, "A", {"B"}).hatchling("of " + id, id);
    records.clutch_record().hatched = support::day(day);
  }
  records.clutch("undated", "A", {"B"}).hatchling("N", "undated");
  const std::string text = text_of(SolvedColony(support::recessive_model(), records));
  const auto at = [&](const std::string& id) { return text.find("Clutch " + id); };
  EXPECT_LT(at("undated"), at("2023-01-01"));
  EXPECT_LT(at("2023-01-01"), at("2024-01-01"));
  EXPECT_LT(at("2024-01-01"), at("2025-01-01"));
}

TEST(OddsText, TellsSurprisesAndCautionsOfWhatIsShown) {
  auto model = support::recessive_model();
  model.loci[0].caution = "Pairing two needs advice.";
  RecordsBuilder records = family();
  records.result("S", "shed-pcr", "carrier").on("2024-07-01");
  odds::Options options = support::only_odds();
  options.surprises = true;
  const SolvedColony solved(model, records, options);
  const std::string text = text_of(solved, 400);
  EXPECT_NE(text.find("Surprising: o2 (2024-07-01), S: shed-pcr: carrier."), std::string::npos)
      << text;
  EXPECT_NE(text.find("Caution, tarnbrook: Pairing two needs advice."), std::string::npos);
  Lens lens = lens_of_all(solved.colony());
  lens.animals = {*solved.colony().find_animal("H")};
  const std::string of_h = odds_text(solved.colony(), solved.odds(), lens, std::nullopt,
                                     TablesUsed::belief, Terminal::plain(100));
  EXPECT_EQ(of_h.find("Surprising"), std::string::npos) << "S is not shown";
  EXPECT_NE(of_h.find("Caution"), std::string::npos);
}

TEST(OddsText, SaysTheDayAndThatThereIsNothing) {
  const SolvedColony solved(support::recessive_model(), RecordsBuilder());
  const std::string text =
      odds_text(solved.colony(), solved.odds(), lens_of_all(solved.colony()),
                support::day("2024-06-30"), TablesUsed::belief, Terminal::plain(100));
  EXPECT_TRUE(text.starts_with("As known at the end of 2024-06-30.\n\nThere are no animals"));
}

TEST(OddsText, CannotHarmATerminal) {
  RecordsBuilder records;
  records.founder("F\u202e31");
  const std::string text = text_of(SolvedColony(support::recessive_model(), records));
  EXPECT_EQ(text.find("\u202e"), std::string::npos);
  EXPECT_NE(text.find("F\\u202e31"), std::string::npos) << text;
}

// The very doubles, not rounded: reading them back gives the same.
TEST(OddsJson, KeepsEveryBit) {
  const SolvedColony solved(support::recessive_model(), family());
  const json document = json_of(solved);
  EXPECT_EQ(document["format"], "likelihet-odds");
  EXPECT_EQ(document["version"], 1);
  EXPECT_TRUE(document["as_of"].is_null());
  EXPECT_EQ(document["tables"], "belief");
  EXPECT_EQ(document["log_evidence"].get<double>(), solved.odds().log_evidence);
  ASSERT_EQ(document["animals"].size(), 4U);
  for (std::size_t a = 0; a < 4; ++a) {
    const json& tarnbrook = document["animals"][a]["loci"]["tarnbrook"];
    const auto& at = solved.odds().animals[a].loci[0];
    for (const auto& [key, layer] :
         {std::pair<const char*, const std::vector<double>*>{"pedigree", &at.pedigree},
          {"scored", &at.scored},
          {"posterior", &at.posterior}}) {
      const std::vector<std::string> genotypes = {"+/+", "+/e", "e/e"};
      for (std::size_t g = 0; g < 3; ++g) {
        const double told = tarnbrook[key].value(genotypes[g], 0.0);
        EXPECT_EQ(told, (*layer)[g] < 1e-15 ? 0.0 : (*layer)[g]) << key << genotypes[g];
      }
    }
    EXPECT_EQ(tarnbrook["het"]["e"]["mean"].get<double>(), at.het[0].mean);
    EXPECT_EQ(tarnbrook["het"]["e"]["interval"][0].get<double>(), at.het[0].low);
  }
  EXPECT_FALSE(document["animals"][0].contains("clutch"));
  EXPECT_EQ(document["animals"][2]["clutch"], "C03");
  EXPECT_TRUE(document["surprises"].empty());
}

TEST(OddsJson, TellsSurprises) {
  RecordsBuilder records = family();
  records.result("S", "shed-pcr", "carrier");
  odds::Options options = support::only_odds();
  options.surprises = true;
  const SolvedColony solved(support::recessive_model(), records, options);
  const json document = json_of(solved);
  ASSERT_EQ(document["surprises"].size(), 1U);
  EXPECT_EQ(document["surprises"][0]["observation"], "o2");
  EXPECT_EQ(document["surprises"][0]["probability"].get<double>(),
            solved.odds().surprises[0].probability);
}

}  // namespace
}  // namespace likelihet::cli::odds_output_test
