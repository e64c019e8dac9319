// Two processes at one book: one waits, and the result is as if one had done both.
#include <array>

#include <book/example.hpp>
#include <book/random_herd.hpp>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

namespace likelihet::book::two_processes_test {
namespace {

using testing::IsEmpty;
using testing::UnorderedElementsAre;

/// Adds the records in `count` processes that start together, and returns how many animals each
/// says that it added (or -1). A process reports in tens by its exit status.
std::vector<int> add_at_once(const std::filesystem::path& file,
                             const std::vector<colony::Records>& records) {
  std::array<int, 2> start{};
  EXPECT_EQ(::pipe(start.data()), 0);
  std::vector<pid_t> children;
  for (const colony::Records& portion : records) {
    const pid_t child = ::fork();
    if (child == 0) {
      ::close(start[1]);
      char nothing = 0;
      static_cast<void>(::read(start[0], &nothing, 1));  // returns when the parent closes its end
      try {
        Settings settings = test_settings();
        settings.patience = std::chrono::seconds(20);
        Book book = Opener::open(file, settings);
        const auto outcome = book.add(portion, Mode::commit);
        ::_exit(static_cast<int>(std::get<Change>(outcome).animals_added / 10));
      } catch (...) {
        ::_exit(255);
      }
    }
    children.push_back(child);
  }
  ::close(start[0]);
  ::close(start[1]);
  std::vector<int> added_animals;
  for (const pid_t child : children) {
    int status = 0;
    ::waitpid(child, &status, 0);
    added_animals.push_back(
        WIFEXITED(status) && WEXITSTATUS(status) != 255 ? WEXITSTATUS(status) * 10 : -1);
  }
  return added_animals;
}

TEST(two_processes, the_same_document_is_added_once) {
  const Folder folder;
  { Opener::create(folder / "b", example_model(), test_settings()); }
  const colony::Records herd = large_herd(498);
  EXPECT_THAT(add_at_once(folder / "b", {herd, herd}), UnorderedElementsAre(500, 0));
  const Book book = Opener::open(folder / "b", test_settings());
  EXPECT_EQ(book.records(), herd);
  EXPECT_THAT(book.check(), IsEmpty());
}

TEST(two_processes, different_documents_are_both_added) {
  const Folder folder;
  { make_example(folder / "b"); }
  std::vector<colony::Records> portions(4);
  for (std::size_t i = 0; i < portions.size(); ++i) {
    for (int animal = 0; animal < 100; ++animal) {
      portions[i].animals.push_back(
          {std::to_string(i) + '-' + std::to_string(animal), {}, {}, {}, {}, {}, {}, {}});
    }
  }
  EXPECT_THAT(add_at_once(folder / "b", portions), UnorderedElementsAre(100, 100, 100, 100));
  const Book book = Opener::open(folder / "b", test_settings());
  EXPECT_EQ(book.records().animals.size(), 403U);
  EXPECT_THAT(book.check(), IsEmpty());
}

TEST(two_processes, one_of_two_that_make_the_same_book_is_refused) {
  for (int round = 0; round < 10; ++round) {
    const Folder folder;
    const std::filesystem::path file = folder / "b";
    const colony::Model model = example_model();
    const pid_t child = ::fork();
    const auto make = [&] {
      try {
        Opener::create(file, model, test_settings());
        return 0;
      } catch (const BookError& error) {
        return error.trouble() == BookTrouble::exists ? 1 : 2;
      }
    };
    if (child == 0) {
      ::_exit(make());
    }
    const int mine = make();
    int status = 0;
    ::waitpid(child, &status, 0);
    EXPECT_EQ(mine + WEXITSTATUS(status), 1) << round;
    EXPECT_THAT(Opener::open(file, test_settings()).check(), IsEmpty()) << round;
  }
}

}  // namespace
}  // namespace likelihet::book::two_processes_test
