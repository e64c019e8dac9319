// Backing up, comparing, and giving the copy its name.
#include <array>
#include <cerrno>
#include <chrono>
#include <cstring>
#include <random>
#include <string>
#include <system_error>
#include <thread>

#include <SQLiteCpp/Backup.h>
#include <SQLiteCpp/Column.h>
#include <SQLiteCpp/Statement.h>
#include <fcntl.h>
#include <sqlite3.h>
#include <sys/stat.h>
#include <unistd.h>

#include <likelihet/book/book_error.hpp>
#include <likelihet/book/checking.hpp>
#include <likelihet/book/connection.hpp>
#include <likelihet/book/copying.hpp>
#include <likelihet/book/file_kind.hpp>
#include <likelihet/book/sqlite_errors.hpp>

namespace likelihet::book {
namespace {

namespace fs = std::filesystem;

BookError cannot_copy(const fs::path& to, int error) {
  return {BookTrouble::storage, to.string() + ": cannot be made (" +
                                    std::generic_category().message(error) +
                                    "); check the directory, its permissions and the free space"};
}

BookError taken_name(const fs::path& to) {
  return {BookTrouble::exists, to.string() +
                                   ": there is such a file already, and it is not overwritten; "
                                   "choose another name"};
}

bool is_there(const fs::path& file) {
  std::error_code none;
  return fs::symlink_status(file, none).type() != fs::file_type::not_found;
}

/// The copy until it has its name; what is left of it goes at the end.
class Unnamed {
 public:
  Unnamed(const fs::path& book, const fs::path& to) : to_(to) {
    std::random_device device;
    std::array<char, 40> name{};
    std::snprintf(name.data(), name.size(), ".likelihet-%08x%08x.part", device(), device());
    file_ = fs::absolute(to).parent_path() / name.data();
    const int made =
        ::open(file_.c_str(), O_CREAT | O_EXCL | O_NOFOLLOW | O_WRONLY | O_CLOEXEC, 0600);
    if (made < 0) throw cannot_copy(to, errno);
    struct stat as_book {};
    if (::stat(book.c_str(), &as_book) == 0) {
      static_cast<void>(::fchmod(made, (as_book.st_mode & 0777U) | 0600U) == 0);
    }
    ::close(made);
  }
  ~Unnamed() {
    std::error_code ignored;
    for (const char* suffix : {"-journal", "-wal", "-shm", ""}) {
      fs::remove(file_.string() + suffix, ignored);
    }
  }
  Unnamed(const Unnamed&) = delete;
  Unnamed& operator=(const Unnamed&) = delete;

  [[nodiscard]] const fs::path& file() const { return file_; }

  /// Never replaces: a hard link is refused where there is something. File systems without them
  /// (EPERM and others) have a last look instead.
  void name() {
    if (::link(file_.c_str(), to_.c_str()) == 0) return;
    const int error = errno;
    if (error == EEXIST || is_there(to_)) throw taken_name(to_);
    if (::rename(file_.c_str(), to_.c_str()) != 0) throw cannot_copy(to_, error);
  }

 private:
  fs::path to_;
  fs::path file_;
};

/// A lock of another connection's stops no copy: it is waited for as long as for writing.
CopyEnd back_up(SQLite::Database& from, SQLite::Database& to, const Settings& settings,
                const std::atomic<bool>* stop) {
  constexpr int pages_a_step = 256;
  constexpr auto pause = std::chrono::milliseconds(20);
  SQLite::Backup backup(to, from);
  auto left = settings.patience;
  for (;;) {
    if (stop != nullptr && *stop) return CopyEnd::stopped;
    const int result = backup.executeStep(pages_a_step);
    if (result == SQLITE_DONE) return CopyEnd::done;
    if (result == SQLITE_OK) continue;
    if (left <= std::chrono::milliseconds(0)) {
      throw SQLite::Exception("database is locked", SQLITE_BUSY);
    }
    std::this_thread::sleep_for(pause);
    left -= pause;
  }
}

bool same_cell(const SQLite::Column& a, const SQLite::Column& b) {
  if (a.getType() != b.getType()) return false;
  if (a.isInteger()) return a.getInt64() == b.getInt64();
  if (a.isFloat()) return a.getDouble() == b.getDouble();
  const int bytes = a.getBytes();
  return bytes == b.getBytes() && (bytes == 0 || std::memcmp(a.getBlob(), b.getBlob(),
                                                             static_cast<std::size_t>(bytes)) == 0);
}

/// Both are read in the order in which they lie, which a copy of all pages keeps.
bool same_table(const SQLite::Database& one, const SQLite::Database& other,
                const std::string& table) {
  const std::string all = "SELECT * FROM \"" + table + "\"";
  SQLite::Statement a(one, all);
  SQLite::Statement b(other, all);
  for (;;) {
    const bool more = a.executeStep();
    if (more != b.executeStep()) return false;
    if (!more) return true;
    for (int column = 0; column < a.getColumnCount(); ++column) {
      if (!same_cell(a.getColumn(column), b.getColumn(column))) return false;
    }
  }
}

bool same_content(const SQLite::Database& one, const SQLite::Database& other) {
  const auto parts = schema_parts(one);
  if (parts != schema_parts(other) || schema_version(one) != schema_version(other)) return false;
  for (const SchemaPart& part : parts) {
    if (part.kind == "table" && !same_table(one, other, part.name)) return false;
  }
  return true;
}

bool is_sound(const SQLite::Database& copy) {
  SQLite::Statement query(copy, "PRAGMA integrity_check");
  return query.executeStep() && query.getColumn(0).getString() == "ok" && !query.executeStep();
}

CopyEnd fill(const fs::path& book, const fs::path& file, const Settings& settings,
             const std::atomic<bool>* stop) {
  SQLite::Database from = Connection::raw(book, settings);
  const Reading one_state(from);
  static_cast<void>(schema_parts(from));  // the state begins with the first query of a table
  const int newest = newest_version(settings.migrations);
  if (schema_version(from) > newest) {  // in the log beside it, which is left there
    sqlite3_db_config(from.getHandle(), SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 1, nullptr);
    throw newer_version(book, schema_version(from), newest);
  }
  SQLite::Database copy(file.string(), SQLite::OPEN_READWRITE);
  if (back_up(from, copy, settings, stop) == CopyEnd::stopped) return CopyEnd::stopped;
  if (!is_sound(copy)) throw damaged(book, "SQLite finds faults in the copy");
  if (!same_content(from, copy)) throw damaged(book, "the copy does not hold the same");
  return CopyEnd::done;
}

CopyEnd copied(const fs::path& book, const fs::path& to, const Settings& settings,
               const std::atomic<bool>* stop) {
  return translated(book, [&] {
    require_book(book, newest_version(settings.migrations));
    if (is_there(to)) throw taken_name(to);
    Unnamed copy(book, to);
    const CopyEnd end = fill(book, copy.file(), settings, stop);
    if (end == CopyEnd::done) copy.name();
    return end;
  });
}

}  // namespace

CopyEnd copy_book(const fs::path& book, const fs::path& to, const std::atomic<bool>* stop) {
  return copied(book, to, Settings(), stop);
}

fs::path copy_before_migration(const fs::path& book, int next) {
  constexpr int most_names = 100;
  const std::string name = book.string() + ".before-v" + std::to_string(next);
  for (int number = 1; number < most_names; ++number) {
    fs::path to = number == 1 ? name : name + '-' + std::to_string(number);
    if (is_there(to)) continue;
    copied(book, to, Settings(), nullptr);
    return to;
  }
  throw taken_name(name);
}

}  // namespace likelihet::book
