// A small model and its records, a folder of its own for each test, and a clock that stands still.
#pragma once

#include <filesystem>
#include <functional>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <likelihet/book/book.hpp>
#include <likelihet/book/book_error.hpp>
#include <likelihet/book/settings.hpp>
#include <likelihet/colony/model.hpp>
#include <likelihet/colony/records.hpp>

namespace likelihet::book {

/// A folder that is gone after the test.
class Folder {
 public:
  Folder();
  ~Folder();
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  std::filesystem::path operator/(const std::string& name) const { return path_ / name; }
  [[nodiscard]] const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

colony::Date day(const std::string& text);
colony::Timestamp moment(const std::string& text);

/// Two loci, one marker, one assay, one scorer: all invented. `fleck_clear` is P(clear | other).
colony::Model example_model(double fleck_clear = 0.05);

/// Two founders, a clutch with a hatchling, and an observation of each kind.
colony::Records example_records();

/// The clock stands at 2026-05-04T03:02:01Z, and a locked book is given up at once.
Settings test_settings();

Book make_example(const std::filesystem::path& file);

/// Adds records that must fit.
Change added(Book& book, const colony::Records& records, Mode mode = Mode::commit);

/// The faults of adding records that must not fit.
colony::Faults refused(Book& book, const colony::Records& records, Mode mode = Mode::commit);

/// All bytes of a file.
std::string bytes_of(const std::filesystem::path& file);
void write_bytes(const std::filesystem::path& file, const std::string& bytes);

/// Runs statements on the file without the program; returns SQLite's message, empty if they ran.
std::string run_raw(const std::filesystem::path& file, const std::string& statements);

/// The trouble that `work` throws; fails the test if it throws none.
template <class Work>
BookTrouble trouble_from(Work&& work) {
  try {
    work();
  } catch (const BookError& error) {
    return error.trouble();
  }
  ADD_FAILURE() << "no BookError was thrown";
  return BookTrouble::exists;
}

/// Calls `work` in a child process and returns its exit status, or -signal if one ended it. The
/// child's gtest results are its own: it must say by its exit status what it found.
int in_child(const std::function<int()>& work);

}  // namespace likelihet::book
