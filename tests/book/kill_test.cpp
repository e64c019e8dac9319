// Killed at any moment, a book is what it was before or what it was to be.
#include <chrono>
#include <csignal>
#include <random>

#include <book/example.hpp>
#include <book/random_herd.hpp>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

namespace likelihet::book::kill_test {
namespace {

namespace fs = std::filesystem;
using testing::IsEmpty;

/// Starts `work` in a child, kills it after `microseconds`, and returns whether it was done before.
bool killed_after(unsigned microseconds, const std::function<void()>& work) {
  const pid_t child = ::fork();
  if (child == 0) {
    work();
    ::_exit(0);
  }
  ::usleep(microseconds);
  ::kill(child, SIGKILL);
  int status = 0;
  ::waitpid(child, &status, 0);
  return WIFEXITED(status);
}

void remove_book(const fs::path& file) {
  for (const char* suffix : {"", "-wal", "-shm", "-journal"}) {
    fs::remove(file.string() + suffix);
  }
}

/// How long the work takes unhindered, in microseconds.
unsigned duration_of(const std::function<void()>& work) {
  const auto start = std::chrono::steady_clock::now();
  in_child([&] {
    work();
    return 0;
  });
  return static_cast<unsigned>(std::chrono::duration_cast<std::chrono::microseconds>(
                                   std::chrono::steady_clock::now() - start)
                                   .count());
}

class kill_at_any_moment : public testing::TestWithParam<std::string> {};

TEST_P(kill_at_any_moment, an_import_is_whole_or_absent) {
  const Folder folder;
  const fs::path file = folder / "b";
  const colony::Records herd = large_herd(300);
  const auto start_anew = [&] {
    remove_book(file);
    { make_example(file); }
    ASSERT_EQ(run_raw(file, "PRAGMA journal_mode = " + GetParam()), "");
  };
  const auto work = [&] {
    Book book = Opener::open(file, test_settings());
    static_cast<void>(book.add(herd, Mode::commit));
  };
  start_anew();
  const unsigned whole_time = duration_of(work);
  std::mt19937 random(20260504);
  for (int round = 0; round < 30; ++round) {
    start_anew();
    const bool done = killed_after(static_cast<unsigned>(random()) % (whole_time + 1), work);
    Book book = Opener::open(file, test_settings());
    EXPECT_THAT(book.check(), IsEmpty()) << round;
    const bool is_old = book.records() == example_records();
    EXPECT_EQ(book.records().animals.size(), is_old ? 3U : 305U) << round;
    EXPECT_EQ(book.records().observations.size(), is_old ? 6U : 306U) << round;
    EXPECT_FALSE(done && is_old) << round;
    added(book, herd);  // and it goes on from there
    EXPECT_EQ(book.records().animals.size(), 305U) << round;
  }
}

INSTANTIATE_TEST_SUITE_P(journals, kill_at_any_moment, testing::Values("WAL", "DELETE"));

TEST(kill, create_leaves_a_whole_book_or_none) {
  const Folder folder;
  const fs::path file = folder / "b";
  const colony::Model model = example_model();
  const auto work = [&] { Opener::create(file, model, test_settings()); };
  const unsigned whole_time = duration_of(work);
  std::mt19937 random(20260505);
  for (int round = 0; round < 30; ++round) {
    remove_book(file);
    killed_after(static_cast<unsigned>(random()) % (whole_time + 1), work);
    try {
      const Book book = Opener::open(file, test_settings());
      EXPECT_THAT(book.check(), IsEmpty()) << round;
      EXPECT_EQ(book.records(), colony::Records()) << round;
    } catch (const BookError& error) {
      // Nothing yet, or a file that was taken and not filled.
      EXPECT_THAT(error.trouble(), testing::AnyOf(BookTrouble::missing, BookTrouble::not_a_book))
          << round << ' ' << error.what();
    }
  }
}

}  // namespace
}  // namespace likelihet::book::kill_test
