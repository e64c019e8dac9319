// Outlooks, rankings and proofs as a keeper and a program get them.
#include <string>
#include <vector>

#include "support/keeper.hpp"
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

namespace likelihet::cli::planning_output_test {
namespace {

using nlohmann::json;
using support::Ended;
using support::Keeper;
using testing::HasSubstr;
using testing::Not;

constexpr const char* model = R"({"format": "likelihet-model", "version": 1, "name": "t",
  "sex_chromosomes": "ZW",
  "loci": [
    {"id": "tarnbrook", "on": "autosome", "alleles": ["+", "e"],
     "appearance": {"default": "plain", "e/e": "tarnbrook"}, "viability": {}, "caution": "may wobble"},
    {"id": "hollowmere", "on": "Z", "alleles": ["+", "a", "b"],
     "appearance": {"default": "plain", "a/a": "ebb", "a/W": "ebb"}, "viability": {}, "caution": ""}],
  "origins": [], "markers": [], "assays": [], "scorers": []})";

constexpr const char* colony = R"({"format": "likelihet-colony", "version": 1,
  "animals": [
    {"id": "F", "sex": "female", "bought_as": [{"locus": "tarnbrook", "odds": {"e/e": 1}}]},
    {"id": "M", "sex": "male", "bought_as": [{"locus": "tarnbrook", "odds": {"+/+": 0.5, "+/e": 0.5}}]},
    {"id": "U"},
    {"id": "H1", "clutch": "C"}, {"id": "H2", "clutch": "C"}, {"id": "H3", "clutch": "C"}],
  "clutches": [{"id": "C", "dam": "F", "sires": [{"id": "M"}]}],
  "observations": [
    {"id": "o1", "kind": "appearance", "animal": "H1", "locus": "tarnbrook", "shows": "plain"},
    {"id": "o2", "kind": "appearance", "animal": "H2", "locus": "tarnbrook", "shows": "plain"}]})";

class Pairings : public testing::Test {
 protected:
  void SetUp() override {
    Keeper::run({"init", book_, "--model", keeper_.file("model.json", model)});
    Keeper::run({"import", book_, keeper_.file("colony.json", colony)});
  }
  Ended run(std::vector<std::string> words) const {
    words.insert(words.begin() + 1, book_);
    return Keeper::run(words);
  }
  json document(std::vector<std::string> words) const {
    words.push_back("--json");
    return json::parse(run(words).output);
  }

  Keeper keeper_;
  std::string book_ = keeper_.path("test.book");
};

// M is het with 1/2 x 1/4 against 1/2: 1/5. A visual is 1/10 an offspring.
TEST_F(Pairings, OutlookDocument) {
  const json out = document({"outlook", "F", "M", "--offspring", "4"});
  EXPECT_EQ(out["format"], "likelihet-outlook");
  EXPECT_EQ(out["loci"].size(), 2u);
  const json& tarnbrook = out["loci"][0];
  EXPECT_EQ(tarnbrook["parents"].size(), 2u);
  EXPECT_NEAR(tarnbrook["parents"][1]["probability"].get<double>(), 0.2, 1e-15);
  const json& visual = tarnbrook["genotypes"][1];
  EXPECT_EQ(visual["genotype"], "e/e");
  EXPECT_NEAR(visual["chance"].get<double>(), 0.1, 1e-15);
  EXPECT_NEAR(visual["expected"].get<double>(), 0.4, 1e-15);
  EXPECT_NEAR(visual["at_least_one"].get<double>(), 0.2 * 15 / 16, 1e-15);
  EXPECT_EQ(tarnbrook["appearances"][0]["counts"].size(), 5u);
  EXPECT_TRUE(tarnbrook["sexes"].is_null());
  EXPECT_EQ(out["loci"][1]["sexes"].size(), 2u);
  EXPECT_TRUE(out["combined"].is_array());
  EXPECT_TRUE(document({"outlook", "F", "M", "--locus", "hollowmere"})["combined"].is_null());
}

// Three offspring are recorded of the one clutch.
TEST_F(Pairings, EggsAreTheMeanClutchUnlessGiven) {
  EXPECT_EQ(document({"outlook", "F", "M"})["offspring"], 3);
  EXPECT_EQ(document({"outlook", "F", "M", "--offspring", "7"})["offspring"], 7);
}

TEST_F(Pairings, OutlookText) {
  const std::string text = run({"outlook", "F", "U", "--offspring", "2"}).output;
  EXPECT_THAT(text, HasSubstr("the sex of U is not recorded; taken as male"));
  EXPECT_THAT(text, HasSubstr("females (50.0 % of the offspring): 100 % plain"));
  EXPECT_THAT(text, HasSubstr("Caution: tarnbrook: may wobble"));
  EXPECT_THAT(text, HasSubstr("reptile veterinarian"));
  EXPECT_THAT(text, HasSubstr("local law"));
  EXPECT_THAT(text, HasSubstr("as assumed"));
}

TEST_F(Pairings, RankingDocument) {
  const json out =
      document({"outlook", "--rank", "tarnbrook=e/e", "--limit", "2", "--offspring", "4"});
  EXPECT_EQ(out["format"], "likelihet-ranking");
  EXPECT_EQ(out["goal"]["genotype"], "e/e");
  EXPECT_EQ(out["goal"]["appearance"], "tarnbrook");
  EXPECT_EQ(out["pairs"].size(), 2u);
  EXPECT_EQ(out["pairs"][0]["dam"], "F");
  // Her sons are het for certain, but kin.
  EXPECT_TRUE(out["pairs"][0]["sire_of_unknown_sex"]);
  EXPECT_EQ(out["pairs"][0]["inbreeding"], 0.25);
  EXPECT_TRUE(document({"outlook", "--rank", "tarnbrook=tarnbrook"})["goal"]["genotype"].is_null());
}

TEST_F(Pairings, RankingText) {
  const std::string text = run({"outlook", "--rank", "tarnbrook=e/e", "--limit", "3"}).output;
  EXPECT_THAT(text, HasSubstr("H1 (?)"));
  EXPECT_THAT(text, HasSubstr("close kin"));
  EXPECT_THAT(text, HasSubstr("3 of "));
}

TEST_F(Pairings, ProveOutDocument) {
  const json out = document({"prove-out", "M", "--partner", "F", "--locus", "tarnbrook"});
  EXPECT_EQ(out["format"], "likelihet-prove-out");
  EXPECT_EQ(out["partner"]["animal"], "F");
  EXPECT_EQ(out["seen"]["non_visual"], 2);
  EXPECT_NEAR(out["carrier"].get<double>(), 0.2, 1e-15);
  EXPECT_EQ(out["levels"][1]["needed"], 3);
  EXPECT_EQ(out["levels"][1]["clutches"], 1);
  EXPECT_TRUE(out["levels"][1]["one_visual_proves"]);
  EXPECT_EQ(out["offspring"].size(), 11u);
  EXPECT_NEAR(out["if_visual"]["chance"].get<double>(), 0.1, 1e-15);
  const json never = document({"prove-out", "M", "--partner", "+/+", "--locus", "tarnbrook"});
  EXPECT_EQ(never["partner"]["genotype"], "+/+");
  EXPECT_TRUE(never["levels"][2]["needed"].is_null());
  EXPECT_TRUE(never["levels"][2]["clutches"].is_null());
  EXPECT_TRUE(never["if_visual"].is_null());
}

TEST_F(Pairings, ProveOutText) {
  const std::string text =
      run({"prove-out", "M", "--partner", "F", "--locus", "tarnbrook", "--per-clutch", "2"}).output;
  EXPECT_THAT(text, HasSubstr("seen so far of this pairing: 2 non-visual, 0 visual"));
  EXPECT_THAT(text,
              HasSubstr("95 %: 3 more non-visual offspring, 2 of 5 seen; 2 clutches\n    of 2"));
  const std::string never =
      run({"prove-out", "M", "--partner", "+/+", "--locus", "tarnbrook"}).output;
  EXPECT_THAT(never, HasSubstr("never; however many are non-visual"));
  EXPECT_THAT(never, HasSubstr("no offspring of this pairing can show it"));
  // An allele that never shows.
  const std::string hidden =
      run({"prove-out", "M", "--partner", "F", "--locus", "hollowmere", "--allele", "b"}).output;
  EXPECT_THAT(hidden, HasSubstr("breeding cannot tell by looks"));
}

TEST_F(Pairings, WhatIsWrongOnTheCommandLine) {
  EXPECT_EQ(run({"outlook"}).status(), ExitStatus::usage);
  EXPECT_EQ(run({"outlook", "F"}).status(), ExitStatus::usage);
  EXPECT_EQ(run({"prove-out", "M", "--partner", "F"}).status(), ExitStatus::usage);
  EXPECT_EQ(run({"prove-out", "M", "--partner", "F", "--locus", "hollowmere"}).status(),
            ExitStatus::usage);
  EXPECT_EQ(run({"outlook", "M", "F"}).status(), ExitStatus::input);
  EXPECT_EQ(run({"outlook", "F", "F"}).status(), ExitStatus::input);
  EXPECT_EQ(run({"outlook", "--rank", "tarnbrook=x"}).status(), ExitStatus::input);
  EXPECT_EQ(
      run({"prove-out", "U", "--partner", "H1", "--locus", "hollowmere", "--allele", "a"}).status(),
      ExitStatus::input);
  EXPECT_EQ(run({"outlook", "F", "M", "--memory", "16"}).status(), ExitStatus::too_large);
}

// Ids come from files of strangers: one that turns the writing direction is shown as what it is,
// and gets into no book.
TEST_F(Pairings, StrangeIdsAreMadePrintable) {
  const std::string turning = "bad\xe2\x80\xae";
  const auto refused = Keeper::run({"add", "animal", book_, turning, "--sex", "male"});
  EXPECT_EQ(refused.status(), ExitStatus::input);
  const std::string text =
      failure_text(*refused.failure) + failure_text(*run({"outlook", "F", turning}).failure);
  EXPECT_THAT(text, HasSubstr("bad\\u202e"));
  EXPECT_THAT(text, Not(HasSubstr(turning)));
}

}  // namespace
}  // namespace likelihet::cli::planning_output_test
