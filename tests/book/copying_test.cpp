// A copy holds what the book held, replaces nothing, and is kept before a migration.
#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Transaction.h>
#include <book/example.hpp>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/stat.h>

#include <likelihet/book/copying.hpp>
#include <likelihet/book/schema.hpp>

namespace likelihet::book::copying_test {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::UnorderedElementsAre;

std::vector<std::string> names_in(const Folder& folder) {
  std::vector<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(folder.path())) {
    names.push_back(entry.path().filename().string());
  }
  return names;
}

TEST(copying, the_copy_holds_the_same) {
  const Folder folder;
  { make_example(folder / "b"); }
  EXPECT_EQ(copy_book(folder / "b", folder / "c"), CopyEnd::done);
  EXPECT_THAT(names_in(folder), UnorderedElementsAre("b", "c"));
  const Book copy = Book::open(folder / "c");
  EXPECT_EQ(copy.records(), example_records());
  EXPECT_EQ(copy.ledger().size(), Book::open(folder / "b").ledger().size());
  EXPECT_THAT(copy.check(), IsEmpty());
  EXPECT_FALSE(copy.migrated());
}

// What lies in the log beside the book is copied too: a copy of the one file would lack it.
TEST(copying, an_open_book_with_a_log_beside_it) {
  const Folder folder;
  const Book book = make_example(folder / "b");
  ASSERT_TRUE(std::filesystem::exists(folder / "b-wal"));
  copy_book(folder / "b", folder / "c");
  EXPECT_EQ(Book::open(folder / "c").records(), book.records());
}

TEST(copying, another_process_writing_stops_no_copy) {
  const Folder folder;
  { make_example(folder / "b"); }
  SQLite::Database writer((folder / "b").string(), SQLite::OPEN_READWRITE);
  SQLite::Transaction writing(writer, SQLite::TransactionBehavior::IMMEDIATE);
  EXPECT_EQ(copy_book(folder / "b", folder / "c"), CopyEnd::done);
}

TEST(copying, nothing_that_is_there_is_replaced) {
  const Folder folder;
  { make_example(folder / "b"); }
  write_bytes(folder / "file", "mine");
  std::filesystem::create_symlink("nowhere", folder / "loose");
  std::filesystem::create_directory(folder / "inner");
  const auto before = names_in(folder);
  for (const char* name : {"file", "loose", "inner", "b"}) {
    try {
      copy_book(folder / "b", folder / name);
      ADD_FAILURE() << name;
    } catch (const BookError& error) {
      EXPECT_EQ(error.trouble(), BookTrouble::exists) << error.what();
    }
  }
  EXPECT_EQ(bytes_of(folder / "file"), "mine");
  EXPECT_EQ(names_in(folder), before);
}

TEST(copying, what_is_no_book_or_has_no_place_leaves_nothing) {
  const Folder folder;
  { make_example(folder / "b"); }
  write_bytes(folder / "file", "mine");
  const auto before = names_in(folder);
  EXPECT_THROW(copy_book(folder / "file", folder / "c"), BookError);
  EXPECT_THROW(copy_book(folder / "missing", folder / "c"), BookError);
  EXPECT_THROW(copy_book(folder / "b", folder / "nowhere" / "c"), BookError);
  EXPECT_EQ(names_in(folder), before);
}

TEST(copying, a_damaged_book_gives_no_copy) {
  const Folder folder;
  { make_example(folder / "b"); }
  std::string bytes = bytes_of(folder / "b");
  for (std::size_t at = 4096 * 3; at < 4096 * 6; ++at) bytes[at] = 'x';
  write_bytes(folder / "b", bytes);
  EXPECT_THROW(copy_book(folder / "b", folder / "c"), BookError);
  EXPECT_THAT(names_in(folder), UnorderedElementsAre("b"));
}

TEST(copying, it_can_be_stopped) {
  const Folder folder;
  { make_example(folder / "b"); }
  const std::atomic<bool> stop{true};
  EXPECT_EQ(copy_book(folder / "b", folder / "c", &stop), CopyEnd::stopped);
  EXPECT_THAT(names_in(folder), UnorderedElementsAre("b"));
}

TEST(copying, a_private_book_has_a_private_copy) {
  const Folder folder;
  { make_example(folder / "b"); }
  ::chmod((folder / "b").c_str(), 0600);
  copy_book(folder / "b", folder / "c");
  struct stat found {};
  ASSERT_EQ(::stat((folder / "c").c_str(), &found), 0);
  EXPECT_EQ(found.st_mode & 0777U, 0600U);
}

Settings next_settings() {
  Settings settings = test_settings();
  settings.migrations.push_back(
      {newest_version(settings.migrations) + 1, "CREATE TABLE rooms (id TEXT NOT NULL) STRICT;"});
  return settings;
}

TEST(copying, a_copy_is_kept_before_a_migration) {
  const Folder folder;
  { make_example(folder / "b"); }
  write_bytes(folder / "b.before-v4", "mine");
  {
    const Book book = Opener::open(folder / "b", next_settings());
    ASSERT_TRUE(book.migrated());
    EXPECT_EQ(book.migrated()->from, 3);
    EXPECT_EQ(book.migrated()->to, 4);
    EXPECT_EQ(book.migrated()->copy, folder / "b.before-v4-2");
  }
  EXPECT_EQ(bytes_of(folder / "b.before-v4"), "mine");
  EXPECT_THAT(names_in(folder), UnorderedElementsAre("b", "b.before-v4", "b.before-v4-2"));
  EXPECT_EQ(Book::open(folder / "b.before-v4-2").records(), example_records());
  EXPECT_FALSE(Opener::open(folder / "b", next_settings()).migrated());
}

}  // namespace
}  // namespace likelihet::book::copying_test
