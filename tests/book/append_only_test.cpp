// The file itself refuses to forget: raw SQL against every table, without the program.
#include <book/example.hpp>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <likelihet/book/schema.hpp>

namespace likelihet::book::append_only_test {
namespace {

using testing::HasSubstr;

class append_only : public testing::Test {
 protected:
  append_only() { make_example(file_); }

  /// The statement fails with these words, and the records are as they were.
  void refuses(const std::string& statement, const std::string& words) {
    EXPECT_THAT(run_raw(file_, statement), HasSubstr(words)) << statement;
    const Book book = Opener::open(file_, test_settings());
    EXPECT_EQ(book.records(), example_records()) << statement;
    EXPECT_EQ(book.ledger().size(), 11U) << statement;
  }

  /// An empty table has no row to refuse for.
  void fill_every_table() {
    Book book = Opener::open(file_, test_settings());
    book.keep_learned({"digest", "{}", {0.5}});
    static_cast<void>(book.replace_policy({}, Mode::commit));
    Publication made;
    made.entries = book.evidence().entries;
    made.counted = book.learned();
    made.counted_digest = "digest";
    made.claims = {{"A", "F01", moment("2026-05-04T03:02:01Z"), made.entries, "e", "digest", "{}",
                    std::nullopt}};
    ASSERT_TRUE(book.publish(made));
    Publication end;
    end.entries = book.evidence().entries;
    end.ends = {{"A", {moment("2026-05-04T03:02:01Z"), {}, "wrong"}}};
    ASSERT_TRUE(book.publish(end));
  }

  Folder folder_;
  std::filesystem::path file_ = folder_ / "b";
};

TEST_F(append_only, no_table_allows_a_row_to_be_deleted) {
  fill_every_table();
  std::size_t tables = 0;
  for (const SchemaPart& part : expected_parts(schema_migrations())) {
    if (part.kind == "table") {
      ++tables;
      EXPECT_NE(run_raw(file_, "DELETE FROM " + part.name), "") << part.name;
    }
  }
  EXPECT_EQ(tables, 14U);
  EXPECT_EQ(Opener::open(file_, test_settings()).records(), example_records());
}

TEST_F(append_only, observations_are_never_changed) {
  refuses("UPDATE observations SET level = 'absent' WHERE id = 'o2'", "can be withdrawn");
  refuses("UPDATE observations SET entered = '2020-01-01T00:00:00Z'", "can be withdrawn");
  refuses("UPDATE observations SET why = 'x' WHERE why IS NULL", "can be withdrawn");
  refuses("UPDATE brood_offspring SET count = 6", "can be withdrawn");
  refuses("INSERT INTO brood_offspring VALUES ('o4', 2, 'plain', 1)", "can be withdrawn");
  refuses("DELETE FROM observations WHERE id = 'o6'", "never erased");
  refuses("DELETE FROM brood_offspring", "never erased");
}

TEST_F(append_only, the_ledger_is_never_changed_and_has_no_gaps) {
  refuses("UPDATE ledger SET at = '2020-01-01T00:00:00Z'", "only ever added to");
  refuses("DELETE FROM ledger WHERE number = 11", "only ever added to");
  refuses("INSERT INTO ledger VALUES (13, '2026-05-04T03:02:01Z', 'x', 'x', NULL)", "without gaps");
  refuses("INSERT INTO ledger VALUES (5, '2026-05-04T03:02:01Z', 'x', 'x', NULL)", "without gaps");
}

TEST_F(append_only, animals_and_clutches_are_only_completed) {
  refuses("UPDATE animals SET sex = 'male' WHERE id = 'F01'", "only ever completed");
  refuses("UPDATE animals SET sex = NULL WHERE id = 'F01'", "only ever completed");
  refuses("UPDATE animals SET id = 'F02' WHERE id = 'F01'", "only ever completed");
  refuses("UPDATE animals SET sequence = 9 WHERE id = 'F01'", "only ever completed");
  refuses("UPDATE clutches SET eggs = 8", "only ever completed");
  refuses("UPDATE clutches SET laid = NULL", "only ever completed");
  refuses("UPDATE bought_as SET trust = 1", "only ever completed");
  refuses("UPDATE bought_as_odds SET probability = 0.5", "written once");
  refuses("INSERT INTO bought_as_odds VALUES ('F01', 0, 2, 'e/e', 0.1)", "written once");
  refuses("UPDATE clutch_sires SET share = 2", "only ever completed");
}

TEST_F(append_only, an_absent_field_may_be_filled_in) {
  EXPECT_EQ(run_raw(file_, "UPDATE animals SET hatched = '2020-01-01' WHERE id = 'M02'"), "");
  EXPECT_EQ(run_raw(file_, "UPDATE clutches SET line = 'south' WHERE id = 'C03'"), "");
  const colony::Records records = Opener::open(file_, test_settings()).records();
  EXPECT_EQ(records.animals[1].hatched, day("2020-01-01"));
  EXPECT_EQ(records.clutches[0].line, "south");
}

// INSERT OR REPLACE deletes the row in its way without running delete triggers (SQLite
// documentation, "ON CONFLICT").
TEST_F(append_only, replacing_a_row_is_no_way_round) {
  refuses("INSERT OR REPLACE INTO animals (sequence, id) VALUES (1, 'F01')", "only ever added");
  refuses("INSERT OR REPLACE INTO animals (sequence, id) VALUES (4, 'F01')", "only ever added");
  refuses("INSERT OR REPLACE INTO animals (sequence, id) VALUES (1, 'X')", "only ever added");
  refuses("INSERT OR REPLACE INTO clutches (sequence, id) VALUES (2, 'C03')", "only ever added");
  refuses(
      "INSERT OR REPLACE INTO observations (sequence, id, kind, animal, locus, shows, entered) "
      "VALUES (1, 'o1', 'appearance', 'F01', 'tarnbrook', 'tarnbrook', '2026-05-04T03:02:01Z')",
      "only ever added");
  refuses("INSERT OR REPLACE INTO ledger VALUES (1, '2026-05-04T03:02:01Z', 'x', 'x', NULL)",
          "without gaps");
  refuses("INSERT OR REPLACE INTO model VALUES (1, '{}')", "one model");
  refuses("INSERT OR REPLACE INTO clutch_sires VALUES ('C03', 0, 'M02', 2)", "only ever completed");
  refuses("INSERT OR REPLACE INTO bought_as VALUES ('F01', 0, 'tarnbrook', 0.1)",
          "only ever completed");
}

TEST_F(append_only, the_model_changes_only_with_the_old_one_in_the_ledger) {
  refuses("UPDATE model SET document = '{}'", "keep the old model first");
  refuses("DELETE FROM model", "one model");
}

TEST_F(append_only, rows_that_refer_to_nothing_are_refused) {
  const std::string on = "PRAGMA foreign_keys = ON; ";
  refuses(on + "INSERT INTO animals (sequence, id, clutch) VALUES (4, 'H9', 'C99')", "FOREIGN KEY");
  refuses(on + "INSERT INTO clutch_sires VALUES ('C03', 1, 'M99', 1)", "FOREIGN KEY");
  refuses(on + "INSERT INTO observations (sequence, id, kind, withdraws, entered) "
               "VALUES (7, 'o7', 'withdrawal', 'o99', '2026-05-04T03:02:01Z')",
          "FOREIGN KEY");
}

TEST_F(append_only, columns_hold_their_type_and_kind) {
  refuses("INSERT INTO animals (sequence, id, sex) VALUES (4, 'X', 'neuter')", "CHECK");
  refuses("INSERT INTO clutches (sequence, id, eggs) VALUES (2, 'X', 'seven')",
          "cannot store TEXT");
  refuses(
      "INSERT INTO observations (sequence, id, kind, entered) "
      "VALUES (7, 'o7', 'score', '2026-05-04T03:02:01Z')",
      "CHECK");
}

}  // namespace
}  // namespace likelihet::book::append_only_test
