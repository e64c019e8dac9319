// Files that are no book, or a broken one: each is told apart, none is changed, none hangs.
#include <algorithm>
#include <cstring>
#include <random>

#include <book/example.hpp>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/un.h>
#include <unistd.h>

namespace likelihet::book::bad_files_test {
namespace {

namespace fs = std::filesystem;
using testing::AnyOf;
using testing::HasSubstr;

BookTrouble opening(const fs::path& file) {
  return trouble_from([&] { Opener::open(file, test_settings()); });
}

/// Opens the file, expecting this trouble, and checks that it is byte for byte as before.
void refused_untouched(const fs::path& file, BookTrouble trouble) {
  const std::string before = bytes_of(file);
  EXPECT_EQ(opening(file), trouble) << file;
  EXPECT_EQ(bytes_of(file), before) << file;
}

TEST(bad_files, a_missing_file_is_missing_and_is_not_made) {
  const Folder folder;
  EXPECT_EQ(opening(folder / "none"), BookTrouble::missing);
  EXPECT_EQ(opening(folder / "none" / "none"), BookTrouble::missing);
  EXPECT_EQ(opening(""), BookTrouble::missing);
  EXPECT_FALSE(fs::exists(folder / "none"));
  fs::create_symlink(folder / "none", folder / "dangling");
  EXPECT_EQ(opening(folder / "dangling"), BookTrouble::missing);
}

TEST(bad_files, a_directory_is_no_book) {
  const Folder folder;
  EXPECT_EQ(opening(folder.path()), BookTrouble::not_a_book);
}

TEST(bad_files, a_device_is_no_book) {
  EXPECT_EQ(opening("/dev/null"), BookTrouble::not_a_book);
}

TEST(bad_files, a_pipe_is_no_book_and_does_not_hang) {
  const Folder folder;
  ASSERT_EQ(::mkfifo((folder / "pipe").c_str(), 0600), 0);
  EXPECT_EQ(opening(folder / "pipe"), BookTrouble::not_a_book);
}

TEST(bad_files, a_socket_is_no_book) {
  const Folder folder;
  const int descriptor = ::socket(AF_UNIX, SOCK_STREAM, 0);
  sockaddr_un address{};
  address.sun_family = AF_UNIX;
  const std::string name = (folder / "s").string();
  ASSERT_LT(name.size(), sizeof address.sun_path);
  std::memcpy(address.sun_path, name.c_str(), name.size() + 1);
  ASSERT_EQ(::bind(descriptor, reinterpret_cast<const sockaddr*>(&address), sizeof address), 0);
  EXPECT_EQ(opening(folder / "s"), BookTrouble::not_a_book);
  ::close(descriptor);
}

TEST(bad_files, empty_and_text_files_are_no_book) {
  const Folder folder;
  const std::vector<std::string> contents = {"", "S", "SQLite format 3", "{\"format\": 1}\n",
                                             std::string(5000, '\0')};
  for (const std::string& content : contents) {
    write_bytes(folder / "text", content);
    refused_untouched(folder / "text", BookTrouble::not_a_book);
  }
}

TEST(bad_files, another_programs_database_is_no_book) {
  const Folder folder;
  write_bytes(folder / "db", "");
  ASSERT_EQ(run_raw(folder / "db", "CREATE TABLE animals (id TEXT)"), "");
  refused_untouched(folder / "db", BookTrouble::not_a_book);
  ASSERT_EQ(run_raw(folder / "db", "PRAGMA application_id = 252006673"), "");
  refused_untouched(folder / "db", BookTrouble::not_a_book);
}

TEST(bad_files, our_mark_without_tables_or_version_is_damage) {
  const Folder folder;
  write_bytes(folder / "db", "");
  ASSERT_EQ(run_raw(folder / "db", "PRAGMA application_id = " + std::to_string(application_id) +
                                       "; CREATE TABLE x (y)"),
            "");
  refused_untouched(folder / "db", BookTrouble::damaged);
  ASSERT_EQ(run_raw(folder / "db", "PRAGMA user_version = 1"), "");
  refused_untouched(folder / "db", BookTrouble::damaged);
  ASSERT_EQ(run_raw(folder / "db", "PRAGMA user_version = -5"), "");
  refused_untouched(folder / "db", BookTrouble::damaged);
}

TEST(bad_files, a_book_cut_off_is_damaged) {
  const Folder folder;
  { make_example(folder / "b"); }
  const std::string whole = bytes_of(folder / "b");
  for (const std::size_t size : {std::size_t{60}, std::size_t{99}}) {
    write_bytes(folder / "cut", whole.substr(0, size));
    refused_untouched(folder / "cut", BookTrouble::damaged);
  }
  for (const std::size_t size : {std::size_t{100}, std::size_t{4096}, whole.size() / 2}) {
    write_bytes(folder / "cut", whole.substr(0, size));
    EXPECT_EQ(trouble_from([&] {
                static_cast<void>(Opener::open(folder / "cut", test_settings()).records());
              }),
              BookTrouble::damaged)
        << size;
  }
}

TEST(bad_files, a_model_that_cannot_be_read_is_damage) {
  const Folder folder;
  { make_example(folder / "b"); }
  ASSERT_EQ(run_raw(folder / "b", "DROP TRIGGER model_update; UPDATE model SET document = '{'"),
            "");
  EXPECT_EQ(opening(folder / "b"), BookTrouble::damaged);
}

TEST(bad_files, a_date_that_is_none_is_damage) {
  const Folder folder;
  { make_example(folder / "b"); }
  ASSERT_EQ(run_raw(folder / "b", "UPDATE animals SET hatched = '2024-02-30' WHERE id = 'M02'"),
            "");
  const Book book = Opener::open(folder / "b", test_settings());
  EXPECT_EQ(trouble_from([&] { static_cast<void>(book.records()); }), BookTrouble::damaged);
  ASSERT_FALSE(book.check().empty());
  EXPECT_THAT(book.check().back().what, HasSubstr("2024-02-30"));
}

// Whatever bytes are overwritten, the book opens, or BookError says why it does not; a fault in
// what can still be read is found by check().
TEST(bad_files, overwritten_bytes_never_get_out_as_anything_but_a_book_error) {
  const Folder folder;
  { make_example(folder / "b"); }
  const std::string whole = bytes_of(folder / "b");
  std::mt19937 random(20260504);
  int damaged = 0;
  for (int round = 0; round < 150; ++round) {
    std::string bytes = whole;
    const std::size_t from = random() % bytes.size();
    const std::size_t length = std::min<std::size_t>(1U << (random() % 10), bytes.size() - from);
    for (std::size_t i = from; i < from + length; ++i) {
      bytes[i] = static_cast<char>(random());
    }
    write_bytes(folder / "c", bytes);
    try {
      Book book = Opener::open(folder / "c", test_settings());
      damaged += book.check().empty() ? 0 : 1;
      static_cast<void>(book.records());
      static_cast<void>(book.ledger());
      static_cast<void>(book.add(example_records(), Mode::commit));
    } catch (const BookError& error) {
      EXPECT_THAT(error.trouble(), AnyOf(BookTrouble::damaged, BookTrouble::not_a_book,
                                         BookTrouble::newer_version, BookTrouble::storage))
          << error.what();
      ++damaged;
    }
    for (const char* suffix : {"-wal", "-shm", "-journal"}) {
      fs::remove(folder / (std::string("c") + suffix));
    }
  }
  EXPECT_GT(damaged, 30);
}

TEST(bad_files, create_refuses_any_file_of_that_name) {
  const Folder folder;
  write_bytes(folder / "text", "mine");
  fs::create_directory(folder / "folder");
  fs::create_symlink(folder / "nowhere", folder / "dangling");
  for (const char* name : {"text", "folder", "dangling"}) {
    EXPECT_EQ(trouble_from([&] { Book::create(folder / name, example_model()); }),
              BookTrouble::exists)
        << name;
  }
  EXPECT_EQ(bytes_of(folder / "text"), "mine");
  EXPECT_FALSE(fs::exists(folder / "nowhere"));
}

TEST(bad_files, create_without_its_directory_is_a_matter_of_storage) {
  const Folder folder;
  EXPECT_EQ(trouble_from([&] { Book::create(folder / "no" / "b", example_model()); }),
            BookTrouble::storage);
  EXPECT_EQ(trouble_from([&] { Book::create("", example_model()); }), BookTrouble::storage);
  EXPECT_EQ(trouble_from([&] { Book::create(folder / std::string(300, 'x'), example_model()); }),
            BookTrouble::storage);
}

TEST(bad_files, messages_name_the_file_and_what_to_do) {
  const Folder folder;
  try {
    Book::open(folder / "rack.book");
    FAIL();
  } catch (const BookError& error) {
    EXPECT_THAT(error.what(), HasSubstr("rack.book"));
    EXPECT_THAT(error.what(), HasSubstr("init"));
  }
}

}  // namespace
}  // namespace likelihet::book::bad_files_test
