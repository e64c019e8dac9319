// Endings without a result: their status, their words, and what becomes of exceptions.
#include "failure.hpp"

#include <algorithm>
#include <new>
#include <stdexcept>
#include <string>

#include "computation.hpp"
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>
#include <support/solved_colony.hpp>

#include <likelihet/book/book_error.hpp>

namespace likelihet::cli::failure_test {
namespace {

using nlohmann::json;
using support::RecordsBuilder;

template <class Exception>
Failure after(const Exception& exception) {
  try {
    throw exception;
  } catch (...) {
    return failure_of_current_exception();
  }
}

TEST(FailureOfException, KeepsAFailure) {
  const auto failure = after(Failure(ExitStatus::contradiction, "book", "what", "mend"));
  EXPECT_EQ(failure.status(), ExitStatus::contradiction);
  EXPECT_EQ(failure.faults(), (colony::Faults{{"book", "what", "mend"}}));
}

TEST(FailureOfException, TellsWrongInputFromTroubleOfTheMachine) {
  using book::BookError;
  using book::BookTrouble;
  for (const auto trouble : {BookTrouble::missing, BookTrouble::exists, BookTrouble::not_a_book,
                             BookTrouble::newer_version, BookTrouble::damaged}) {
    EXPECT_EQ(after(BookError(trouble, "m")).status(), ExitStatus::input);
  }
  for (const auto trouble : {BookTrouble::locked, BookTrouble::storage}) {
    EXPECT_EQ(after(BookError(trouble, "m")).status(), ExitStatus::failed);
  }
}

TEST(FailureOfException, PartsABooksMessageFromItsMend) {
  const auto failure =
      after(book::BookError(book::BookTrouble::locked, "a; b is locked; wait and try again"));
  ASSERT_EQ(failure.faults().size(), 1U);
  EXPECT_EQ(failure.faults()[0].what, "a; b is locked");
  EXPECT_EQ(failure.faults()[0].mend, "wait and try again");
}

TEST(FailureOfException, KnowsMemoryAndFaultsOfItsOwn) {
  EXPECT_EQ(after(std::bad_alloc()).faults()[0].place, "memory");
  const auto own = after(std::logic_error("an invariant broke"));
  EXPECT_EQ(own.status(), ExitStatus::failed);
  EXPECT_EQ(own.faults()[0].what, "an invariant broke");
  EXPECT_NE(own.faults()[0].mend.find("please report it"), std::string::npos);
}

TEST(FailureText, HasPlaceWhatAndMend) {
  EXPECT_EQ(failure_text(Failure(ExitStatus::input, "rack.csv row 7", "no animal 'H1'",
                                 "did you mean 'H01'?")),
            "error: rack.csv row 7: no animal 'H1'\n"
            "  fix: did you mean 'H01'?\n");
  EXPECT_EQ(failure_text(Failure(ExitStatus::input, "", "what", "")), "error: what\n");
}

TEST(FailureText, CannotHarmATerminal) {
  EXPECT_EQ(failure_text(Failure(ExitStatus::input, "a\nb", "\x1b[31m", "\x07")),
            "error: a\\nb: \\x1b[31m\n  fix: \\x07\n");
}

TEST(FailureText, StopsAtFiftyFaults) {
  colony::Faults faults(53, {"place", "what", ""});
  const std::string text = failure_text(Failure(ExitStatus::input, faults));
  EXPECT_EQ(std::count(text.begin(), text.end(), '\n'), 51);
  EXPECT_TRUE(text.ends_with("and 3 more (all of them with --json)\n"));
  faults.resize(50);
  EXPECT_FALSE(failure_text(Failure(ExitStatus::input, faults)).ends_with("--json)\n"));
}

TEST(FailureJson, IsOneLineWithEveryFault) {
  const colony::Faults faults(53, {"/animals/3", "what\n", "mend"});
  const std::string text = failure_json(Failure(ExitStatus::too_large, faults));
  EXPECT_EQ(text.find('\n'), text.size() - 1);
  const json document = json::parse(text);
  EXPECT_EQ(document["format"], "likelihet-error");
  EXPECT_EQ(document["exit"], 5);
  ASSERT_EQ(document["faults"].size(), 53U);
  EXPECT_EQ(document["faults"][52]["what"], "what\n");
}

// Bytes that are no UTF-8 must not keep an error from being told.
TEST(FailureJson, ReplacesBytesThatAreNoText) {
  const json document =
      json::parse(failure_json(Failure(ExitStatus::input, "\xff.json", "cannot be read", "")));
  EXPECT_EQ(document["faults"][0]["place"], "\xEF\xBF\xBD.json");
}

TEST(FailureOfContradiction, NamesEachRecordThatTakesPart) {
  RecordsBuilder records;
  records.founder("D").founder("S").clutch("C", "D", {"S"});
  records.hatchling("H", "C", genetics::Sex::male);
  records.records.animals[1].origin = "bought";
  records.shows("H", "tarnbrook", "tarnbrook").on("2024-06-11");
  const auto colony =
      support::colony_of(support::sex_linked_model(genetics::Chromosome::z), records);
  const auto failure = failure_of(colony, support::clash_of(colony));
  EXPECT_EQ(failure.status(), ExitStatus::contradiction);
  ASSERT_GE(failure.faults().size(), 2U);
  EXPECT_EQ(failure.faults()[0].place, "book");
  EXPECT_NE(failure.faults()[0].mend.find("likelihet withdraw"), std::string::npos);
  EXPECT_EQ(failure.faults()[1].place, "observation o1");
  EXPECT_EQ(failure.faults()[1].what, "2024-06-11, H: looks tarnbrook (tarnbrook)");
}

TEST(FailureOfSize, SaysWhatToDo) {
  odds::TooLarge large;
  large.what = "it would take 9 GiB";
  const auto failure = failure_of(large);
  EXPECT_EQ(failure.status(), ExitStatus::too_large);
  EXPECT_EQ(failure.faults()[0].what, "it would take 9 GiB");
  EXPECT_NE(failure.faults()[0].mend.find("--memory"), std::string::npos);
}

TEST(RecordsById, AreFoundOrTheNearestIsNamed) {
  RecordsBuilder records;
  records.founder("F01").founder("F02").clutch("C03", "F01", {});
  const auto colony = support::colony_of(support::recessive_model(), records);
  EXPECT_EQ(animal_named(colony, "F02"), 1U);
  EXPECT_EQ(clutch_named(colony, "C03"), 0U);
  EXPECT_EQ(locus_named(colony.model(), "tarnbrook"), 0U);
  for (const auto& [find, what] :
       {std::pair<void (*)(const colony::Colony&), std::string>{
            [](const colony::Colony& c) { animal_named(c, "F0l"); }, "no animal 'F0l'"},
        {[](const colony::Colony& c) { clutch_named(c, "C04"); }, "no clutch 'C04'"},
        {[](const colony::Colony& c) { locus_named(c.model(), "embre"); }, "no trait 'embre'"}}) {
    try {
      find(colony);
      ADD_FAILURE() << what;
    } catch (const Failure& failure) {
      EXPECT_EQ(failure.status(), ExitStatus::input);
      EXPECT_NE(failure.faults()[0].what.find(what), std::string::npos) << failure.faults()[0].what;
      EXPECT_FALSE(failure.faults()[0].mend.empty());
    }
  }
}

TEST(FailureJson, HasNoRawControls) {
  const Failure failure(ExitStatus::input, "a\x7F", "b\xC2\x9B", "c\u202E");
  const std::string text = failure_json(failure);
  EXPECT_EQ(text.find_first_of("\x7F\xC2\xE2"), std::string::npos) << text;
  EXPECT_EQ(nlohmann::json::parse(text)["faults"][0]["what"], "b\xC2\x9B");
}

}  // namespace
}  // namespace likelihet::cli::failure_test
