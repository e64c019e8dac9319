// A book keeps what it is given, once, in its order, and says what it did.
#include <ctime>

#include <book/example.hpp>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <likelihet/book/book.hpp>
#include <likelihet/documents/colony_document.hpp>

namespace likelihet::book::book_test {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

TEST(book, a_new_book_has_its_model_and_no_records) {
  const Folder folder;
  const Book book = Opener::create(folder / "new", example_model(), test_settings());
  EXPECT_EQ(book.model()->description(), example_model().description());
  EXPECT_EQ(book.records(), colony::Records());
  ASSERT_EQ(book.ledger().size(), 1U);
  EXPECT_EQ(book.ledger()[0].number, 1);
  EXPECT_EQ(book.ledger()[0].what, "book made");
  EXPECT_EQ(book.ledger()[0].id, "example");
  EXPECT_EQ(book.ledger()[0].at.text(), "2026-05-04T03:02:01Z");
  EXPECT_THAT(book.check(), IsEmpty());
}

TEST(book, records_come_back_as_they_were_added) {
  const Folder folder;
  Book book = Opener::create(folder / "b", example_model(), test_settings());
  const Change change = added(book, example_records());
  EXPECT_EQ(change.animals_added, 3U);
  EXPECT_EQ(change.clutches_added, 1U);
  EXPECT_EQ(change.observations_added, 6U);
  EXPECT_EQ(change.unchanged, 0U);
  EXPECT_EQ(book.records(), example_records());
  EXPECT_EQ(book.records().animals[0].place.text, "book: animal F01");
  EXPECT_EQ(book.records().clutches[0].place.text, "book: clutch C03");
  EXPECT_EQ(book.records().observations[0].place.text, "book: observation o1");
  EXPECT_THAT(book.check(), IsEmpty());
}

TEST(book, records_are_there_after_closing_and_opening) {
  const Folder folder;
  { make_example(folder / "b"); }
  const Book book = Opener::open(folder / "b", test_settings());
  EXPECT_EQ(book.records(), example_records());
  EXPECT_EQ(book.model()->description(), example_model().description());
  EXPECT_EQ(book.colony().animals().size(), 3U);
}

TEST(book, a_closed_book_is_one_file) {
  const Folder folder;
  { make_example(folder / "b"); }
  std::vector<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(folder.path())) {
    names.push_back(entry.path().filename());
  }
  EXPECT_THAT(names, ElementsAre("b"));
}

TEST(book, every_observation_gets_its_time_of_entry) {
  const Folder folder;
  const Book book = make_example(folder / "b");
  for (const colony::ObservationRecord& observation : book.records().observations) {
    EXPECT_EQ(observation.entered, moment("2026-05-04T03:02:01Z")) << observation.id;
  }
}

TEST(book, the_system_clock_is_read_in_utc_to_the_second) {
  const colony::Timestamp now = now_in_utc();
  EXPECT_EQ(now.text().size(), std::string("2026-05-04T03:02:01Z").size());
  EXPECT_EQ(now.text().back(), 'Z');
  EXPECT_NEAR(static_cast<double>(now.seconds()), static_cast<double>(std::time(nullptr)), 5);
}

TEST(book, the_ledger_says_what_was_added_in_order) {
  const Folder folder;
  const Book book = make_example(folder / "b");
  std::vector<std::string> lines;
  for (const LedgerEntry& entry : book.ledger()) {
    lines.push_back(std::to_string(entry.number) + ' ' + entry.what + ' ' + entry.id);
  }
  EXPECT_THAT(lines, ElementsAre("1 book made example", "2 animal added F01", "3 animal added M02",
                                 "4 animal added H0301", "5 clutch added C03",
                                 "6 observation added o1", "7 observation added o2",
                                 "8 observation added o3", "9 observation added o4",
                                 "10 observation added o5", "11 observation added o6"));
}

TEST(book, the_same_document_again_changes_nothing) {
  const Folder folder;
  Book book = make_example(folder / "b");
  const std::size_t entries = book.ledger().size();
  const Change again = added(book, example_records());
  EXPECT_EQ(again.unchanged, 10U);
  EXPECT_EQ(again.animals_added + again.clutches_added + again.observations_added, 0U);
  EXPECT_EQ(again.animals_completed + again.clutches_completed, 0U);
  EXPECT_EQ(book.records(), example_records());
  EXPECT_EQ(book.ledger().size(), entries);
}

TEST(book, nothing_to_add_is_no_change) {
  const Folder folder;
  Book book = make_example(folder / "b");
  EXPECT_EQ(added(book, {}).unchanged, 0U);
  EXPECT_EQ(book.records(), example_records());
}

TEST(book, a_rehearsal_counts_and_writes_nothing) {
  const Folder folder;
  Book book = Opener::create(folder / "b", example_model(), test_settings());
  const Change change = added(book, example_records(), Mode::rehearse);
  EXPECT_EQ(change.animals_added, 3U);
  EXPECT_EQ(change.observations_added, 6U);
  EXPECT_EQ(book.records(), colony::Records());
  EXPECT_EQ(book.ledger().size(), 1U);
}

TEST(book, a_rehearsal_finds_the_faults_of_the_import) {
  const Folder folder;
  Book book = make_example(folder / "b");
  colony::Records wrong = example_records();
  wrong.animals[0].sex = genetics::Sex::male;
  wrong.observations.push_back(
      {"o7", colony::AppearanceRecord{"F99", "tarnbrook", "plain"}, {}, {}, {}, {"/o/6"}});
  EXPECT_EQ(refused(book, wrong, Mode::rehearse), refused(book, wrong, Mode::commit));
}

TEST(book, an_import_with_one_fault_adds_nothing) {
  const Folder folder;
  Book book = Opener::create(folder / "b", example_model(), test_settings());
  colony::Records wrong = example_records();
  wrong.observations.push_back({"o7",
                                colony::AppearanceRecord{"F99", "tarnbrook", "plain"},
                                {},
                                {},
                                {},
                                {"/observations/6"}});
  const colony::Faults faults = refused(book, wrong);
  ASSERT_EQ(faults.size(), 1U);
  EXPECT_THAT(faults[0].place, HasSubstr("/observations/6"));
  EXPECT_THAT(faults[0].what, HasSubstr("F99"));
  EXPECT_EQ(book.records(), colony::Records());
  EXPECT_EQ(book.ledger().size(), 1U);
}

TEST(book, absent_fields_are_filled_in_and_the_ledger_says_which) {
  const Folder folder;
  Book book = make_example(folder / "b");
  colony::Records more = example_records();
  more.animals[1].hatched = day("2020-05-05");
  more.animals[1].line = "south";
  more.animals[1].bought_as = {{"tarnbrook", {{"+/+", 0.25}, {"+/e", 0.75}}, {}}};
  more.clutches[0].paternity = colony::Paternity::mixed;
  const Change change = added(book, more);
  EXPECT_EQ(change.animals_completed, 1U);
  EXPECT_EQ(change.clutches_completed, 1U);
  EXPECT_EQ(change.unchanged, 8U);
  EXPECT_EQ(book.records(), more);
  const std::vector<LedgerEntry> ledger = book.ledger();
  ASSERT_EQ(ledger.size(), 13U);
  EXPECT_EQ(ledger[11].what, "animal completed");
  EXPECT_EQ(ledger[11].id, "M02");
  EXPECT_EQ(ledger[11].detail, "line, hatched, bought_as for tarnbrook");
  EXPECT_EQ(ledger[12].what, "clutch completed");
  EXPECT_EQ(ledger[12].detail, "paternity");
  EXPECT_THAT(book.check(), IsEmpty());
}

TEST(book, sires_are_filled_in_where_a_clutch_has_none) {
  const Folder folder;
  Book book = Opener::create(folder / "b", example_model(), test_settings());
  colony::Records few = example_records();
  few.clutches[0].sires.clear();
  added(book, few);
  EXPECT_EQ(added(book, example_records()).clutches_completed, 1U);
  EXPECT_EQ(book.records(), example_records());
}

TEST(book, a_completion_that_does_not_fit_is_refused_at_its_place) {
  const Folder folder;
  Book book = Opener::create(folder / "b", example_model(), test_settings());
  colony::Records few = example_records();
  few.animals[1].sex.reset();
  added(book, few);
  colony::Records wrong = few;
  wrong.animals[1].sex = genetics::Sex::female;  // it is the clutch's sire
  ASSERT_FALSE(refused(book, wrong).empty());
  EXPECT_EQ(book.records(), few);
}

TEST(book, an_export_read_into_a_new_book_gives_the_same_book) {
  const Folder folder;
  const Book book = make_example(folder / "a");
  const std::string text = documents::write_colony(book.records());
  const auto read = std::get<colony::Records>(documents::read_colony(text));
  Settings later = test_settings();
  later.clock = [] { return moment("2027-01-01T00:00:00Z"); };
  Book copy = Opener::create(folder / "b", example_model(), later);
  added(copy, read);
  EXPECT_EQ(documents::write_colony(copy.records()), text);
  EXPECT_EQ(added(copy, read).unchanged, 10U);
  EXPECT_EQ(added(copy, example_records()).unchanged, 10U);
}

TEST(book, an_export_read_into_its_own_book_changes_nothing) {
  const Folder folder;
  Book book = make_example(folder / "a");
  const std::string text = documents::write_colony(book.records());
  Settings later = test_settings();
  later.clock = [] { return moment("2027-01-01T00:00:00Z"); };
  Book again = Opener::open(folder / "a", later);
  EXPECT_EQ(added(again, std::get<colony::Records>(documents::read_colony(text))).unchanged, 10U);
}

TEST(book, a_moved_book_goes_on) {
  const Folder folder;
  Book first = make_example(folder / "a");
  Book second = Opener::create(folder / "b", example_model(), test_settings());
  second = std::move(first);
  EXPECT_EQ(second.records(), example_records());
}

TEST(book, a_name_that_sqlite_would_take_for_something_else_is_a_file) {
  const Folder folder;
  const std::filesystem::path before = std::filesystem::current_path();
  std::filesystem::current_path(folder.path());
  for (const char* name : {":memory:", "file:x?mode=memory", "a b%41#?.book", "ä"}) {
    { Book::create(name, example_model()); }
    EXPECT_TRUE(std::filesystem::is_regular_file(folder / name)) << name;
    EXPECT_NO_THROW(Book::open(name)) << name;
  }
  std::filesystem::current_path(before);
}

}  // namespace
}  // namespace likelihet::book::book_test
