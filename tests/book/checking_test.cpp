// check() finds what a book of this version cannot hold.
#include <book/example.hpp>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <likelihet/book/checking.hpp>

namespace likelihet::book::checking_test {
namespace {

using testing::AllOf;
using testing::Contains;
using testing::Field;
using testing::HasSubstr;
using testing::IsEmpty;

class checking : public testing::Test {
 protected:
  checking() { make_example(file_); }

  /// check() after statements run without the program.
  colony::Faults after(const std::string& statements) {
    EXPECT_EQ(run_raw(file_, statements), "");
    return Opener::open(file_, test_settings()).check();
  }

  static auto fault(const std::string& place, const std::string& what) {
    return Contains(AllOf(Field(&colony::Fault::place, HasSubstr(place)),
                          Field(&colony::Fault::what, HasSubstr(what))));
  }

  Folder folder_;
  std::filesystem::path file_ = folder_ / "b";
};

TEST_F(checking, a_sound_book_has_no_faults) {
  EXPECT_THAT(after("PRAGMA foreign_keys = ON"), IsEmpty());
}

TEST_F(checking, a_missing_trigger_is_found) {
  EXPECT_THAT(after("DROP TRIGGER observations_delete"),
              fault("trigger observations_delete", "missing"));
}

TEST_F(checking, a_changed_trigger_is_found) {
  EXPECT_THAT(after("DROP TRIGGER ledger_update; CREATE TRIGGER ledger_update BEFORE UPDATE ON "
                    "ledger BEGIN SELECT 1; END"),
              fault("trigger ledger_update", "not as this version makes it"));
}

TEST_F(checking, a_strange_table_is_found) {
  EXPECT_THAT(after("CREATE TABLE notes (text TEXT)"), fault("table notes", "no such table"));
}

TEST_F(checking, a_row_that_refers_to_nothing_is_found) {
  EXPECT_THAT(after("INSERT INTO clutch_sires VALUES ('C03', 1, 'M99', 1)"),
              fault("clutch_sires", "animals"));
}

TEST_F(checking, a_record_without_an_entry_is_found) {
  EXPECT_THAT(after("INSERT INTO animals (sequence, id) VALUES (4, 'X1')"),
              fault("animal X1", "ledger does not say"));
}

TEST_F(checking, an_entry_without_a_record_is_found) {
  EXPECT_THAT(after("DROP TRIGGER observations_delete; DELETE FROM observations WHERE id = 'o6'"),
              fault("observation o6", "not in the book"));
}

TEST_F(checking, an_entry_that_stands_twice_is_found) {
  EXPECT_THAT(after("INSERT INTO ledger VALUES (12, '2026-01-01T00:00:00Z', 'clutch added', 'C03', "
                    "NULL)"),
              fault("clutch C03", "more than once"));
}

TEST_F(checking, a_gap_in_the_ledger_is_found) {
  EXPECT_THAT(after("DROP TRIGGER ledger_delete; DELETE FROM ledger WHERE number = 7"),
              fault("ledger entry 8", "before it is missing"));
}

TEST_F(checking, a_ledger_that_does_not_start_with_the_book_is_found) {
  EXPECT_THAT(after("DROP TRIGGER ledger_update; UPDATE ledger SET what = 'x' WHERE number = 1"),
              fault("ledger entry 1", "the book was made"));
}

TEST_F(checking, records_that_do_not_fit_the_model_are_found) {
  const colony::Faults faults = after("UPDATE animals SET origin = 'moon' WHERE id = 'M02'");
  EXPECT_THAT(faults, fault("book: animal M02", "moon"));
  const Book book = Opener::open(file_, test_settings());
  EXPECT_EQ(trouble_from([&] { static_cast<void>(book.colony()); }), BookTrouble::damaged);
}

TEST_F(checking, a_page_overwritten_is_found) {
  std::string bytes = bytes_of(file_);
  ASSERT_GT(bytes.size(), 3U * 4096);
  bytes.replace(bytes.size() - 4096, 4096, std::string(4096, 'x'));
  write_bytes(file_, bytes);
  EXPECT_THAT(Opener::open(file_, test_settings()).check(), fault("book: file", ""));
}

}  // namespace
}  // namespace likelihet::book::checking_test
