// A keeper's book through the commands: init, import, records, what they moved, and the ways to
// get them wrong. In the program itself; transcripts show the same as a user sees it.
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>
#include <support/keeper.hpp>

namespace likelihet::cli::recording_test {
namespace {

using nlohmann::json;
using support::Ended;
using support::Keeper;

// A book with the colony of the transcripts: F01 (perhaps a carrier) x M02, two hatchlings.
class ABook : public testing::Test {
 protected:
  ABook() : book(keeper.path("demo.book")) {
    const std::string fixtures = std::string(LIKELIHET_SOURCE_DIR) + "/tests/console/fixtures/";
    EXPECT_EQ(Keeper::run({"init", book, "--model", fixtures + "model.json"}).status(),
              ExitStatus::done);
    EXPECT_EQ(Keeper::run({"import", book, fixtures + "colony.json"}).status(), ExitStatus::done);
  }
  // A command on the book; the book's name goes after the command's.
  Ended run(std::vector<std::string> arguments) const {
    arguments.insert(arguments.begin() + 1, book);
    return Keeper::run(arguments);
  }
  json document(std::vector<std::string> arguments) const {
    arguments.emplace_back("--json");
    const Ended ended = run(arguments);
    EXPECT_EQ(ended.status(), ExitStatus::done);
    return json::parse(ended.output);
  }
  double het(const std::string& animal) const {
    return document(
        {"odds", "--animal", animal})["animals"][0]["loci"]["tarnbrook"]["het"]["e"]["mean"];
  }
  void expect_fault(const std::vector<std::string>& arguments, ExitStatus status,
                    const std::string& what) const {
    const Ended ended = run(arguments);
    ASSERT_EQ(ended.status(), status) << what;
    EXPECT_NE(failure_text(*ended.failure).find(what), std::string::npos)
        << failure_text(*ended.failure);
  }

  Keeper keeper;
  std::string book;
};

TEST_F(ABook, TellsWhatAResultMoved) {
  const double before = het("H0302");
  const json told = document({"result", "H0302", "shed-pcr", "carrier", "--on", "2024-07-01"});
  EXPECT_EQ(told["format"], "likelihet-change");
  EXPECT_EQ(told["observation"], "o3");
  EXPECT_EQ(told["observations_added"], 1);
  ASSERT_FALSE(told["moved"].empty());
  EXPECT_EQ(told["moved"][0]["animal"], "H0302");
  EXPECT_DOUBLE_EQ(told["moved"][0]["before"], before);
  EXPECT_DOUBLE_EQ(told["moved"][0]["after"], het("H0302"));
}

// The scorer must not see the odds before the next reading.
TEST_F(ABook, KeepsTheOddsFromTheScorer) {
  const Ended ended = run({"score", "H0302", "crown-fleck", "strong", "--scorer", "ana"});
  EXPECT_EQ(ended.output, "recorded o3: H0302: ana scored crown-fleck: strong (95 % sure)\n");
  const json told = document({"score", "H0302", "crown-fleck", "absent", "--sure", "0.5"});
  EXPECT_FALSE(told.contains("moved"));
}

TEST_F(ABook, TakesAReadingThatCouldNotBeMade) {
  const double before = het("H0302");
  const Ended ended = run({"score", "H0302", "crown-fleck", "--not-scorable", "stuck shed"});
  EXPECT_EQ(ended.output, "recorded o3: H0302: crown-fleck: could not be scored\n");
  EXPECT_EQ(het("H0302"), before);
  expect_fault({"score", "H0302", "crown-fleck"}, ExitStatus::usage, "LEVEL is missing");
  EXPECT_EQ(run({"score", "H0302", "crown-fleck", "strong", "--not-scorable", "x"}).status(),
            ExitStatus::usage);
}

TEST_F(ABook, GivesRecordsTheNextFreeId) {
  EXPECT_EQ(run({"appearance", "H0302", "tarnbrook", "plain", "--id", "o4"}).status(),
            ExitStatus::done);
  EXPECT_EQ(document({"appearance", "H0301", "tarnbrook", "plain"})["observation"], "o5")
      << "as many as there are and one: o4 is taken";
}

// The same id with the same content is there already; with other content it is refused.
TEST_F(ABook, KnowsARecordItHas) {
  EXPECT_EQ(run({"appearance", "H0302", "tarnbrook", "plain", "--id", "look"}).status(),
            ExitStatus::done);
  const Ended again = run({"appearance", "H0302", "tarnbrook", "plain", "--id", "look"});
  EXPECT_EQ(again.output, "already there: look: H0302: looks plain (tarnbrook)\n");
  expect_fault({"appearance", "H0301", "tarnbrook", "plain", "--id", "look"}, ExitStatus::input,
               "look");
}

TEST_F(ABook, TakesBackWithAWithdrawal) {
  const double before = het("H0302");
  run({"result", "H0302", "shed-pcr", "carrier", "--id", "lab"});
  EXPECT_NE(het("H0302"), before);
  EXPECT_EQ(run({"withdraw", "lab", "--why", "another's sample"}).status(), ExitStatus::done);
  EXPECT_EQ(het("H0302"), before);
  expect_fault({"withdraw", "lba", "--why", "x"}, ExitStatus::input, "lba");
}

// What contradicts the rest is recorded all the same, since it was seen; the status says so, and
// withdrawing it mends the book.
TEST_F(ABook, RecordsWhatContradicts) {
  const Ended clash = run({"appearance", "M02", "tarnbrook", "tarnbrook", "--id", "odd"});
  EXPECT_EQ(clash.status(), ExitStatus::contradiction);
  EXPECT_EQ(clash.output, "recorded odd: M02: looks tarnbrook (tarnbrook)\n");
  EXPECT_EQ(run({"odds"}).status(), ExitStatus::contradiction);
  EXPECT_EQ(run({"why", "H0301"}).status(), ExitStatus::contradiction);
  const Ended mended = run({"withdraw", "odd", "--why", "wrong rack"});
  EXPECT_EQ(mended.status(), ExitStatus::done);
  EXPECT_NE(mended.output.find("the evidence no longer contradicts itself"), std::string::npos);
  EXPECT_EQ(run({"odds"}).status(), ExitStatus::done);
}

TEST_F(ABook, CountsABrood) {
  EXPECT_EQ(run({"brood", "F01", "tarnbrook", "e/e", "plain=7", "tarnbrook=1"}).status(),
            ExitStatus::done);
  EXPECT_EQ(het("F01"), 1.0);
  for (const char* wrong : {"plain", "plain=", "plain=x", "plain=-1", "plain=1.5", "=3x"}) {
    EXPECT_EQ(run({"brood", "F01", "tarnbrook", "e/e", wrong}).status(), ExitStatus::usage)
        << wrong;
  }
  expect_fault({"brood", "F01", "tarnbrook", "e/f", "plain=1"}, ExitStatus::input, "e/f");
}

TEST_F(ABook, NamesWhatItDoesNotKnow) {
  expect_fault({"result", "H0303", "shed-pcr", "clear"}, ExitStatus::input, "H0303");
  expect_fault({"result", "H0302", "shed-pcr", "clean"}, ExitStatus::input, "clean");
  expect_fault({"score", "H0302", "crown-flek", "strong"}, ExitStatus::input, "crown-fleck");
  expect_fault({"score", "H0302", "crown-fleck", "strong", "--scorer", "anna"}, ExitStatus::input,
               "ana");
  expect_fault({"odds", "--animal", "H0303"}, ExitStatus::input, "no animal 'H0303'");
  expect_fault({"odds", "--locus", "pellbrook"}, ExitStatus::input, "no trait 'pellbrook'");
  expect_fault({"odds", "--tables", "learned"}, ExitStatus::input, "no learned tables");
  expect_fault({"why", "H0301", "--allele", "f"}, ExitStatus::input, "there is not an allele 'f'");
  expect_fault({"odds", "--memory", "1"}, ExitStatus::too_large, "--memory");
}

TEST_F(ABook, AddsAnimalsAndClutches) {
  EXPECT_EQ(
      Keeper::run({"add", "animal", book, "T1", "--sex", "male", "--origin", "bought"}).status(),
      ExitStatus::done);
  EXPECT_EQ(Keeper::run({"add", "clutch", book, "C04", "--dam", "H0302", "--sire", "T1:2", "--sire",
                         "M02", "--paternity", "mixed", "--hatchling", "N1", "--hatchling", "N2"})
                .status(),
            ExitStatus::done);
  const json odds = document({"odds", "--clutch", "C04"});
  ASSERT_EQ(odds["animals"].size(), 2U);
  EXPECT_EQ(odds["animals"][1]["id"], "N2");
  EXPECT_EQ(odds["animals"][1]["clutch"], "C04");
}

// A rehearsal finds what an import would do and writes nothing.
TEST_F(ABook, RehearsesAnImport) {
  const std::string table = keeper.file("rack.csv",
                                        "animal,marker,level\n"
                                        "H0301,crown-fleck,strong\n"
                                        "H0302,crown-fleck,absent\n");
  const Ended dry = run({"import", table, "--dry-run"});
  EXPECT_EQ(dry.status(), ExitStatus::done);
  EXPECT_NE(dry.output.find("2 observations added (a dry run: nothing was written)"),
            std::string::npos)
      << dry.output;
  EXPECT_EQ(run({"check"}).output.find("4 observations"), std::string::npos);
  EXPECT_EQ(document({"import", table})["observations_added"], 2);
  EXPECT_NE(run({"check"}).output.find("4 observations"), std::string::npos);
}

// All or nothing: one wrong row, and no row is written.
TEST_F(ABook, WritesNothingOfAnImportWithAFault) {
  const std::string table = keeper.file("rack.csv",
                                        "animal,marker,level\n"
                                        "H0301,crown-fleck,strong\n"
                                        "H0309,crown-fleck,absent\n");
  expect_fault({"import", table}, ExitStatus::input, "row 3");
  EXPECT_NE(run({"check"}).output.find("2 observations"), std::string::npos);
}

TEST_F(ABook, RefusesFilesThatAreNone) {
  expect_fault({"import", keeper.path("none.json")}, ExitStatus::input, "cannot be read");
  expect_fault({"import", keeper.path("")}, ExitStatus::input, "is a folder, not a file");
  expect_fault({"import", keeper.file("empty.json", "")}, ExitStatus::input, "the text is empty");
  EXPECT_EQ(Keeper::run({"odds", keeper.file("text.book", "no book\n")}).status(),
            ExitStatus::input);
  EXPECT_EQ(Keeper::run({"odds", keeper.path("none.book")}).status(), ExitStatus::input);
  const std::string fixtures = std::string(LIKELIHET_SOURCE_DIR) + "/tests/console/fixtures/";
  EXPECT_EQ(Keeper::run({"init", book, "--model", fixtures + "model.json"}).status(),
            ExitStatus::input)
      << "a book is never overwritten";
}

// What export writes, an empty book takes whole, and the second time nothing is left to add.
TEST_F(ABook, GoesRoundThroughExport) {
  run({"result", "H0302", "shed-pcr", "carrier", "--on", "2024-07-01"});
  const Ended exported = run({"export"});
  const std::string colony = keeper.file("all.json", exported.output);
  const std::string other = keeper.path("other.book");
  const std::string fixtures = std::string(LIKELIHET_SOURCE_DIR) + "/tests/console/fixtures/";
  Keeper::run({"init", other, "--model", fixtures + "model.json"});
  EXPECT_EQ(Keeper::run({"import", other, colony}).status(), ExitStatus::done);
  EXPECT_EQ(Keeper::run({"odds", other, "--json"}).output, run({"odds", "--json"}).output);
  const json again = json::parse(Keeper::run({"import", other, colony, "--json"}).output);
  EXPECT_EQ(again["animals_added"], 0);
  EXPECT_EQ(again["observations_added"], 0);
  EXPECT_EQ(again["unchanged"], 8) << "four animals, a clutch, three observations";
}

}  // namespace
}  // namespace likelihet::cli::recording_test
