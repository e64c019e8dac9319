// Whose odds a record moved: how far a move must go to be told, and in what order.
#include "moves.hpp"

#include <cmath>
#include <string>

#include <gtest/gtest.h>
#include <support/solved_colony.hpp>

namespace likelihet::cli::moves_test {
namespace {

using support::RecordsBuilder;
using support::SolvedColony;

RecordsBuilder family() {
  RecordsBuilder records;
  records.founder("D").bought_as("tarnbrook", {{"+/+", 0.5}, {"+/e", 0.5}}).founder("S");
  records.founder("X", std::nullopt, "bought");
  records.clutch("C", "D", {"S"}).hatchling("H", "C").hatchling("I", "C");
  return records;
}

MovesTold told_of(const RecordsBuilder& before, const RecordsBuilder& after,
                  const odds::Options& options = support::only_odds()) {
  const auto model = support::recessive_model();
  const SolvedColony was(model, before, options);
  const SolvedColony is(model, after, options);
  return moves_between(is.colony(), was.odds(), is.odds(), is.colony().observations().size() - 1);
}

// H's marker: odds 1 : 3 become 8 : 3. D 1/2 to 9/11; I 1/4 to 4.5/11. S and X do not move.
TEST(Moves, AreToldLargestFirst) {
  RecordsBuilder after = family();
  after.score("H", "crown-fleck", "strong");
  const auto told = told_of(family(), after);
  ASSERT_EQ(told.moves.size(), 3U);
  EXPECT_EQ(told.moves[0].animal, "H");
  EXPECT_EQ(told.moves[0].locus, "tarnbrook");
  EXPECT_EQ(told.moves[0].allele, "e");
  EXPECT_NEAR(told.moves[0].before, 0.25, 1e-15);
  EXPECT_NEAR(told.moves[0].after, 8.0 / 11, 1e-14);
  EXPECT_EQ(told.moves[1].animal, "D");
  EXPECT_EQ(told.moves[2].animal, "I");
  EXPECT_FALSE(told.surprise);
  EXPECT_EQ(moves_text(told, Terminal::plain(80)),
            "3 animals changed\n"
            "  animal  one copy of  before   after\n"
            "  H       tarnbrook e  25.0 %  72.7 %\n"
            "  D       tarnbrook e  50.0 %  81.8 %\n"
            "  I       tarnbrook e  25.0 %  40.9 %\n");
}

TEST(Moves, OfNothingAreNone) {
  RecordsBuilder after = family();
  after.score("X", "crown-fleck", std::nullopt);
  const auto told = told_of(family(), after);
  EXPECT_TRUE(told.moves.empty());
  EXPECT_EQ(moves_text(told, Terminal::plain(80)), "no animals changed\n");
}

// Half of the last decimal that is shown: 0.05 % and no less.
TEST(Moves, TooSmallToShowAreLeftOut) {
  const auto model = support::recessive_model();
  const SolvedColony solved(model, family());
  auto after = solved.odds();
  auto& posterior = after.animals[0].loci[0].posterior;
  posterior = {0.5 - 0.00049, 0.5 + 0.00049, 0};
  EXPECT_TRUE(moves_between(solved.colony(), solved.odds(), after, 0).moves.empty());
  posterior = {0.5 - 0.00051, 0.5 + 0.00051, 0};
  EXPECT_EQ(moves_between(solved.colony(), solved.odds(), after, 0).moves.size(), 1U);
}

TEST(Moves, KnowWhatIsCertain) {
  RecordsBuilder before = family();
  before.records.animals[1].origin = "bought";
  RecordsBuilder after = before;
  after.shows("H", "tarnbrook", "tarnbrook");
  const auto told = told_of(before, after);
  bool found = false;
  for (const auto& move : told.moves) {
    if (move.animal != "D") continue;
    found = true;
    EXPECT_FALSE(move.certain_before);
    EXPECT_TRUE(move.certain_after);
  }
  EXPECT_TRUE(found);
  const std::string text = moves_text(told, Terminal::plain(80));
  EXPECT_NE(text.find("50.0 %   100 %"), std::string::npos) << text;
}

// One to a double, but the contrary is possible: twenty reports leave 1e-50 of it.
TEST(Moves, DoNotCallCertainWhatIsNot) {
  RecordsBuilder after = family();
  for (int i = 0; i < 20; ++i) after.result("D", "shed-pcr", "carrier");
  const auto told = told_of(family(), after);
  ASSERT_FALSE(told.moves.empty());
  EXPECT_EQ(told.moves[0].animal, "D");
  EXPECT_FALSE(told.moves[0].certain_after);
  const std::string text = moves_text(told, Terminal::plain(80));
  EXPECT_NE(text.find("50.0 %  >99.9 %"), std::string::npos) << text;
  EXPECT_EQ(text.find("100 %"), std::string::npos) << text;
}

TEST(Moves, TellTheSurpriseThatTheNewRecordIs) {
  RecordsBuilder after = family();
  after.result("S", "shed-pcr", "carrier");
  odds::Options options = support::only_odds();
  options.surprises = true;
  const auto told = told_of(family(), after, options);
  ASSERT_TRUE(told.surprise);
  // S is clear: 0.996 x 0.003 + 0.004 x (0.003 + 0.985 + 0.003)/3.
  EXPECT_NEAR(told.surprise->probability, 0.996 * 0.003 + 0.004 * 0.991 / 3, 1e-14);
  EXPECT_TRUE(told.moves.empty()) << "he stays clear whatever was reported";
}

TEST(Moves, ListTheTwentyLargest) {
  MovesTold told;
  for (int i = 0; i < 23; ++i) {
    std::string id = "H";
    id += std::to_string(i);
    told.moves.push_back({id, "tarnbrook", "e", 0.1, 0.9 - i / 100.0, false, false});
  }
  const std::string text = moves_text(told, Terminal::plain(80));
  EXPECT_TRUE(text.starts_with("23 animals changed\n"));
  EXPECT_NE(text.find("H19 "), std::string::npos);
  EXPECT_EQ(text.find("H20 "), std::string::npos);
  EXPECT_NE(text.find("and 3 smaller (all of them with --json)"), std::string::npos);
}

// An animal that moved at two loci is one animal.
TEST(Moves, CountAnimalsOnce) {
  MovesTold told;
  told.moves = {{"H", "tarnbrook", "e", 0.1, 0.9, false, false},
                {"H", "brackmoor", "s", 0.2, 0.9, false, false}};
  EXPECT_TRUE(moves_text(told, Terminal::plain(80)).starts_with("1 animal changed\n"));
}

}  // namespace
}  // namespace likelihet::cli::moves_test
