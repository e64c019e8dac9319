// Full disks, files that cannot be written, and books that another process holds.
#include <chrono>
#include <csignal>
#include <thread>

#include <SQLiteCpp/Database.h>
#include <book/example.hpp>
#include <book/random_herd.hpp>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sqlite3.h>
#include <sys/resource.h>
#include <unistd.h>

#include <likelihet/book/sqlite_errors.hpp>

namespace likelihet::book::storage_test {
namespace {

namespace fs = std::filesystem;
using testing::IsEmpty;

TEST(storage, result_codes_of_sqlite_are_told_apart) {
  const std::vector<std::pair<int, BookTrouble>> expected = {
      {SQLITE_BUSY, BookTrouble::locked},        {SQLITE_BUSY_SNAPSHOT, BookTrouble::locked},
      {SQLITE_LOCKED, BookTrouble::locked},      {SQLITE_FULL, BookTrouble::storage},
      {SQLITE_READONLY, BookTrouble::storage},   {SQLITE_READONLY_DBMOVED, BookTrouble::storage},
      {SQLITE_IOERR, BookTrouble::storage},      {SQLITE_IOERR_FSYNC, BookTrouble::storage},
      {SQLITE_CANTOPEN, BookTrouble::storage},   {SQLITE_NOMEM, BookTrouble::storage},
      {SQLITE_CORRUPT, BookTrouble::damaged},    {SQLITE_NOTADB, BookTrouble::damaged},
      {SQLITE_CONSTRAINT, BookTrouble::damaged}, {SQLITE_ERROR, BookTrouble::damaged}};
  for (const auto& [code, trouble] : expected) {
    EXPECT_EQ(trouble_of(code), trouble) << code;
  }
}

TEST(storage, a_book_that_may_not_grow_stays_as_it_was) {
  const Folder folder;
  { make_example(folder / "b"); }
  Settings small = test_settings();
  small.page_limit = static_cast<std::int64_t>(fs::file_size(folder / "b") / 4096 + 2);
  {
    Book book = Opener::open(folder / "b", small);
    EXPECT_EQ(trouble_from([&] { static_cast<void>(book.add(large_herd(2000), Mode::commit)); }),
              BookTrouble::storage);
    EXPECT_EQ(book.records(), example_records());  // the same connection goes on
  }
  EXPECT_THAT(Opener::open(folder / "b", test_settings()).check(), IsEmpty());
}

/// Every file this process writes ends at `bytes`; writing on gives an error, as on a full disk.
void limit_files(rlim_t bytes) {
  std::signal(SIGXFSZ, SIG_IGN);
  const rlimit limit{bytes, bytes};
  ::setrlimit(RLIMIT_FSIZE, &limit);
}

TEST(storage, a_full_disk_leaves_the_book_as_it_was) {
  const Folder folder;
  { make_example(folder / "b"); }
  const int status = in_child([&] {
    limit_files(512 * 1024);
    Book book = Opener::open(folder / "b", test_settings());
    try {
      static_cast<void>(book.add(large_herd(20'000), Mode::commit));
    } catch (const BookError& error) {
      return error.trouble() == BookTrouble::storage && book.records() == example_records() ? 0 : 1;
    }
    return 2;
  });
  EXPECT_EQ(status, 0);
  const Book book = Opener::open(folder / "b", test_settings());
  EXPECT_EQ(book.records(), example_records());
  EXPECT_THAT(book.check(), IsEmpty());
}

TEST(storage, create_on_a_full_disk_removes_what_it_made) {
  for (const rlim_t bytes : {rlim_t{0}, rlim_t{8 * 1024}, rlim_t{40 * 1024}}) {
    const Folder folder;
    const int status = in_child([&] {
      limit_files(bytes);
      return trouble_from([&] { Book::create(folder / "b", example_model()); }) ==
                     BookTrouble::storage
                 ? 0
                 : 1;
    });
    EXPECT_EQ(status, 0) << bytes;
    EXPECT_TRUE(fs::is_empty(folder.path())) << bytes;
  }
}

/// Runs as an ordinary user: the superuser may write everything.
int as_ordinary_user(const std::function<int()>& work) {
  return in_child([&] {
    if (::geteuid() == 0 && (::setgid(65534) != 0 || ::setuid(65534) != 0)) {
      return 77;
    }
    return work();
  });
}

enum class ReadOnly { file, file_and_folder };

class read_only : public testing::TestWithParam<ReadOnly> {
 protected:
  read_only() {
    { make_example(file_); }
    fs::permissions(file_, fs::perms(0444));
    fs::permissions(folder_.path(), fs::perms(GetParam() == ReadOnly::file ? 0777 : 0555));
  }
  ~read_only() override { fs::permissions(folder_.path(), fs::perms(0777)); }

  Folder folder_;
  fs::path file_ = folder_ / "b # 1%?.book";
};

TEST_P(read_only, a_book_can_be_read) {
  const std::string before = bytes_of(file_);
  EXPECT_EQ(as_ordinary_user([&] {
              const Book book = Opener::open(file_, test_settings());
              const bool same = book.records() == example_records() && book.check().empty() &&
                                book.ledger().size() == 11;
              return same ? 0 : 1;
            }),
            0);
  EXPECT_EQ(bytes_of(file_), before);
}

TEST_P(read_only, an_import_can_be_rehearsed) {
  EXPECT_EQ(as_ordinary_user([&] {
              Book book = Opener::open(file_, test_settings());
              const auto outcome = book.add(large_herd(3), Mode::rehearse);
              return std::get<Change>(outcome).animals_added == 5 ? 0 : 1;
            }),
            0);
}

TEST_P(read_only, nothing_can_be_added) {
  EXPECT_EQ(as_ordinary_user([&] {
              Book book = Opener::open(file_, test_settings());
              return trouble_from([&] {
                       static_cast<void>(book.add(large_herd(3), Mode::commit));
                     }) == BookTrouble::storage
                         ? 0
                         : 1;
            }),
            0);
}

TEST_P(read_only, an_older_book_cannot_be_brought_up_to_date) {
  EXPECT_EQ(as_ordinary_user([&] {
              Settings next = test_settings();
              next.migrations.push_back({4, "CREATE TABLE rooms (id TEXT) STRICT"});
              return trouble_from([&] { Opener::open(file_, next); }) == BookTrouble::storage ? 0
                                                                                              : 1;
            }),
            0);
}

INSTANTIATE_TEST_SUITE_P(storage, read_only,
                         testing::Values(ReadOnly::file, ReadOnly::file_and_folder));

TEST(storage, a_file_that_may_not_be_read_is_a_matter_of_storage) {
  const Folder folder;
  { make_example(folder / "b"); }
  fs::permissions(folder.path(), fs::perms(0777));
  fs::permissions(folder / "b", fs::perms(0));
  const auto opening = [&] {
    return trouble_from([&] { Opener::open(folder / "b", test_settings()); }) ==
                   BookTrouble::storage
               ? 0
               : 1;
  };
  EXPECT_EQ(as_ordinary_user(opening), 0);
  fs::permissions(folder / "b", fs::perms(0644));
  fs::permissions(folder.path(), fs::perms(0));
  EXPECT_EQ(as_ordinary_user(opening), 0);
  fs::permissions(folder.path(), fs::perms(0700));
}

TEST(storage, a_writer_elsewhere_locks_the_book_for_writing_alone) {
  const Folder folder;
  Book book = make_example(folder / "b");
  SQLite::Database other((folder / "b").string(), SQLite::OPEN_READWRITE);
  other.exec("BEGIN IMMEDIATE");
  EXPECT_EQ(trouble_from([&] { static_cast<void>(book.add(large_herd(3), Mode::commit)); }),
            BookTrouble::locked);
  EXPECT_EQ(trouble_from(
                [&] { static_cast<void>(book.replace_model(example_model(0.2), Mode::commit)); }),
            BookTrouble::locked);
  EXPECT_EQ(book.records(), example_records());
  EXPECT_EQ(Opener::open(folder / "b", test_settings()).records(), example_records());
  EXPECT_EQ(added(book, large_herd(3), Mode::rehearse).animals_added, 5U);
  other.exec("ROLLBACK");
  EXPECT_EQ(added(book, large_herd(3)).animals_added, 5U);
}

TEST(storage, a_writer_that_is_done_in_time_is_waited_for) {
  const Folder folder;
  { make_example(folder / "b"); }
  Settings patient = test_settings();
  patient.patience = std::chrono::milliseconds(5000);
  Book book = Opener::open(folder / "b", patient);
  SQLite::Database other((folder / "b").string(), SQLite::OPEN_READWRITE);
  other.exec("BEGIN IMMEDIATE");
  std::thread ending([&] {
    std::this_thread::sleep_for(std::chrono::milliseconds(100));
    other.exec("COMMIT");
  });
  EXPECT_EQ(added(book, large_herd(3)).animals_added, 5U);
  ending.join();
}

TEST(storage, a_book_with_a_rollback_journal_works_as_well) {
  const Folder folder;
  { make_example(folder / "b"); }
  ASSERT_EQ(run_raw(folder / "b", "PRAGMA journal_mode = DELETE"), "");
  Book book = Opener::open(folder / "b", test_settings());
  EXPECT_EQ(added(book, large_herd(3)).animals_added, 5U);
  EXPECT_FALSE(fs::exists(folder / "b-wal"));
  EXPECT_THAT(book.check(), IsEmpty());
}

TEST(storage, a_new_book_has_a_write_ahead_log_here) {
  const Folder folder;
  const Book book = make_example(folder / "b");
  EXPECT_TRUE(fs::exists(folder / "b-wal"));
}

}  // namespace
}  // namespace likelihet::book::storage_test
