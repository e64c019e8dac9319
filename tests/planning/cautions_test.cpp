// Cautions are there where they are due, and never nothing at all.
#include <algorithm>

#include "support/small_model.hpp"
#include <gtest/gtest.h>

#include <likelihet/planning/cautions.hpp>

namespace likelihet::planning::cautions_test {
namespace {

using genetics::Sex;
using support::RecordsBuilder;

std::vector<std::string> codes(const std::vector<Caution>& cautions) {
  std::vector<std::string> out;
  for (const auto& caution : cautions) {
    EXPECT_FALSE(caution.text.empty());
    out.push_back(caution.code);
  }
  return out;
}

bool has(const std::vector<Caution>& cautions, const std::string& code) {
  const auto all = codes(cautions);
  return std::find(all.begin(), all.end(), code) != all.end();
}

std::vector<Caution> of_pair(const colony::Colony& colony, const std::string& dam,
                             const std::string& sire) {
  const auto made = outlook(colony, {*colony.find_animal(dam), *colony.find_animal(sire)}, {}, {});
  return cautions_of(colony, std::get<Outlook>(made));
}

colony::Colony family() {
  auto model = support::recessive_model();
  model.loci[0].viability = {{"e/e", 0.0}};
  model.loci[0].caution = "carriers may wobble";
  RecordsBuilder builder;
  builder.founder("F", Sex::female).bought_as("tarnbrook", {{"+/e", 1.0}});
  builder.founder("M", Sex::male).bought_as("tarnbrook", {{"+/e", 1.0}});
  builder.founder("P", Sex::male);
  builder.founder("Q", Sex::female);
  builder.clutch("C", "F", {"M"});
  builder.hatchling("D", "C", Sex::female).hatchling("S", "C", Sex::male);
  return support::colony_of(support::made(model), builder.records);
}

TEST(Cautions, LethalOffspring) {
  const auto colony = family();
  EXPECT_TRUE(has(of_pair(colony, "F", "M"), "lethal"));
  EXPECT_NE(of_pair(colony, "F", "M")[0].text.find("25.0 % of the eggs"), std::string::npos);
  EXPECT_FALSE(has(of_pair(colony, "F", "P"), "lethal"));
}

TEST(Cautions, OfALocusWhereOffspringMayCarryIt) {
  const auto colony = family();
  EXPECT_TRUE(has(of_pair(colony, "F", "P"), "locus"));
  EXPECT_FALSE(has(of_pair(colony, "Q", "P"), "locus"));
}

TEST(Cautions, Kin) {
  const auto colony = family();
  EXPECT_TRUE(has(of_pair(colony, "D", "S"), "inbreeding"));
  EXPECT_TRUE(has(of_pair(colony, "D", "M"), "inbreeding"));
  EXPECT_FALSE(has(of_pair(colony, "D", "P"), "inbreeding"));
}

TEST(Cautions, ForEveryPairing) {
  const auto colony = family();
  EXPECT_EQ(codes(of_pair(colony, "Q", "P")),
            (std::vector<std::string>{"combination", "claims", "law"}));
}

TEST(Cautions, OfProofsAndGoals) {
  const auto colony = family();
  ProveOutAsked asked;
  asked.animal = *colony.find_animal("D");
  asked.partner = PartnerAnimal{*colony.find_animal("S")};
  EXPECT_EQ(
      codes(cautions_of(colony, asked)),
      (std::vector<std::string>{"locus", "lethal", "inbreeding", "combination", "claims", "law"}));
  asked.partner = PartnerGenotype{2};
  EXPECT_FALSE(has(cautions_of(colony, asked), "inbreeding"));
  EXPECT_TRUE(has(cautions_of(colony, Goal{0, 1, 0}), "locus"));
}

TEST(Cautions, NoneCanLive) {
  auto model = support::recessive_model();
  model.loci[0].viability = {{"+/e", 0.0}};
  RecordsBuilder builder;
  builder.founder("F", Sex::female);
  builder.founder("M", Sex::male).bought_as("tarnbrook", {{"e/e", 1.0}});
  const auto colony = support::colony_of(support::made(model), builder.records);
  EXPECT_TRUE(has(of_pair(colony, "F", "M"), "none-can-live"));
}

}  // namespace
}  // namespace likelihet::planning::cautions_test
