// A folder that several users share: whoever may only read a book leaves nothing that locks its
// owner out.
#include <functional>

#include <book/example.hpp>
#include <book/random_herd.hpp>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

namespace likelihet::book::shared_folder_test {
namespace {

namespace fs = std::filesystem;
using testing::ElementsAre;

constexpr uid_t owner = 65533;
constexpr uid_t reader = 65534;

std::vector<std::string> names_in(const fs::path& folder) {
  std::vector<std::string> names;
  for (const auto& entry : fs::directory_iterator(folder)) {
    names.push_back(entry.path().filename().string());
  }
  return names;
}

/// A book of `owner`'s, which all may read, in a folder in which all may make files.
class shared_folder : public testing::Test {
 protected:
  shared_folder() {
    if (::geteuid() != 0) return;
    { make_example(file_); }
    fs::permissions(folder_.path(), fs::perms(0777));
    fs::permissions(file_, fs::perms(0644));
    EXPECT_EQ(::chown(file_.c_str(), owner, owner), 0);
  }
  void SetUp() override {
    if (::geteuid() != 0) GTEST_SKIP() << "only the superuser can act as two users";
  }

  /// What `work` returned in a process of that user; the process ends as if killed.
  static int as(uid_t user, const std::function<int()>& work) {
    const pid_t child = ::fork();
    if (child == 0) {
      int status = 77;
      try {
        if (::setgid(user) == 0 && ::setuid(user) == 0) status = work();
      } catch (...) {
        status = 78;
      }
      ::_exit(status);
    }
    int status = 0;
    ::waitpid(child, &status, 0);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  }

  int owner_adds(const std::string& id) {
    return as(owner, [&] {
      Book book = Opener::open(file_, test_settings());
      colony::Records one;
      one.animals.emplace_back().id = id;
      return std::holds_alternative<Change>(book.add(one, Mode::commit)) ? 0 : 1;
    });
  }

  Folder folder_;
  fs::path file_ = folder_ / "a b%?.book";
};

TEST_F(shared_folder, a_killed_reader_leaves_nothing_and_the_owner_goes_on) {
  const auto read = [&] {
    const auto book = std::make_unique<Book>(Opener::open(file_, test_settings()));
    const bool same = book->records() == example_records() && book->check().empty();
    ::_exit(same ? 0 : 1);  // the book is still open
    return 2;
  };
  EXPECT_EQ(as(reader, read), 0);
  EXPECT_THAT(names_in(folder_.path()), ElementsAre(file_.filename().string()));
  EXPECT_EQ(owner_adds("N1"), 0);
}

TEST_F(shared_folder, a_reader_sees_what_lies_in_the_log_of_an_owner_who_was_killed) {
  const int status = as(owner, [&] {
    Book book = Opener::open(file_, test_settings());
    colony::Records one;
    one.animals.emplace_back().id = "N1";
    static_cast<void>(book.add(one, Mode::commit));
    ::_exit(0);  // as if killed
    return 1;
  });
  ASSERT_EQ(status, 0);
  // The log is left with the last record in it.
  ASSERT_TRUE(fs::exists(file_.string() + "-wal"));
  EXPECT_EQ(as(reader,
               [&] {
                 const Book book = Opener::open(file_, test_settings());
                 const auto records = book.records();
                 return records.animals.back().id == "N1" ? 0 : 1;
               }),
            0);
  EXPECT_EQ(owner_adds("N2"), 0);
}

}  // namespace
}  // namespace likelihet::book::shared_folder_test
