// Older books are brought up to date, newer ones are left alone.
#include <csignal>

#include <SQLiteCpp/Database.h>
#include <book/example.hpp>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <likelihet/book/copying.hpp>
#include <likelihet/book/schema.hpp>

namespace likelihet::book::migration_test {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;

/// A program that knows one version more: an artificial step that adds a table and a column.
Settings next_settings() {
  Settings settings = test_settings();
  settings.migrations.push_back({newest_version(settings.migrations) + 1,
                                 "CREATE TABLE rooms (id TEXT NOT NULL) STRICT;"
                                 "ALTER TABLE animals ADD COLUMN room TEXT;"});
  return settings;
}

int version_of(const std::filesystem::path& file) {
  return schema_version(SQLite::Database(file.string()));
}

TEST(migration, versions_are_numbered_without_gaps) {
  int expected = 0;
  for (const Migration& step : schema_migrations()) {
    EXPECT_EQ(step.to, ++expected);
  }
  EXPECT_EQ(newest_version(schema_migrations()), expected);
  EXPECT_EQ(newest_version({}), 0);
}

TEST(migration, a_new_book_is_marked_as_ours_and_of_this_version) {
  const Folder folder;
  { make_example(folder / "b"); }
  // SQLite database file format, section 1.3: user version at offset 60, application id at 68.
  EXPECT_EQ(bytes_of(folder / "b").substr(60, 4), std::string("\0\0\0\3", 4));
  EXPECT_EQ(bytes_of(folder / "b").substr(68, 4), "LKHT");
}

TEST(migration, an_older_book_is_brought_up_to_date_and_keeps_its_records) {
  const Folder folder;
  { make_example(folder / "b"); }
  ASSERT_EQ(version_of(folder / "b"), 3);
  {
    const Book book = Opener::open(folder / "b", next_settings());
    EXPECT_EQ(book.records(), example_records());
    EXPECT_EQ(book.ledger().size(), 11U);
    EXPECT_THAT(book.check(), IsEmpty());
  }
  EXPECT_EQ(version_of(folder / "b"), 4);
  EXPECT_NO_THROW(Opener::open(folder / "b", next_settings()));
}

TEST(migration, a_migrated_book_has_the_schema_of_a_new_one) {
  SQLite::Database stepwise(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
  migrate(stepwise, schema_migrations());
  migrate(stepwise, next_settings().migrations);
  EXPECT_EQ(schema_version(stepwise), 4);
  EXPECT_EQ(schema_parts(stepwise), expected_parts(next_settings().migrations));
}

TEST(migration, a_step_that_fails_leaves_the_old_version) {
  const Folder folder;
  { make_example(folder / "b"); }
  const std::string before = bytes_of(folder / "b");
  Settings broken = next_settings();
  broken.migrations.back().statements += "INSERT INTO nowhere VALUES (1);";
  EXPECT_EQ(trouble_from([&] { Opener::open(folder / "b", broken); }), BookTrouble::damaged);
  EXPECT_EQ(bytes_of(folder / "b"), before);
  EXPECT_EQ(version_of(folder / "b"), 3);
  EXPECT_FALSE(std::filesystem::exists(folder / "b.before-v4"));
  EXPECT_EQ(Opener::open(folder / "b", test_settings()).records(), example_records());
}

TEST(migration, a_newer_book_is_refused_and_left_as_it_is) {
  const Folder folder;
  { Opener::create(folder / "b", example_model(), next_settings()); }
  const std::string before = bytes_of(folder / "b");
  const auto time = std::filesystem::last_write_time(folder / "b");
  try {
    Opener::open(folder / "b", test_settings());
    FAIL();
  } catch (const BookError& error) {
    EXPECT_EQ(error.trouble(), BookTrouble::newer_version);
    EXPECT_THAT(error.what(), HasSubstr("version 4, known here up to 3"));
  }
  EXPECT_EQ(bytes_of(folder / "b"), before);
  EXPECT_EQ(std::filesystem::last_write_time(folder / "b"), time);
  EXPECT_FALSE(std::filesystem::exists(folder / "b-wal"));
}

// A kill after a newer program's migration can leave the new version in the log alone.
TEST(migration, a_newer_version_still_in_the_log_is_refused_and_left_there) {
  const Folder folder;
  { make_example(folder / "b"); }
  ASSERT_LT(in_child([&] {
              const Book book = Opener::open(folder / "b", next_settings());
              return ::raise(SIGKILL);
            }),
            0);
  const std::string file = bytes_of(folder / "b");
  const std::string log = bytes_of(folder / "b-wal");
  ASSERT_FALSE(log.empty());
  EXPECT_EQ(trouble_from([&] { Opener::open(folder / "b", test_settings()); }),
            BookTrouble::newer_version);
  EXPECT_EQ(bytes_of(folder / "b"), file);
  EXPECT_EQ(bytes_of(folder / "b-wal"), log);
  EXPECT_EQ(trouble_from([&] { copy_book(folder / "b", folder / "c"); }),
            BookTrouble::newer_version);
  EXPECT_EQ(bytes_of(folder / "b-wal"), log);
  EXPECT_FALSE(std::filesystem::exists(folder / "c"));
  EXPECT_EQ(Opener::open(folder / "b", next_settings()).records(), example_records());
}

// A book of version 1 has no place for what is learned; its records stay as they are.
TEST(migration, a_book_of_version_1_gets_a_place_for_what_is_learned) {
  const Folder folder;
  Settings first = test_settings();
  first.migrations.resize(1);
  {
    Book book = Opener::create(folder / "b", example_model(), first);
    book.add(example_records(), Mode::commit);
  }
  ASSERT_EQ(version_of(folder / "b"), 1);
  Book book = Opener::open(folder / "b", test_settings());
  EXPECT_EQ(version_of(folder / "b"), 3);
  EXPECT_EQ(book.records().animals.size(), example_records().animals.size());
  EXPECT_FALSE(book.learned());
  EXPECT_THAT(book.check(), IsEmpty());
}

}  // namespace
}  // namespace likelihet::book::migration_test
